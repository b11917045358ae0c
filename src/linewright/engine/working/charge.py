"""Working of the charge: each term, their sum, floor and multiplier, rounding, total."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.measures import FACTS
from linewright.book.schema import RoundAt
from linewright.engine.figures import ChargeBandRow, ChargePart, ChargeTerm
from linewright.engine.working.places import Places
from linewright.engine.working.steps import Input, Step
from linewright.units import Dimension, from_unit, to_unit


def charge_steps(at: Places) -> tuple[Step, ...]:
    """Steps behind the additional and the total charge."""
    return tuple(_steps(at))


def _steps(at: Places) -> Iterator[Step]:
    charge, book = at.result.charge, at.result.state.ground.book.book.charge
    for term in charge.terms:
        yield from _parts(at, term)
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
        return Step(
            term.name,
            "line_charge",
            (length, rate),
            Dimension.MASS,
            term.length_m * term.kg_per_m,
            "charge",
            page=page,
            note=_rounded_note(at),
        )
    if term.parts:
        parts = tuple(Input(part.name, part.kg, Dimension.MASS, _part_from(at, part)) for part in term.parts)
        total = sum(part.kg for part in term.parts)
        return Step(term.name, "total", parts, Dimension.MASS, total, "charge", page=page, note=_rounded_note(at))
    if term.band is not None:
        return _band(at, term, term.band, where)
    item = Input(term.name, term.kg, Dimension.MASS, where)
    return Step(term.name, "stated", (item,), Dimension.MASS, term.kg, "charge", page=page)


def _band(at: Places, term: ChargeTerm, band: ChargeBandRow, where: str) -> Step:
    """The row of a measure's bands that holds its value; a term that is rounded shows what the row adds."""
    row = at.result.state.ground.book.book.charge.terms[_position(term)].rows[int(where.rpartition("[")[2][:-1])]
    dimension = FACTS[band.measure].dimension
    inputs = (
        Input(band.measure.value, band.value, dimension, at.subject(f"measure:{band.measure}")),
        Input("upper edge of the row", band.upper, dimension, where),
        Input("value of the row", row.add_kg, Dimension.MASS, f"{where}.add"),
    )
    note = _rounded_note(at)
    return Step(term.name, "band_row", inputs, Dimension.MASS, row.add_kg, "charge", page=_page(at, term), note=note)


def _position(term: ChargeTerm) -> int:
    return int(term.path.removeprefix("charge.terms[").partition("]")[0])


def _parts(at: Places, term: ChargeTerm) -> Iterator[Step]:
    """Parts that are so much times a rate: lengths of tube by size, points of an index."""
    for part in term.parts:
        if part.amount is None or part.rate is None:
            continue
        where = at.in_book(part.path)
        if part.name.endswith(" index"):
            of = at.group_path() if part.name.startswith("outdoor") else at.subject("indoor_index")
            inputs = (
                Input(part.name, part.amount, Dimension.NUMBER, of),
                Input("mass per point", part.rate, Dimension.MASS, where),
            )
            formula = "product"
        else:
            runs = f"design:{at.system_path}.runs"
            inputs = (
                Input(f"length of {part.name}", part.amount, Dimension.LENGTH, runs),
                Input("mass per length", part.rate, Dimension.LINEAR_MASS, where),
            )
            formula = "line_charge"
        words = f"{term.name}, {part.name}"
        yield Step(words, formula, inputs, Dimension.MASS, part.kg, "charge", page=_page(at, term))


def _part_from(at: Places, part: ChargePart) -> str:
    """A part that was worked out stands in the charge itself, another in the book."""
    return at.in_book(part.path) if part.amount is None else at.subject("charge")


def _rounded_note(at: Places) -> str:
    rounding = at.result.state.ground.book.book.charge.round
    return "then rounded to the book's step" if rounding is not None and rounding.at is RoundAt.TERM else ""


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
        own = charge.terms[_position(term)].page
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
