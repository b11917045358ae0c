"""Headroom for people: what gives first, then everything that may grow, then what could be less."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.engine.records import Check, Standing
from linewright.explore.headroom_records import Growth, GrowthKind, Headroom, LeftOut, Tightening
from linewright.report.page import Page
from linewright.report.table import Cell, Column
from linewright.units import Dimension, UnitSystem, at_least, at_most, show, show_number, tube_name, unit_label

_PLACES = {Dimension.LENGTH: 3, Dimension.POWER: 2, Dimension.RATIO: 1}
_HEADS = {
    GrowthKind.LENGTH: "lengths",
    GrowthKind.LEVEL: "levels",
    GrowthKind.COUNT: "counts",
    GrowthKind.LOAD: "loads",
}
_MOST_NAMED = 6
CAUTION = (
    "Caution: headroom is what the book, as it was typed, leaves to this design. It is no allowance for errors on "
    "site, each thing grows alone, and two that grow together may give sooner."
)


def headroom_text(
    found: Sequence[Headroom], *, project: str, system: UnitSystem, colour: bool, most: int | None = None
) -> str:
    """Write what each system has to spare.

    most : int — so many rows of each kind, those that give first; all of them without it
    """
    page = Page(colour=colour)
    for one in found:
        page.title(f"{project} - headroom of system {one.system}")
        for line in _claim(one):
            page.text(line)
        page.blank()
        if one.claimed:
            _growths(page, one, system, most=most)
            _tightenings(page, one, system)
    if any(one.claimed for one in found):
        page.text(CAUTION)
    elif not found:
        page.text("Nothing was judged: the design has no system.")
    return str(page)


def room_lines(found: Headroom, system: UnitSystem) -> Iterator[str]:
    """Say in sentences how far things may grow, or why that is not said."""
    if not found.claimed:
        yield from _claim(found)
        return
    for left in found.left_out:
        yield f"It is not let grow: {left.why}."
    for growth in found.growths:
        to, room = (
            bounded(number, growth.dimension, system, up=growth.down and number == growth.holds_to)
            for number in (growth.holds_to, growth.room)
        )
        ends = "nothing gave up to there, where the search ended"
        if growth.fails_at is not None:
            ends = f"then gives: {gives(growth, found.system)}"
        yield f"{growth.words}: holds to {to}, {room} more; {ends}."


def _claim(found: Headroom) -> Iterator[str]:
    if found.broken:
        yield f"No headroom is claimed: the system does not hold. {_many(found.broken)} over."
    elif found.open and not found.claimed:
        yield f"No headroom is claimed: not everything is judged. {_many(found.open)} unjudged or to confirm."
        yield "With --beside what is judged is let grow all the same, and what is not stays out and unknown."
    elif found.beside:
        yield f"Left out of every verdict below, and not known to hold: {_named(found.open)}."
    if found.claimed:
        held = "What is judged of it holds" if found.beside else "It holds"
        yield f"{held} ({found.standing}). Found by judging {found.tried:,} designs."


def _many(checks: Sequence[Check]) -> str:
    return f"{_named(checks)}: {len(checks)}"


def _named(checks: Sequence[Check]) -> str:
    names = list(dict.fromkeys(check.subject for check in checks))
    rest = len(names) - _MOST_NAMED
    return ", ".join(names[:_MOST_NAMED]) + (f" and {rest} more" if rest > 0 else "")


def _growths(page: Page, found: Headroom, system: UnitSystem, *, most: int | None) -> None:
    for kind in GrowthKind:
        of_kind = [growth for growth in found.growths if growth.kind is kind]
        if not of_kind:
            continue
        columns = (
            Column(_HEADS[kind], most=32),
            Column("now", right=True),
            Column("holds to", right=True),
            Column("room", right=True),
            Column("then gives"),
        )
        giving = [growth for growth in of_kind if growth.fails_at is not None]
        page.table(columns, [_row(growth, found.system, system) for growth in giving[:most]])
        if most is not None and len(giving) > most:
            page.text(f"and {len(giving) - most} more with as much room or more (--all)", indent=2)
        for line in _endless([growth for growth in of_kind if growth.fails_at is None], system):
            page.text(line, indent=2)
        page.text(_scanned(of_kind, system), indent=2)
        page.blank()
    for why, subjects in _by_reason(found.left_out).items():
        page.text(f"Not let grow, as {why}: {', '.join(subjects)}.", indent=2)
    if found.left_out:
        page.blank()


def _by_reason(left: Sequence[LeftOut]) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for one in left:
        found.setdefault(one.why, []).append(one.subject)
    return found


def _endless(growths: Sequence[Growth], system: UnitSystem) -> Iterator[str]:
    """What gave nowhere, those that were tried equally far in one sentence."""
    by_room: dict[str, list[str]] = {}
    for growth in growths:
        by_room.setdefault(bounded(growth.room, growth.dimension, system), []).append(growth.words)
    for room, words in by_room.items():
        yield f"Nothing gave up to {room} more, where the search ended: {'; '.join(words)}."


def _row(growth: Growth, of: str, system: UnitSystem) -> tuple[Cell | str, ...]:
    return (
        growth.words,
        figure(growth.stated, growth.dimension, system),
        bounded(growth.holds_to, growth.dimension, system, up=growth.down),
        bounded(growth.room, growth.dimension, system),
        gives(growth, of),
    )


def gives(growth: Growth, of: str) -> str:
    """Say what gives first, in the words that `linewright why` takes; limits without their mark."""
    if growth.faults:
        return f"no design: {growth.faults[0].partition('; expected ')[0]}"
    names = list(dict.fromkeys(_given(check, growth, of) for check in growth.gives))
    return names[0] + (f" and {len(names) - 1} more" if len(names) > 1 else "")


def _given(check: Check, growth: Growth, of: str) -> str:
    name = check.subject.removeprefix(f"{of}/").removeprefix("limit:")
    if check.standing is Standing.TO_CONFIRM:
        return f"{name} is to be confirmed"
    if check.standing is Standing.UNJUDGED:
        return f"{name} is no longer judged"
    return "it is short" if check.subject == growth.subject else name


def _scanned(growths: Sequence[Growth], system: UnitSystem) -> str:
    parts = dict.fromkeys((growth.dimension, growth.scan, growth.step) for growth in growths)
    said = [_scan(*part, system) for part in parts]
    return f"Scanned {'; '.join(said)}. What gives and holds again between two steps of the scan is not noticed."


def _scan(dimension: Dimension, scan: float, step: float, system: UnitSystem) -> str:
    if dimension is Dimension.NUMBER:
        return "one by one"
    places = _PLACES[dimension]
    label = unit_label(dimension, system)
    wide, fine = (show_number(part, dimension, system, places=places) for part in (scan, step))
    return f"in steps of {wide} {label}, then found to {fine} {label}"


def figure(value: float, dimension: Dimension, system: UnitSystem) -> str:
    """A value as it is stated."""
    if dimension is Dimension.NUMBER:
        return f"{value:g}"
    return show(value, dimension, system, places=_PLACES[dimension])


def bounded(value: float, dimension: Dimension, system: UnitSystem, *, up: bool = False) -> str:
    """A bound as text, never beyond what was found to hold."""
    if dimension is Dimension.NUMBER:
        return f"{value:g}"
    cut = at_least if up else at_most
    return f"{cut(value, dimension, system, places=_PLACES[dimension])} {unit_label(dimension, system)}"


def _tightenings(page: Page, found: Headroom, system: UnitSystem) -> None:
    if found.tightenings:
        page.title("What could be less, one at a time, and all still holds")
        columns = (Column("what", most=44), Column("saves", right=True), Column("charge"))
        page.table(columns, [_less(one, system) for one in found.tightenings])
    else:
        page.text("Nothing that was tried could be less.")
    for left in found.not_tightened:
        page.text(f"Not tried: {left.subject}: {left.why}.", indent=2)
    page.blank()


def _less(one: Tightening, system: UnitSystem) -> tuple[str, str, str]:
    return one.words, _saved(one, system), _charge(one, system)


def _saved(one: Tightening, system: UnitSystem) -> str:
    if one.before is None:
        return "-"
    if one.dimension is Dimension.TUBE:
        after = "by the table" if one.after is None else tube_name(one.after, system)
        return f"{tube_name(one.before, system)} -> {after}"
    return show(one.before - (one.after or 0.0), one.dimension, system)


def _charge(one: Tightening, system: UnitSystem) -> str:
    before, after = (
        "?" if mass is None else show(mass, Dimension.MASS, system)
        for mass in (one.charge_before_kg, one.charge_after_kg)
    )
    return before if before == after else f"{before} -> {after}"
