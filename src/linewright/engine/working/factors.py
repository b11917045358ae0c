"""Working of one factor out of a table."""

from __future__ import annotations

from linewright.engine.records import Factor
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.units import Dimension

CORNERS = ("x", "x0", "x1", "y", "y0", "y1", "f00", "f01", "f10", "f11")


def factor_step(at: Places, factor: Factor) -> Step:
    """The four entries of the table around the conditions, and what lies between them."""
    if factor.corner is None or factor.value is None:
        return Step(
            f"factor {factor.name}",
            "bilinear",
            (),
            Dimension.RATIO,
            None,
            factor.path,
            page=factor.page,
            note=factor.missing,
        )
    sources = [at.in_book(f"{factor.path}.{factor.key}")] * len(CORNERS)
    sources[0] = _input_from(at, factor, 0)
    if len(factor.inputs) > 1:
        sources[3] = _input_from(at, factor, 1)
    names = list(CORNERS)
    names[0] = factor.inputs[0][0]
    if len(factor.inputs) > 1:
        names[3] = factor.inputs[1][0]
    kinds = _dimensions(factor)
    inputs = tuple(Input(*item) for item in zip(names, factor.corner, kinds, sources, strict=True))
    return Step(
        f"factor {factor.name}",
        "bilinear",
        inputs,
        Dimension.RATIO,
        factor.value,
        factor.path,
        page=factor.page,
    )


def _dimensions(factor: Factor) -> list[Dimension]:
    first = factor.inputs[0][2]
    second = factor.inputs[1][2] if len(factor.inputs) > 1 else Dimension.NUMBER
    return [first] * 3 + [second] * 3 + [Dimension.RATIO] * 4


def _input_from(at: Places, factor: Factor, position: int) -> str:
    where = factor.inputs[position][3]
    if where.startswith("site."):
        return f"design:{where}"
    if where.startswith("capacity."):
        return at.in_book(where)
    return at.subject(f"measure:{where}" if where == "connection_ratio" else where)
