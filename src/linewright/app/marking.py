"""The marked-up sheets of a comparison: a sheet for each system, with what differs around the parts and in tables."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from linewright.app.described import described
from linewright.app.output_names import file_names
from linewright.app.project import Project
from linewright.app.reviewing import Reviewed
from linewright.draw import Axis, layout, sheet_scene, svg
from linewright.draw.mark_tables import MarkTable
from linewright.draw.marked import Mark, MarkKind, marked
from linewright.engine.records import SystemResult
from linewright.model.design import ROOT, System
from linewright.report.compared import NONE, Compared, charge_row, turned, verdict_row
from linewright.units import UnitSystem

_CHANGES = (("", 0.5), ("part", 1.6), ("what", 1.2), ("A", 2.6), ("B", 2.6))
_VERDICTS = (("verdict", 3.0), ("A", 1.2), ("left", 1.0), ("B", 1.2), ("left", 1.0))
_CHARGE = (("charge of", 1.4), ("added, A", 1.0), ("added, B", 1.0), ("total, A", 1.0), ("total, B", 1.0))
_NONE = "Nothing differs."


class Sides(NamedTuple):
    """The two projects, and what was found to differ."""

    before: Project
    after: Project
    found: Reviewed


class _Row(NamedTuple):
    """One thing that differs of one element: what it is, and both sides in words."""

    element: str
    what: str
    before: str
    after: str
    stated: bool


def marked_sheets(sides: Sides, system: UnitSystem) -> dict[str, str]:
    """Draw every system of either design, as SVG by the name of its file."""
    found = sides.found
    after = {result.id: (sides.after, result) for result in found.after.systems}
    drawn = {result.id: (sides.before, result) for result in found.before.systems} | after
    files = file_names(list(drawn))
    return {
        f"{files[name]}.svg": _sheet(sides, project, result, system=system) for name, (project, result) in drawn.items()
    }


def _sheet(sides: Sides, project: Project, result: SystemResult, *, system: UnitSystem) -> str:
    is_new = project is sides.after
    evaluation = sides.found.after if is_new else sides.found.before
    plan = layout(evaluation, result, axis=Axis.ACTUAL, book=project.books[result.book].compiled.book)
    rows = _told(list(_rows(sides, result.id, system)), result.id)
    marks = dict(_marks(sides, result.id, rows))
    listed = tuple(
        (marks[row.element].tag, _short(row.element, result.id), row.what, row.before, row.after) for row in rows
    )
    below = (MarkTable("What differs", _CHANGES, listed, _NONE), *_outcome(sides.found.compared, result, system))
    scene = marked(
        sheet_scene(plan, system), list(marks.values()), _heading(sides.found.compared, is_new=is_new), below
    )
    return svg(scene)


def _heading(found: Compared, *, is_new: bool) -> tuple[str, str]:
    """Which designs are compared, as which of them the sheet is drawn, how both stand."""
    told = [
        f"{letter} {side.file} (sha256 {side.sha256[:12]}), {side.standing.value}"
        for letter, side in (("A", found.before), ("B", found.after))
    ]
    drawn = "drawn as in B" if is_new else "drawn as in A: this system is gone in B"
    return f"Marked up, {drawn}", "   to   ".join(told)


def _rows(sides: Sides, name: str, system: UnitSystem) -> Iterator[_Row]:
    """What is stated otherwise of a system and of what all systems share, then what follows from it."""
    found = sides.found.compared
    for field in found.fields:
        if not _of(field.element, name):
            continue
        if field.field == "exists":
            before = described(sides.before.loaded.design, field.element) if field.before else NONE
            after = described(sides.after.loaded.design, field.element) if field.after else NONE
            yield _Row(field.element, "gone" if field.before else "new", before, after, stated=True)
        else:
            yield _Row(field.element, field.field, *field.words, stated=True)
    for one in found.results:
        if _of(one.element, name):
            yield _Row(one.element, one.what, *one.words(system), stated=False)


def _told(rows: list[_Row], name: str) -> list[_Row]:
    """Of a system that is new or gone as a whole its parts are not told one by one."""
    whole = any(row.element == f"system:{name}" and row.what in ("new", "gone") for row in rows)
    return [row for row in rows if not row.element.startswith(f"{name}/")] if whole else rows


def _of(element: str, system: str) -> bool:
    """Whether an element belongs to a system, or to none."""
    head, slash, _ = element.partition("/")
    if slash:
        return head == system
    return not element.startswith("system:") or element == f"system:{system}"


def _short(element: str, system: str) -> str:
    return element.removeprefix(f"{system}/").replace(":", " ")


def _marks(sides: Sides, name: str, rows: list[_Row]) -> Iterator[tuple[str, Mark]]:
    """One mark for each element, numbered in the order of the table."""
    old = next((one for one in sides.before.loaded.design.systems if one.id == name), None)
    for number, element in enumerate(dict.fromkeys(row.element for row in rows), start=1):
        mine = [row for row in rows if row.element == element]
        kind = _kind(mine)
        part = element.removeprefix(f"{name}/")
        title = "; ".join(f"{_short(element, name)}, {row.what}: {row.before} to {row.after}" for row in mine)
        hung = tuple(_hung_on(old, part)) if old is not None and kind is MarkKind.GONE else ()
        yield element, Mark(f"{kind.letter}{number}", kind, part, title, hung)


def _kind(rows: list[_Row]) -> MarkKind:
    words = {row.what for row in rows if row.stated}
    if "new" in words:
        return MarkKind.NEW
    if "gone" in words:
        return MarkKind.GONE
    return MarkKind.CHANGED if words else MarkKind.FOLLOWS


def _hung_on(system: System, part: str) -> Iterator[str]:
    """What a part that is gone hung on, nearest first; at the end the outdoor unit."""
    above = {run.to: run.from_ for run in system.runs}
    name = above.get(part.partition(":")[2], ROOT)
    for _ in range(len(above) + 1):
        if name == ROOT or name not in above:
            break
        yield f"fitting:{name}"
        name = above[name]
    yield "outdoor:"


def _outcome(found: Compared, result: SystemResult, system: UnitSystem) -> Iterator[MarkTable]:
    """Verdicts of the system and of the rooms that it serves, then its charge."""
    rooms = {unit.room for unit in result.units}
    mine = [one for one in found.verdicts if _judges(one.subject, result.id, rooms)]
    verdicts = sorted(mine, key=lambda one: not turned(one))
    charges = [one for one in found.charges if one.system == result.id]
    yield MarkTable(
        "Verdicts, those whose standing changed first",
        _VERDICTS,
        tuple(verdict_row(one, system) for one in verdicts),
        _NONE,
    )
    yield MarkTable("Charge", _CHARGE, tuple(charge_row(one, system) for one in charges), _NONE)


def _judges(subject: str, system: str, rooms: set[str]) -> bool:
    if subject.startswith("room:"):
        return subject.removeprefix("room:").partition(".")[0] in rooms
    return subject.startswith(f"{system}/")
