"""Schedules of what pipework asks for: tube on its rating, insulation, supports and movement; of reducers and items."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.pipework_records import MoveResult
from linewright.engine.records import Evaluation, SystemResult
from linewright.report.schedules.tables import Cell, Column, Table
from linewright.takeoff.reducing import reducers as reducers_of
from linewright.takeoff.tubes import all_tubes
from linewright.takeoff.wraps import chosen, wrap_of
from linewright.units import Dimension, UnitSystem

_LENGTH, _NUMBER, _TUBE = Dimension.LENGTH, Dimension.NUMBER, Dimension.TUBE
_OF_RUN = (Column("system", "system"), Column("run", "run"), Column("line", "line"))
_UNJUDGED = "The design does not state how pipework is judged: nothing is counted"


def supports(evaluation: Evaluation) -> Table:
    """Supports, and what takes up the movement, of every tube of every run."""
    columns = (
        *_OF_RUN,
        Column("od", "outside diameter", _TUBE),
        Column("spacing", "largest spacing", _LENGTH),
        Column("supports", "supports", _NUMBER),
        Column("expansion", "moves by", _TUBE),
        Column("offset", "offset or loop", _LENGTH),
        Column("radius", "or ring of radius", _LENGTH),
        Column("missing", "without"),
        Column("note", "to confirm"),
    )
    moves = [(result.id, move) for result in evaluation.systems if result.pipework for move in result.pipework.moves]
    return Table("supports", "Supports and movement", columns, tuple(_moved(*one) for one in moves), _notes(evaluation))


def _moved(system: str, move: MoveResult) -> tuple[Cell, ...]:
    missing = ", ".join(move.missing)
    head = (system, move.run, move.role.word, move.od_m, move.spacing_m, move.supports)
    return (*head, move.expansion_m, move.offset_m, move.radius_m, missing, ", ".join(move.doubts))


def insulation(evaluation: Evaluation, *, as_built: bool, system: UnitSystem) -> Table:
    """Insulation of every tube: what is bought, and what it rests on."""
    columns = (
        *_OF_RUN,
        Column("od", "outside diameter", _TUBE),
        Column("length", "length", _LENGTH),
        Column("place", "place"),
        Column("thickness", "thickness to buy", _TUBE),
        Column("dry", "dry from", _TUBE),
        Column("book", "least of the book", _TUBE),
        Column("code", "energy code", _TUBE),
        Column("standing", "standing"),
        Column("note", "to be said"),
    )
    rows = tuple(row for result in evaluation.systems for row in _wraps(result, as_built=as_built, system=system))
    return Table("insulation", "Insulation", columns, rows)


def _wraps(result: SystemResult, *, as_built: bool, system: UnitSystem) -> Iterator[tuple[Cell, ...]]:
    for tube in all_tubes(result, as_built=as_built):
        head = (result.id, tube.run, tube.role.word, tube.od_m, tube.length_m)
        if tube.od_m is None:
            yield (*head, "", None, "", "", "", "", "no size is known")
            continue
        wrap, item = wrap_of(result, tube, system), chosen(result, tube)
        if item is None:
            book = "" if result.pipework is not None or wrap.thickness_m is None else wrap.thickness_m
            yield (*head, "", wrap.thickness_m, "", book, "", "not judged", wrap.note)
            continue
        book = "" if item.book_m is None else item.book_m
        figures = (item.dry_m, book, item.code_m, item.check.standing.value, wrap.note)
        yield (*head, item.place, wrap.thickness_m, *figures)


def strength(evaluation: Evaluation) -> Table:
    """What each size of tube holds, and which is ordered; only sizes that the design has judged."""
    columns = (
        Column("system", "system"),
        Column("od", "outside diameter", _TUBE),
        Column("wall", "wall of the book", _TUBE),
        Column("temper", "temper"),
        Column("design", "design pressure", Dimension.PRESSURE),
        Column("allowed", "holds", Dimension.PRESSURE),
        Column("standing", "standing"),
        Column("order_wall", "wall to order", _TUBE),
        Column("order_temper", "temper to order"),
        Column("runs", "runs"),
        Column("missing", "without"),
        Column("note", "note"),
    )
    rows: list[tuple[Cell, ...]] = []
    for result in evaluation.systems:
        for tube in () if result.pipework is None else result.pipework.tubes:
            check, order = tube.check, tube.order
            bought: tuple[Cell, Cell] = (None, "") if order is None else (order.wall_m, order.temper)
            head = (result.id, tube.od_m, tube.wall_m, tube.temper or None, check.value, check.bound)
            tail = (" ".join(tube.runs), ", ".join(check.missing), check.note)
            rows.append((*head, check.standing.value, *bought, *tail))
    return Table("strength", "Strength of tube", columns, tuple(rows), _notes(evaluation))


def reducers(evaluation: Evaluation) -> Table:
    """Reducers and where they sit."""
    columns = (
        Column("system", "system"),
        Column("at", "at"),
        Column("line", "line"),
        Column("od", "outside diameter", _TUBE),
        Column("to_od", "to", _TUBE),
    )
    rows: list[tuple[Cell, ...]] = []
    notes: list[str] = []
    for result in evaluation.systems:
        found, gaps = reducers_of(result)
        rows += [(result.id, one.where.partition("/")[2], one.role.word, one.od_m, one.to_od_m) for one in found]
        notes += [f"{gap.subject}: {gap.text}" for gap in gaps]
    return Table("reducers", "Reducers", columns, tuple(rows), tuple(notes))


def items(evaluation: Evaluation) -> Table:
    """Valves and whatever else stands on runs, with the tubes that it stands on."""
    columns = (
        Column("system", "system"),
        Column("run", "run"),
        Column("item", "item"),
        Column("count", "count", _NUMBER),
        Column("place", "place"),
        Column("gas", "gas, suction or low", _TUBE),
        Column("liquid", "liquid", _TUBE),
        Column("high", "high pressure", _TUBE),
    )
    rows: list[tuple[Cell, ...]] = []
    for result in evaluation.systems:
        tubes = {(tube.run, tube.role.value): tube.od_m for tube in all_tubes(result)}
        for run in (*result.system.outdoor.pipes, *result.system.runs):
            place = "" if run.location is None else run.location.value
            sizes = [_first(tubes, run.to, roles) for roles in _COLUMNS]
            rows += [(result.id, run.to, item.kind, item.count, place, *sizes) for item in run.items]
    return Table("items", "Valves and other items on runs", columns, tuple(rows))


_COLUMNS = (("gas", "suction", "low"), ("liquid",), ("high", "high_low"))


def _first(tubes: dict[tuple[str, str], float | None], run: str, roles: tuple[str, ...]) -> Cell:
    """Size of the tube of a run that has one of some roles; "" where there is no such tube, none where not known."""
    return next((tubes[run, role] for role in roles if (run, role) in tubes), "")


def _notes(evaluation: Evaluation) -> tuple[str, ...]:
    return () if any(result.pipework for result in evaluation.systems) else (_UNJUDGED,)
