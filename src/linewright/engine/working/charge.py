"""Working of the charge: each term, their sum, floor and multiplier, rounding, total."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.schema import RoundAt
from linewright.engine.figures import ChargeTerm
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.units import Dimension, from_unit, to_unit


def charge_steps(at: Places) -> tuple[Step, ...]:
    """Steps behind the additional and the total charge."""
    return tuple(_steps(at))


def _steps(at: Places) -> Iterator[Step]:
    charge, book = at.result.charge, at.result.state.ground.book.book.charge
    for term in charge.terms:
        yield _term(at, term)
    if charge.sum_kg is None or charge.unrounded_kg is None or charge.rounded_kg is None or charge.total_kg is None:
        yield Step(
            "additional charge",
            "total",
            (),
            Dimension.MASS,
            None,
            note=f"unknown without {', '.join(charge.missing)}",
        )
        return
    terms = tuple(
        Input(term.name, term.kg or 0.0, Dimension.MASS, at.in_book(term.path or "charge")) for term in charge.terms
    )
    yield Step("sum of the terms", "total", terms, Dimension.MASS, charge.sum_kg)
    inputs: tuple[Input, ...] = (
        Input("sum of the terms", charge.sum_kg, Dimension.MASS, at.subject("charge")),
        Input(
            "multiplier",
            1.0 if charge.multiplier is None else charge.multiplier,
            Dimension.NUMBER,
            at.in_book("charge.multiplier"),
        ),
    )
    if book.min_kg is not None:
        inputs = (*inputs, Input("floor", book.min_kg, Dimension.MASS, at.in_book("charge.min")))
    yield Step(
        "additional charge before rounding",
        "charge_before_rounding",
        inputs,
        Dimension.MASS,
        charge.unrounded_kg,
        page=book.page,
    )
    if book.round is not None and book.round.at is RoundAt.TOTAL:
        yield _rounding(at, charge.unrounded_kg, charge.rounded_kg)
        yield from _in_kg(at, charge.rounded_kg)
    total = (
        Input("factory charge", charge.factory_kg, Dimension.MASS, at.group_path()),
        Input("additional charge", charge.rounded_kg, Dimension.MASS, at.subject("charge")),
    )
    yield Step("total charge", "total", total, Dimension.MASS, charge.total_kg)


def _term(at: Places, term: ChargeTerm) -> Step:
    if term.kg is None:
        return Step(term.name, "total", (), Dimension.MASS, None, note=f"unknown without {term.missing}")
    where = at.in_book(term.path or "charge")
    page = _page(at, term)
    if term.length_m is not None and term.kg_per_m is not None:
        less = f", less {term.covered_m:g} m covered by the factory charge" if term.covered_m else ""
        runs = f"design:{at.system_path}.runs"
        length = Input(f"length of {term.name}{less}", term.length_m, Dimension.LENGTH, runs)
        rate = Input("mass per length", term.kg_per_m, Dimension.LINEAR_MASS, where)
        rounding = at.result.state.ground.book.book.charge.round
        note = "then rounded to the book's step" if rounding is not None and rounding.at is RoundAt.TERM else ""
        return Step(
            term.name,
            "line_charge",
            (length, rate),
            Dimension.MASS,
            term.length_m * term.kg_per_m,
            "charge",
            page=page,
            note=note,
        )
    item = Input(term.name, term.kg, Dimension.MASS, where)
    return Step(term.name, "stated", (item,), Dimension.MASS, term.kg, "charge", page=page)


def _in_kg(at: Places, rounded_kg: float) -> Iterator[Step]:
    """The rounded charge in kilograms, where the book rounds in another unit."""
    step = at.result.state.ground.book.round_step
    if step is None or step.unit == "kg":
        return
    inputs = (
        Input(
            f"additional charge, in {step.unit}", to_unit(rounded_kg, step.unit), Dimension.NUMBER, at.subject("charge")
        ),
        Input(
            f"kilograms in one {step.unit}",
            from_unit(1.0, step.unit),
            Dimension.NUMBER,
            at.in_book("charge.round.step"),
        ),
    )
    yield Step("additional charge", "product", inputs, Dimension.MASS, rounded_kg)


def _page(at: Places, term: ChargeTerm) -> int | None:
    charge = at.result.state.ground.book.book.charge
    if term.path.startswith("charge.terms["):
        own = charge.terms[int(term.path.removeprefix("charge.terms[").partition("]")[0])].page
        return own if own is not None else charge.page
    return charge.page


def _rounding(at: Places, before_kg: float, after_kg: float) -> Step:
    book = at.result.state.ground.book
    step, rounding = book.round_step, book.book.charge.round
    if step is None or rounding is None:
        return Step("rounded", "stated", (), Dimension.MASS, None)
    inputs = (
        Input(
            f"before rounding, in {step.unit}",
            to_unit(before_kg, step.unit),
            Dimension.NUMBER,
            at.subject("charge"),
        ),
        Input(f"step, in {step.unit}", step.number, Dimension.NUMBER, at.in_book("charge.round.step")),
        Input("mode", rounding.mode.value, Dimension.NUMBER, at.in_book("charge.round.mode")),
    )
    name = f"additional charge, in {step.unit}"
    return Step(
        name,
        "rounded",
        inputs,
        Dimension.NUMBER,
        to_unit(after_kg, step.unit),
        "charge.round",
        page=book.book.charge.page,
    )
