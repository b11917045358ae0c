"""Working of one factor out of a table."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.engine.capacity_records import Factor, SystemCapacity
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


def power_steps(at: Places, capacity: SystemCapacity, mode: str) -> Iterator[Step]:
    """Look-ups in the book's tables of capacity, and what lies between two connection ratios."""
    power = capacity.power
    if power is not None:
        yield from _looked_up(at, power.looked_up, power.ratios, power.capacity_w, words=("capacity", mode))


def input_steps(at: Places, capacity: SystemCapacity, mode: str) -> Iterator[Step]:
    """The power taken up: rated times its factors, or looked up in the book's tables."""
    used = capacity.used
    if used is None:
        return
    if used.rated_w is None:
        yield from _looked_up(at, used.factors, used.ratios, used.input_w, words=("input", mode))
        return
    yield from (factor_step(at, factor) for factor in used.factors)
    name = f"input, {mode}"
    if used.input_w is None:
        yield Step(name, "product", (), Dimension.POWER, None, note=f"unknown without {used.missing}")
        return
    inputs = (
        Input("rated input of the group", used.rated_w, Dimension.POWER, at.group_path()),
        *(Input(f.name, f.value or 0.0, Dimension.RATIO, at.in_book(f"{f.path}.{f.key}")) for f in used.factors),
    )
    yield Step(name, "product", inputs, Dimension.POWER, used.input_w)


def _looked_up(
    at: Places,
    found: Sequence[Factor],
    ratios: tuple[float, float] | None,
    result: float | None,
    *,
    words: tuple[str, str],
) -> Iterator[Step]:
    what, mode = words
    for factor in found:
        step = factor_step(at, factor)
        inputs = tuple(item._replace(dimension=_in_watts(item)) for item in step.inputs)
        yield step._replace(name=factor.name, dimension=Dimension.POWER, inputs=inputs)
    if result is None or ratios is None:
        return
    values = [factor.value or 0.0 for factor in found]
    table = at.in_book(f"capacity.{mode}.table")
    ratio = at.result.state.ground.index_sum / at.result.state.ground.group.index
    inputs = (
        Input("connection ratio", ratio, Dimension.RATIO, at.subject("measure:connection_ratio")),
        Input("ratio below", ratios[0], Dimension.RATIO, table),
        Input("ratio above", ratios[1], Dimension.RATIO, table),
        Input(f"{what} below", values[0], Dimension.POWER, table),
        Input(f"{what} above", values[-1], Dimension.POWER, table),
    )
    yield Step(f"{what} by the table, {mode}", "between", inputs, Dimension.POWER, result)


def _in_watts(item: Input) -> Dimension:
    return Dimension.POWER if item.name in CORNERS[6:] else item.dimension


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
