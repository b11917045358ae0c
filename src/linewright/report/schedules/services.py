"""Electrical and condensate data of every unit, passed on from the books; nothing of it is judged or computed with."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from linewright.book.schema import Drain, DrainRow, OutdoorModule, SupplyRow
from linewright.book.services import Served, drain_of, supplies_of
from linewright.engine.records import Evaluation, SystemResult
from linewright.model.values import NodeKind
from linewright.report.schedules.tables import Cell, Column, Table
from linewright.report.service_words import (
    BY_OTHERS,
    NOT_IN_BOOK,
    PASSED_ON,
    frequency_words,
    from_words,
    voltage_words,
)
from linewright.units import Dimension

_HEAD = (Column("system", "system"), Column("id", "id"), Column("kind", "kind"), Column("model", "model"))
_TAIL = (Column("text", "as printed"), Column("book", "book"), Column("page", "page"))
_CHOICE = "Where a model may be had for several supplies, the design does not say which is ordered: each has a row."
_MODULES = "Every module of an outdoor group has its own row; nothing is summed over a group."
_KIT = "A pump kit is sold apart: without it the unit drains by gravity. The take-off counts none."


class ServedUnit(NamedTuple):
    """A module, a mode box or an indoor unit; the model is none where no box is known."""

    result: SystemResult
    id: str
    served: Served
    model: str | None
    module: OutdoorModule | None = None


def served_units(evaluation: Evaluation) -> Iterator[ServedUnit]:
    """Everything that has a supply, system by system: modules, mode boxes, indoor units."""
    for result in evaluation.systems:
        for module in result.state.ground.modules:
            yield ServedUnit(result, module.id, Served.OUTDOOR, module.data.model, module.data)
        for item in result.fittings:
            if item.kind is NodeKind.BOX:
                yield ServedUnit(result, item.id, Served.BOX, item.model or None)
        for unit in result.units:
            yield ServedUnit(result, unit.id, Served.INDOOR, unit.model)


def electrical(evaluation: Evaluation) -> Table:
    """Supplies: a row for each that the book states for a model, and one that says so where it states none."""
    columns = (
        *_HEAD,
        Column("supply", "supply"),
        Column("from", "supplied from"),
        Column("phases", "phases"),
        Column("voltage", "voltage"),
        Column("frequency", "frequency"),
        Column("min_circuit_current", "minimum circuit current", Dimension.CURRENT),
        Column("max_overcurrent", "maximum overcurrent protection", Dimension.CURRENT),
        Column("running_current", "running current", Dimension.CURRENT),
        Column("input", "power input", Dimension.ELECTRIC),
        Column("cooling_input", "rated input, cooling", Dimension.ELECTRIC),
        Column("heating_input", "rated input, heating", Dimension.ELECTRIC),
        *_TAIL,
    )
    units = list(served_units(evaluation))
    rows = [row for unit in units for row in _supplies(unit)]
    lacking = sum(not _stated(unit) for unit in units)
    notes = [PASSED_ON, BY_OTHERS, _MODULES]
    if any(len(_stated(unit)) > 1 for unit in units):
        notes.append(_CHOICE)
    if lacking:
        notes.append(f"Of {lacking} of {len(units)} the books state no supply: ask the maker")
    return Table("electrical", "Electrical data", columns, tuple(rows), tuple(notes))


def _stated(unit: ServedUnit) -> tuple[SupplyRow, ...]:
    return () if unit.model is None else supplies_of(unit.result.state.ground.book.book, unit.served, unit.model)


def _supplies(unit: ServedUnit) -> Iterator[tuple[Cell, ...]]:
    rated: tuple[Cell, Cell] = ("", "")
    if unit.module is not None:
        rated = (_or_not(unit.module.cooling_input_w), _or_not(unit.module.heating_input_w))
    head = (unit.result.id, unit.id, unit.served.value, unit.model)
    found = _stated(unit)
    if not found:
        # Without a model nobody can look: that is not known, which is another thing than not in the book.
        nothing: Cell = None if unit.model is None else NOT_IN_BOOK
        yield (*head, *((nothing,) * 9), *rated, "", unit.result.book, "")
    for number, row in enumerate(found, start=1):
        of = f"{number} of {len(found)}" if len(found) > 1 else "the only one"
        currents = (row.min_circuit_current_a, row.max_overcurrent_a, row.running_current_a, row.input_w)
        said = (of, from_words(row), _or_not(row.phases), voltage_words(row), frequency_words(row))
        tail = (row.text, unit.result.book, _page(row.page))
        yield (*head, *said, *(_or_not(one) for one in currents), *rated, *tail)


def condensate(evaluation: Evaluation) -> Table:
    """Condensate of every indoor unit: connection as printed, gravity or pump, lift."""
    columns = (
        *(column for column in _HEAD if column.key != "kind"),
        Column("room", "room"),
        Column("drain", "drains by"),
        Column("connection", "connection"),
        Column("lift", "lift of the pump", Dimension.TUBE),
        *_TAIL,
    )
    rows: list[tuple[Cell, ...]] = []
    notes, lacking, kit = [PASSED_ON, BY_OTHERS], 0, False
    for result in evaluation.systems:
        for unit in result.units:
            row = drain_of(result.state.ground.book.book, unit.model)
            lacking, kit = lacking + (row is None), kit or (row is not None and row.drain is Drain.PUMP_KIT)
            rows.append((result.id, unit.id, unit.model, unit.room, *_drain(row, result.book)))
    if kit:
        notes.append(_KIT)
    if lacking:
        notes.append(f"Of {lacking} of {len(rows)} the books state no condensate: ask the maker")
    return Table("condensate", "Condensate", columns, tuple(rows), tuple(notes))


def _drain(row: DrainRow | None, book: str) -> tuple[Cell, ...]:
    if row is None:
        return (NOT_IN_BOOK, NOT_IN_BOOK, NOT_IN_BOOK, "", book, "")
    drain = NOT_IN_BOOK if row.drain is None else row.drain.value
    # What drains by gravity has no lift, which is not the same as one that nobody states.
    lift: Cell = "" if row.drain is Drain.GRAVITY else _or_not(row.lift_m)
    return (drain, row.connection or NOT_IN_BOOK, lift, row.text, book, _page(row.page))


def _or_not(figure: float | None) -> Cell:
    return NOT_IN_BOOK if figure is None else figure


def _page(page: int | None) -> Cell:
    return NOT_IN_BOOK if page is None else page
