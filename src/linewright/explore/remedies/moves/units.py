"""Indoor units: the size that the room needs, the next one up or down, the same size of another kind."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.book.schema import IndoorModel
from linewright.engine.records import Check, CheckKind
from linewright.explore.remedies.at import At
from linewright.explore.remedies.phrases import phrase, plain
from linewright.explore.remedies.records import Duty, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.design import Unit
from linewright.model.edits import ChangeModel
from linewright.units import over

#: Units that are tried one by one where nothing names any.
MOST_UNITS = 6
#: Share by which more is chosen than the proportion says: a larger unit draws on the others' part.
_SPARE = 1.0
_MORE = 1.06


def enough(at: At) -> Iterator[Move]:
    """Give every short room of the system, and each alone, the least model of its kind that should be enough."""
    short = [check for check in at.failing if check.kind is CheckKind.ROOM]
    rooms = {check.governs[0] for check in short if check.governs}
    for spare in (_SPARE, _MORE):
        changes = [
            change
            for unit in at.system.units
            if unit.room in rooms
            for change in _enough(at, unit, [check for check in short if check.governs[:1] == (unit.room,)], spare)
        ]
        if len({unit.room for unit, _ in changes}) > 1:
            yield change_models(at, changes, MoveKind.UNIT_SIZE)
    yield from _one_room(at)


def _one_room(at: At) -> Iterator[Move]:
    """The room of the check: its least that should be enough, the next after that, the same size of other kinds."""
    if at.check.kind is not CheckKind.ROOM:
        return
    room = at.check.governs[0]
    own = [check for check in at.failing if check.governs[:1] == (room,) and check.kind is CheckKind.ROOM]
    for unit in at.system.units:
        if unit.room != room:
            continue
        for change in _enough(at, unit, own, _SPARE):
            yield change_models(at, [change], MoveKind.UNIT_SIZE)
            yield from (change_models(at, [one], MoveKind.UNIT_SIZE) for one in _steps(at, change[0], change[1], 1))
        yield from _steps_of(at, unit, 1)
        yield from kinds(at, unit)


def _enough(at: At, unit: Unit, short: Sequence[Check], spare: float) -> Iterator[tuple[Unit, IndoorModel]]:
    """The least larger model whose rating, delivered in the proportion in which this one is, covers the room."""
    now, own = at.book.models[unit.model], _delivered(at, unit)
    for model in _ladder(at, now, up=True):
        if all(_covers(check, now, model, own, spare=spare) for check in short):
            yield unit, model
            return


def _covers(check: Check, now: IndoorModel, model: IndoorModel, own: dict[str, float], *, spare: float) -> bool:
    rated, larger = _rated(now, check.measure), _rated(model, check.measure)
    delivered = own.get(check.measure)
    if delivered is None or check.value is None or check.bound is None or not rated:
        return True
    gained = delivered * (larger / rated - 1.0)
    return not over(check.bound * spare, check.value + gained)


def _delivered(at: At, unit: Unit) -> dict[str, float]:
    position = at.system.units.index(unit)
    found = {
        mode: getattr(at.result.figures, mode).delivered_w[position] for mode in ("cooling", "sensible", "heating")
    }
    return {mode: watts for mode, watts in found.items() if watts is not None}


def _rated(model: IndoorModel, mode: str) -> float:
    return {"cooling": model.cooling_w, "sensible": model.sensible_w, "heating": model.heating_w}[mode]


def smaller(at: At) -> Iterator[Move]:
    """Units one size down where their room has the most to spare: all that have, then one by one."""
    found = [(room.id, _spare(room.checks)) for room in at.rooms if all(not _is_short(check) for check in room.checks)]
    spare = {room: share for room, share in found if share is not None}
    changes = []
    for unit in sorted(at.system.units, key=lambda unit: (-spare.get(unit.room, -1.0), unit.id)):
        now = at.book.models[unit.model]
        model = next(iter(_ladder(at, now, up=False)), None)
        if model is not None and spare.get(unit.room, -1.0) > 1.0 - model.index / now.index:
            changes.append((unit, model))
    if len(changes) > 1:
        yield change_models(at, changes, MoveKind.UNIT_SIZE)
    for change in changes[:MOST_UNITS]:
        yield change_models(at, [change], MoveKind.UNIT_SIZE)


def _is_short(check: Check) -> bool:
    return check.margin is not None and check.margin < 0


def _spare(checks: Sequence[Check]) -> float | None:
    """Share of what is delivered that a room does not need, the least over the modes."""
    known = [1.0 - check.bound / check.value for check in checks if check.bound is not None and check.value]
    return min(known, default=None)


def next_sizes(at: At) -> Iterator[Move]:
    """What governs one size up and down, and its size of other kinds."""
    units = {unit.id: unit for unit in at.system.units}
    for name in at.check.governs:
        if name in units:
            yield from _steps_of(at, units[name], 1)
            yield from kinds(at, units[name])


def _steps_of(at: At, unit: Unit, count: int) -> Iterator[Move]:
    for up in (True, False):
        for model in _ladder(at, at.book.models[unit.model], up=up)[:count]:
            yield change_models(at, [(unit, model)], MoveKind.UNIT_SIZE)


def _steps(at: At, unit: Unit, model: IndoorModel, count: int) -> list[tuple[Unit, IndoorModel]]:
    return [(unit, larger) for larger in _ladder(at, model, up=True)[:count]]


def kinds(at: At, unit: Unit) -> Iterator[Move]:
    """Units of the same index of another kind."""
    now = at.book.models[unit.model]
    for model in at.book.book.indoor.models:
        if model.kind != now.kind and not over(model.index, now.index) and not over(now.index, model.index):
            yield change_models(at, [(unit, model)], MoveKind.UNIT_KIND)


def _ladder(at: At, now: IndoorModel, *, up: bool) -> list[IndoorModel]:
    """Models of the same kind beyond one, the nearest first."""
    same = [model for model in at.book.book.indoor.models if model.kind == now.kind and model.model != now.model]
    beyond = [model for model in same if (model.index > now.index) == up and model.index != now.index]
    return sorted(beyond, key=lambda model: (model.index if up else -model.index, model.model))


def change_models(at: At, changes: Sequence[tuple[Unit, IndoorModel]], kind: MoveKind) -> Move:
    """Give units other models."""
    named = ", ".join(f"{unit.id} {model.model} instead of {unit.model}" for unit, model in changes)
    return Move(
        kind=kind,
        subject=f"{at.system.id}/{' '.join(sorted(unit.id for unit, _ in changes))}",
        edits=tuple(ChangeModel(system=at.system.id, id=unit.id, model=model.model) for unit, model in changes),
        words=phrase(f"unit{'s' if len(changes) > 1 else ''} {plain(named)}"),
        duties=(Duty.SELECT,),
        weight=weight(kind, len(changes)),
    )
