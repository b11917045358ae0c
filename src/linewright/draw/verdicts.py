"""Which checks a sheet shows, and what they mean for each lane, run and fitting. Nothing is judged here anew."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from typing import NamedTuple, TypeAlias

from linewright.book.measures import FACTS, MeasureName, Over
from linewright.draw.leaks import leaks
from linewright.draw.plan import SheetLayout
from linewright.draw.wording import measure_words, missing_words, standing_words
from linewright.engine.figures import Series
from linewright.engine.records import Check, CheckKind, MeasureResult, RoomResult, Sense, Standing, SystemResult
from linewright.units import UnitSystem, over

SILENT = (Standing.NOT_APPLICABLE, Standing.UNSTATED)
ON_THE_STRIP = (CheckKind.CHARGE, CheckKind.CAPACITY)
#: Of the sizes of tube the strip shows the one that holds least beyond what it must.
STRENGTH = "strength"
MODES = ("cooling", "sensible", "heating")


_MEASURES = frozenset(MeasureName)


#: How a unit stands by a limit on its own figures, and the name of that.
LengthStanding: TypeAlias = tuple[Standing, str]


class LaneVerdict(NamedTuple):
    """How one unit stands: by length, by mode of its room, and in words, gravest first."""

    reach: Standing
    modes: Mapping[str, Standing]
    standing: Standing
    words: tuple[str, ...]


def own_checks(sheet: SheetLayout) -> list[Check]:
    """Give all checks of the system and of the rooms that it serves."""
    return [*sheet.result.limits, *sheet.result.checks, *[check for room in sheet.rooms for check in room.checks]]


def served_rooms(result: SystemResult, rooms: Sequence[RoomResult]) -> list[RoomResult]:
    """Give those of the rooms that a system serves."""
    served = {unit.room for unit in result.units}
    return [room for room in rooms if room.id in served]


def strip_checks(sheet: SheetLayout) -> list[Check]:
    """Give what the strip of margins shows, least margin first."""
    return margins_of(sheet.result, sheet.rooms)


def margins_of(result: SystemResult, served: Sequence[RoomResult]) -> list[Check]:
    """Give the margins of a system, least first: limits, charge, capacity, the worst of rooms by mode and of tubes."""
    found = [check for check in result.limits if check.standing not in SILENT]
    found += [c for c in result.checks if c.kind in ON_THE_STRIP and c.standing not in SILENT]
    rooms = [check for room in served for check in room.checks if check.standing not in SILENT]
    for mode in MODES:
        of_mode = [check for check in rooms if check.measure == mode]
        found += [min(of_mode, key=urgency)] if of_mode else []
    found += sorted((check for check in leaks(result) if check.standing not in SILENT), key=urgency)[:1]
    found += sorted((check for check in result.checks if check.measure == STRENGTH), key=urgency)[:1]
    return sorted(found, key=urgency)


_RANK = {Standing.OVER: 0, Standing.UNJUDGED: 1, Standing.TO_CONFIRM: 1}


def urgency(check: Check) -> tuple[int, float]:
    """Order checks: over first, then what is not judged, then by the share of the bound that is left."""
    rank = _RANK.get(check.standing, 2)
    if check.margin is None or check.bound is None:
        return rank, 0.0
    if not check.bound:
        return rank, float("inf") if check.margin >= 0 else float("-inf")
    return rank, check.margin / abs(check.bound)


def other_checks(sheet: SheetLayout, standing: Standing) -> list[Check]:
    """Give the checks of a standing that the strip does not show: sizes, overrides, fittings, actions."""
    return [c for c in sheet.result.checks if c.kind not in ON_THE_STRIP and c.standing is standing]


def part_standings(sheet: SheetLayout) -> dict[tuple[str, str], Standing]:
    """Give how runs and fittings stand by their own checks, by ("run" or "fitting", id); what is within is left out."""
    found: dict[tuple[str, str], Standing] = {}
    for standing in (Standing.UNJUDGED, Standing.OVER):
        for check in other_checks(sheet, standing):
            if check.kind is CheckKind.FITTING:
                found["fitting", check.subject.partition("/fitting:")[2]] = standing
            elif check.kind in (CheckKind.SIZE, CheckKind.OVERRIDE):
                found |= {("run", name): standing for name in check.governs}
    return found


#: What a limit has to say of some unit.
TELLING = (Standing.OVER, Standing.ON_CONDITIONS, Standing.UNJUDGED)


class UnitLimit(NamedTuple):
    """A limit whose series gives each unit its own figure."""

    check: Check
    bound: float
    series: Series
    name: str


def unit_limits(sheet: SheetLayout) -> tuple[UnitLimit, ...]:
    """Gather the limits that some lane may not keep."""
    found = ((check, sheet.result.measured(check)) for check in sheet.result.limits if check.standing in TELLING)
    return tuple(
        UnitLimit(check, check.bound, measured.series, measure_words(check.measure))
        for check, measured in found
        if measured is not None and check.bound is not None and _is_by_unit(measured)
    )


def lane_verdict(lengths: Sequence[LengthStanding], rooms: Sequence[Check], system: UnitSystem) -> LaneVerdict:
    """Gather how one unit stands by limits on its own figures and by the checks of its room."""
    judged = [check for check in rooms if check.standing not in SILENT and check.standing is not Standing.WITHIN]
    modes = {check.measure: check.standing for check in rooms}
    if not lengths and not judged:
        return LaneVerdict(Standing.WITHIN, modes, Standing.WITHIN, ())
    told: dict[tuple[Standing, str, str], list[str]] = {}
    for standing, name in lengths:
        told.setdefault((standing, str(standing), ""), []).append(name)
    for check in judged:
        told.setdefault((check.standing, "", _room_words(check, system)), []).append(check.measure)
    words = [
        (standing, ": ".join(filter(None, (before, ", ".join(names)))) + after)
        for (standing, before, after), names in told.items()
        if standing is not Standing.WITHIN
    ]
    return LaneVerdict(
        reach=_gravest([standing for standing, _ in lengths]),
        modes=modes,
        standing=_gravest([standing for standing, _ in words]),
        words=tuple(text for _, text in sorted(words, key=lambda item: GRAVITY.index(item[0]))),
    )


GRAVITY = (Standing.OVER, Standing.UNJUDGED, Standing.TO_CONFIRM, Standing.ON_CONDITIONS, Standing.WITHIN)


def _gravest(standings: Iterable[Standing]) -> Standing:
    found = set(standings)
    return next((standing for standing in GRAVITY if standing in found), Standing.WITHIN)


def length_standings(limits: Iterable[UnitLimit], unit: str) -> Iterator[LengthStanding]:
    """Say how a unit stands by each limit whose series holds it."""
    for check, bound, series, name in limits:
        if unit not in series.values:
            continue
        value = series.values[unit]
        if check.standing is Standing.OVER and _beyond(value, bound, check.sense):
            yield Standing.OVER, name
        elif check.standing is Standing.ON_CONDITIONS and check.plain_bound is not None:
            if _beyond(value, check.plain_bound, check.sense):
                yield Standing.ON_CONDITIONS, name
        elif check.standing in (Standing.UNJUDGED, Standing.OVER) and unit in series.incomplete:
            yield Standing.UNJUDGED, name


def _is_by_unit(measured: MeasureResult) -> bool:
    """Say whether a series gives each unit its own figure. A series over runs names units too, for their runs."""
    name = MeasureName(measured.name) if measured.name in _MEASURES else None
    return name is not None and FACTS[name].over is Over.UNITS and not measured.series.spread


def _beyond(value: float, bound: float, sense: Sense) -> bool:
    return over(value, bound) if sense is Sense.MAX else over(bound, value)


def _room_words(check: Check, system: UnitSystem) -> str:
    """Give what follows the modes of a room that stand alike."""
    if check.standing is Standing.UNJUDGED:
        return f" unjudged: {missing_words(check.missing)}"
    return f" {standing_words(check, system)}"
