"""What may grow in a system: each length, level, count and load as an edit by so many steps."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any, NamedTuple

from linewright.explore.headroom_records import GrowthKind, LeftOut
from linewright.explore.more_units import more_units
from linewright.model.design import ROOT, Design, Room, Run, System
from linewright.model.edits import Batch, Edit, Kind, Set
from linewright.units import Dimension

#: Tolerance and step of the scan in SI, and how far is scanned.
LENGTH_STEP_M, LENGTH_SCAN, LENGTH_MOST = 0.001, 2_000, 300_000
LEVEL_SCAN, LEVEL_MOST = 1_000, 120_000
LOAD_STEP_W, LOAD_SCAN, LOAD_MOST = 10.0, 20, 2_000
SHARE_STEP, SHARE_SCAN, SHARE_MOST = 0.001, 20, 1_000
BENDS_MOST, UNITS_MOST = 60, 64
MODES = {"cooling_w": "cooling", "sensible_w": "sensible cooling", "heating_w": "heating"}


class Growing(NamedTuple):
    """One thing that may grow: its value now, how it is scanned, and the edit by so many steps (see `Growth`)."""

    subject: str
    kind: GrowthKind
    words: str
    dimension: Dimension
    stated: float
    step: float
    scan: int
    most: int
    edit: Callable[[int], Edit]
    down: bool = False

    def at(self, steps: int) -> float:
        """Value after so many steps."""
        return plus(self.stated, -steps if self.down else steps, self.step)


def plus(value: float, steps: int, step: float) -> float:
    """Add whole steps to a value, without the crumbs of binary fractions where there are none in decimal."""
    return round(value + steps * step, 9)


def growings(design: Design, system: System) -> Iterator[Growing | LeftOut]:
    """Everything of a system that may grow, and what cannot because it is not known."""
    for run in system.runs:
        yield from _lengths(run, system.id, Kind.RUN)
    for pipe in system.outdoor.pipes:
        yield from _lengths(pipe, system.id, Kind.PIPE)
    yield from _levels(system)
    for run in system.runs:
        yield _bends(run, system.id)
    yield from _units(system)
    served = {unit.room for unit in system.units}
    rooms = [room for room in design.rooms if room.id in served]
    for room in rooms:
        yield from _loads(room)
    yield from _all_loads(rooms, system.id)


def _lengths(run: Run, system: str, kind: Kind) -> Iterator[Growing | LeftOut]:
    subject = f"{system}/{kind}:{run.to}.length"
    if run.length_m is None:
        yield LeftOut(subject, "its length is unknown")
        return
    stated, built = run.length_m, run.as_built_m

    def edit(steps: int) -> Edit:
        values: dict[str, object] = {"length_m": plus(stated, steps, LENGTH_STEP_M)}
        if built is not None:
            values["as_built_m"] = plus(built, steps, LENGTH_STEP_M)
        return Set(kind=kind, id=run.to, system=system, values=values)

    what = "run" if kind is Kind.RUN else "module pipe"
    words = f"{what} {run.from_} - {run.to}"
    yield _length(subject, GrowthKind.LENGTH, words, stated, edit=edit, scan=LENGTH_SCAN, most=LENGTH_MOST)


def _levels(system: System) -> Iterator[Growing | LeftOut]:
    if system.outdoor.elevation_m is not None:
        yield from _level(system, Kind.OUTDOOR, ROOT, system.outdoor.elevation_m, words="outdoor group")
    for unit in system.units:
        if unit.elevation_m is not None:
            yield from _level(system, Kind.UNIT, unit.id, unit.elevation_m, words=f"unit {unit.id}")
    for fitting in system.fittings:
        if fitting.elevation_m is not None:
            words = f"fitting {fitting.id}"
            yield from _level(system, Kind.FITTING, fitting.id, fitting.elevation_m, words=words)
    known = {ROOT: system.outdoor.elevation_m} | {item.id: item.elevation_m for item in system.fittings}
    known |= {unit.id: unit.elevation_m for unit in system.units}
    for run in system.runs:
        if run.rise_m is not None and None in (known.get(run.from_), known.get(run.to)):
            yield from _rise(run, run.rise_m, system.id)


def _level(system: System, kind: Kind, name: str, stated: float, *, words: str) -> Iterator[Growing]:
    """A point goes up or down; rises that are stated on the runs that meet in it go with it."""
    of = "" if kind is Kind.OUTDOOR else name
    subject = f"{system.id}/{kind}:{of}.elevation" if of else f"{system.id}/{kind}.elevation"
    for sign in (1, -1):

        def edit(steps: int, sign: int = sign) -> Edit:
            level = {"elevation_m": plus(stated, sign * steps, LENGTH_STEP_M)}
            moved = Set(kind=kind, id=of, system=system.id, values=level)
            rises = tuple(_risen(system, name, sign * steps))
            return Batch(edits=(moved, *rises)) if rises else moved

        yield _up_or_down(subject, words, stated, edit=edit, down=sign < 0)


def _risen(system: System, node: str, steps: int) -> Iterator[Edit]:
    for run in system.runs:
        if run.rise_m is not None and node in (run.from_, run.to):
            rise = {"rise_m": plus(run.rise_m, steps if node == run.to else -steps, LENGTH_STEP_M)}
            yield Set(kind=Kind.RUN, id=run.to, system=system.id, values=rise)


def _rise(run: Run, stated: float, system: str) -> Iterator[Growing]:
    words = f"rise of run {run.from_} - {run.to}"
    for sign in (1, -1):

        def edit(steps: int, sign: int = sign) -> Edit:
            rise = {"rise_m": plus(stated, sign * steps, LENGTH_STEP_M)}
            return Set(kind=Kind.RUN, id=run.to, system=system, values=rise)

        yield _up_or_down(f"{system}/run:{run.to}.rise", words, stated, edit=edit, down=sign < 0)


def _up_or_down(subject: str, words: str, stated: float, *, edit: Callable[[int], Edit], down: bool) -> Growing:
    found = _length(subject, GrowthKind.LEVEL, words, stated, edit=edit, scan=LEVEL_SCAN, most=LEVEL_MOST)
    return found._replace(words=f"{words}, {'down' if down else 'up'}", down=down)


def _length(
    subject: str, kind: GrowthKind, words: str, stated: float, *, edit: Callable[[int], Edit], scan: int, most: int
) -> Growing:
    return Growing(subject, kind, words, Dimension.LENGTH, stated, LENGTH_STEP_M, scan, most, edit)


def _bends(run: Run, system: str) -> Growing:
    def edit(steps: int) -> Edit:
        return Set(kind=Kind.RUN, id=run.to, system=system, values={"bends": run.bends + steps})

    subject, words = f"{system}/run:{run.to}.bends", f"bends on run {run.from_} - {run.to}"
    return _count(subject, words, run.bends, edit=edit, most=BENDS_MOST)


def _units(system: System) -> Iterator[Growing | LeftOut]:
    """One more unit, and another, of each model that the system has, beside the one of it that is farthest."""
    for model in dict.fromkeys(unit.model for unit in system.units):
        found = more_units(system, model)
        subject = f"{system.id}/units.{model}"
        if isinstance(found, str):
            yield LeftOut(subject, found)
            continue
        have = sum(unit.model == model for unit in system.units)
        words = f"units of {model}, beside {found.unit}"
        yield _count(subject, words, have, edit=found.edit, most=UNITS_MOST)


def _count(subject: str, words: str, stated: int, *, edit: Callable[[int], Edit], most: int) -> Growing:
    return Growing(subject, GrowthKind.COUNT, words, Dimension.NUMBER, float(stated), 1.0, 1, most, edit)


def _loads(room: Room) -> Iterator[Growing | LeftOut]:
    for field, words in MODES.items():
        stated = getattr(room, field)
        subject = f"room:{room.id}.{field.removesuffix('_w')}"
        if stated is None:
            yield LeftOut(subject, f"the {words} load of the room is unknown")
            continue

        def edit(steps: int, name: str = field, now: float = stated) -> Edit:
            return Set(kind=Kind.ROOM, id=room.id, values={name: plus(now, steps, LOAD_STEP_W)})

        said = f"room {room.id}, {words}"
        yield Growing(subject, GrowthKind.LOAD, said, Dimension.POWER, stated, LOAD_STEP_W, LOAD_SCAN, LOAD_MOST, edit)


def _all_loads(rooms: list[Room], system: str) -> Iterator[Growing]:
    """All rooms of the system at once, in thousandths of what they are."""
    for mode, fields in (("cooling", ("cooling_w", "sensible_w")), ("heating", ("heating_w",))):

        def edit(steps: int, names: tuple[str, ...] = fields) -> Edit:
            factor = plus(1.0, steps, SHARE_STEP)
            grown: list[Any] = [(room, _times(room, names, factor)) for room in rooms]
            return Batch(edits=tuple(Set(kind=Kind.ROOM, id=room.id, values=new) for room, new in grown if new))

        words = f"all rooms at once, {mode}"
        if any(getattr(room, name) for room in rooms for name in fields):
            subject = f"{system}/loads.{mode}"
            yield Growing(
                subject, GrowthKind.LOAD, words, Dimension.RATIO, 1.0, SHARE_STEP, SHARE_SCAN, SHARE_MOST, edit
            )


def _times(room: Room, names: tuple[str, ...], factor: float) -> dict[str, object]:
    stated = {name: getattr(room, name) for name in names}
    return {name: load * factor for name, load in stated.items() if load is not None}
