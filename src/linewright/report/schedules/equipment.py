"""Schedules of units, of rooms and of what is judged."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.records import Check, Evaluation, ModeFigures, Standing
from linewright.report.schedules.tables import Cell, Column, Of, Table
from linewright.units import Dimension

_ID = (Column("system", "system"), Column("id", "id"))
_LENGTH, _POWER, _MASS = Dimension.LENGTH, Dimension.POWER, Dimension.MASS
_FIGURES = tuple(
    Column(f"{mode}_{what}", f"{mode} {what}", _POWER)
    for mode in ("cooling", "sensible", "heating")
    for what in ("needed", "delivered")
)


def outdoor(evaluation: Evaluation) -> Table:
    """Outdoor modules: what they are rated and what refrigerant they bring."""
    columns = (
        *_ID,
        Column("book", "book"),
        Column("group", "group"),
        Column("model", "model"),
        Column("index", "index", Dimension.NUMBER),
        Column("cooling", "rated cooling", _POWER),
        Column("heating", "rated heating", _POWER),
        Column("factory_charge", "factory charge", _MASS),
        Column("elevation", "elevation", _LENGTH),
        Column("page", "page"),
    )
    rows: list[tuple[Cell, ...]] = []
    for result in evaluation.systems:
        for module in result.state.ground.modules:
            data = module.data
            head = (result.id, module.id, result.book, result.group, data.model, data.index)
            tail = (data.cooling_w, data.heating_w, data.factory_charge_kg, module.elevation_m, _page(data.page))
            rows.append((*head, *tail))
    return Table("outdoor", "Outdoor units", columns, tuple(rows))


def indoor(evaluation: Evaluation) -> Table:
    """Indoor units: where they are and what they deliver."""
    columns = (
        *_ID,
        Column("model", "model"),
        Column("kind", "kind"),
        Column("room", "room"),
        Column("index", "index", Dimension.NUMBER),
        Column("reach", "reach", _LENGTH),
        Column("equivalent_reach", "equivalent reach", _LENGTH),
        Column("elevation", "elevation", _LENGTH),
        *(Column(f"{mode}_delivered", f"{mode} delivered", _POWER) for mode in ("cooling", "sensible", "heating")),
    )
    rows = tuple(
        (
            *(result.id, unit.id, unit.model, unit.kind, unit.room, unit.index),
            *(unit.reach_m, unit.equivalent_reach_m, unit.elevation_m),
            *(unit.cooling.delivered_w, unit.sensible.delivered_w, unit.heating.delivered_w),
        )
        for result in evaluation.systems
        for unit in result.units
    )
    return Table("indoor", "Indoor units", columns, rows)


def rooms(evaluation: Evaluation) -> Table:
    """Rooms: what they need and get over all systems, and how that stands."""
    columns = (Column("id", "room"), Column("name", "name"), Column("level", "level"), Column("units", "units"))
    rows = tuple(
        (
            *(room.id, room.name, room.level, " ".join(room.units)),
            *(figure for item in (room.cooling, room.sensible, room.heating) for figure in _pair(item)),
            _gravest(room.checks),
        )
        for room in evaluation.rooms
    )
    return Table("rooms", "Rooms", (*columns, *_FIGURES, Column("standing", "standing")), rows)


def limits(evaluation: Evaluation) -> Table:
    """Every limit and every check with its standing and the page of the book."""
    columns = (
        Column("system", "system"),
        Column("kind", "kind"),
        Column("subject", "subject"),
        Column("value", "value"),
        Column("sense", "bound is"),
        Column("bound", "bound"),
        Column("margin", "left"),
        Column("standing", "standing"),
        Column("page", "page"),
        Column("governs", "governs"),
        Column("missing", "without"),
        Column("note", "note"),
    )
    rows = [_judged(result.id, check) for result in evaluation.systems for check in (*result.limits, *result.checks)]
    rows += [_judged("", check) for room in evaluation.rooms for check in room.checks]
    notes = tuple(
        f"{result.id}: the book gives no limit on {', '.join(result.unstated)}"
        for result in evaluation.systems
        if result.unstated
    )
    return Table("limits", "Limits and checks", columns, tuple(rows), notes)


def _judged(system: str, check: Check) -> tuple[Cell, ...]:
    idle = check.standing in (Standing.NOT_APPLICABLE, Standing.UNSTATED)
    return (
        system,
        check.kind.value,
        check.subject,
        *(_number(value, check, idle=idle) for value in (check.value,)),
        check.sense.value if check.bound is not None else "",
        *(_number(value, check, idle=idle) for value in (check.bound, check.margin)),
        check.standing.value,
        _page(check.page),
        " ".join(check.governs),
        ", ".join(sorted(check.missing)),
        check.note,
    )


def _number(value: float | None, check: Check, *, idle: bool) -> Cell:
    """A figure; a check on a statement has none, and one that does not apply needs none."""
    if value is None and (idle or (check.value is None and check.bound is None and not check.missing)):
        return ""
    return Of(value, check.dimension)


def _pair(item: ModeFigures) -> tuple[Cell, Cell]:
    return item.needed_w, item.delivered_w


def _gravest(checks: tuple[Check, ...]) -> str:
    found = {check.standing for check in checks}
    return next((standing.value for standing in _ORDER if standing in found), "not judged")


_ORDER = (Standing.OVER, Standing.UNJUDGED, Standing.TO_CONFIRM, Standing.ON_CONDITIONS, Standing.WITHIN)


def _page(page: int | None) -> Cell:
    return "" if page is None else page


def refrigerant(evaluation: Evaluation) -> Iterator[Table]:
    """Refrigerant in rooms, where the design chose a standard."""
    columns = (
        Column("system", "system"),
        Column("room", "room"),
        Column("with", "with rooms"),
        Column("parts", "parts there"),
        Column("charge", "charge", _MASS),
        Column("most", "most allowed", _MASS),
        Column("margin", "left", _MASS),
        Column("standing", "standing"),
        Column("clause", "by"),
        Column("missing", "without"),
        Column("assumed", "assumed"),
    )
    rows: list[tuple[Cell, ...]] = []
    notes = []
    for result in evaluation.systems:
        found = result.safety
        if found is None:
            continue
        notes.append(f"{result.id}: {found.refrigerant} by {found.title}:{found.edition}")
        for space in found.spaces:
            check = space.check
            others = " ".join(sorted(room.id for room in space.rooms if room.id != space.room.id))
            head = (result.id, space.room.id, others, " ".join(sorted(space.parts)))
            figures = (check.value, check.bound, check.margin, check.standing.value, space.verdict.clause)
            rows.append((*head, *figures, ", ".join(sorted(check.missing)), ", ".join(sorted(space.assumed))))
    if notes:
        yield Table("refrigerant", "Refrigerant in rooms", columns, tuple(rows), tuple(notes))
