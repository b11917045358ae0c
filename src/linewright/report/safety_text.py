"""Refrigerant in rooms for people: a table of rooms, what would make each pass, and what the charge weighs."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.records import Check, Standing, SystemResult
from linewright.engine.safety_records import SafetyResult, SpaceResult
from linewright.report.page import Page
from linewright.report.reasons import UNKNOWN, number
from linewright.report.safety_words import ban_words, cure_words
from linewright.report.table import Cell, Column
from linewright.standards.safety.case import DOUBTFUL
from linewright.units import Dimension, UnitSystem, at_most, unit_label

_COLUMNS = (
    Column("room", most=20),
    Column("charge", right=True),
    Column("most", right=True),
    Column("left", right=True),
    Column("standing", most=13),
    Column("by", most=30),
)
MOST_CURES = 3


def safety(page: Page, result: SystemResult, system: UnitSystem) -> None:
    """Write the refrigerant of one system; nothing where no standard is chosen."""
    found = result.safety
    if found is None:
        return
    charge = number(found.charge_kg, Dimension.MASS, system)
    page.text(f"Refrigerant in rooms by {found.title}:{found.edition}: {charge} of {found.refrigerant}")
    page.table(_COLUMNS, [_row(space, system) for space in found.spaces])
    if found.tightest is not None and len(found.spaces) > 1:
        room = found.tightest
        page.text(f"The room that takes least is {room.room.id}: {_most(room.check.bound or 0.0, system)}")
    for space in found.spaces:
        for line in _because(space, system):
            page.text(f"{space.room.id}: {line}", indent=2)
    for line in _assumed(found):
        page.text(line, indent=2)
    for check in found.others:
        page.text(_other(check), indent=2)
    for line in _weight(found, watched=result.system.leak_detection):
        page.text(line)
    page.blank()


def _row(space: SpaceResult, system: UnitSystem) -> list[Cell | str]:
    check = space.check
    names = [room.id for room in space.rooms if room.id != space.room.id]
    joined = f" with {', '.join(names)}" if names else ""
    return [
        f"{space.room.id}{joined}",
        number(check.value, Dimension.MASS, system),
        UNKNOWN if check.bound is None else _most(check.bound, system),
        number(check.margin, Dimension.MASS, system),
        Cell(check.standing.value, check.standing.value),
        space.verdict.clause or "-",
    ]


def _most(bound_kg: float, system: UnitSystem) -> str:
    return f"{at_most(bound_kg, Dimension.MASS, system, places=2)} {unit_label(Dimension.MASS, system)}"


def _because(space: SpaceResult, system: UnitSystem) -> Iterator[str]:
    check = space.check
    if check.missing:
        yield f"unjudged without {', '.join(check.missing)}"
    if check.standing is Standing.TO_CONFIRM:
        yield f"advisory: read in the standard and state under read: {_rules(check)}"
    if check.standing is not Standing.OVER:
        return
    cures = space.cures
    if not cures:
        first = f"state {', '.join(space.assumed)}, or " if space.assumed else ""
        yield f"nothing that is known here makes it pass: {first}hold less charge"
    word = "advisory: not over with" if space.verdict.rests_on else "passes with"
    for cure in cures[:MOST_CURES]:
        yield f"{word} {cure_words(cure, system)}"
    if len(cures) > MOST_CURES:
        yield f"{len(cures) - MOST_CURES} more ways in --json"
    if space.valve is not None:
        valve = space.valve
        held = number(valve.pipe_kg, Dimension.MASS, system)
        units = ", ".join(valve.units) or "nothing else"
        yield f"valves at the beginning of run {valve.run} leave {held} in the pipe; the contents of {units} come to it"


def _assumed(found: SafetyResult) -> Iterator[str]:
    """What is not stated and might help a room that is over or unjudged, said once for all rooms."""
    for name in DOUBTFUL:
        open_ = (Standing.OVER, Standing.UNJUDGED)
        rooms = [one.room.id for one in found.spaces if getattr(one.case, name) is None and one.check.standing in open_]
        if rooms:
            yield f"not stated and taken at its worst: {name} of {', '.join(rooms)}"


def _rules(check: Check) -> str:
    return check.note.rpartition("advisory until read in the standard: ")[2]


def _other(check: Check) -> str:
    name = check.subject.partition("refrigerant.")[2]
    words = [f"{name}: {check.standing}", check.note]
    if check.missing:
        words.append(f"without {', '.join(check.missing)}")
    return "; ".join(filter(None, words))


def _weight(found: SafetyResult, *, watched: bool) -> Iterator[str]:
    weight = found.footprint
    gwp, tonnes = weight.gwp["eu-2024-573"], weight.tonnes["eu-2024-573"]
    known = UNKNOWN if gwp is None else f"{gwp:.1f}"
    heavy = UNKNOWN if tonnes is None else f"{tonnes:.1f}"
    line = f"Climate: GWP {known}, {heavy} t CO2-equivalent by Regulation (EU) 2024/573"
    if weight.leak_check is not None:
        band = weight.leak_check
        if band.below is None:
            line += "; a leak detection system is asked for"
        months = band.months_with_detection if watched else band.months
        line += f"; leak checks every {months} months{' with leak detection' if watched else ''}"
    elif weight.known:
        line += "; below the first band of leak checks"
    yield line
    yield from (ban_words(ban) for ban in weight.bans if ban.falls_under is not False)
