"""The caution page and the list of what was not judged: once as sections, which every format writes in its own way."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from linewright.engine.records import Check, Evaluation, Standing
from linewright.report.check_text import summary
from linewright.report.page import Page
from linewright.report.service_words import BY_OTHERS, PASSED_ON
from linewright.takeoff import TakeOff

_OPEN = (Standing.UNJUDGED, Standing.TO_CONFIRM)
NOTHING_OPEN = "Of all limits, checks and requirements of the books nothing is unjudged or to be confirmed."
_INCOMPLETE = "NOT COMPLETE: something that has to be bought is left out, see what was not judged."
_UNCOUNTED = "Brazing alloy, nitrogen that flows while brazing, controls, wiring, drains and labour are not counted."


class Section(NamedTuple):
    """A title, which may be empty, and lines; `grave` ones come first to the eye."""

    title: str
    lines: tuple[str, ...]
    grave: bool = False


def caution_sections(evaluation: Evaluation, found: TakeOff, books: Mapping[str, str]) -> tuple[Section, ...]:
    """What must be read before anything is built or bought."""
    over = tuple(
        f"OVER: {check.subject}{_said(check)}" for check in _all(evaluation) if check.standing is Standing.OVER
    )
    incomplete = () if found.complete else (_INCOMPLETE,)
    return (
        Section("Read this first", tuple(summary(evaluation))),
        Section("", over, grave=True),
        Section("", tuple(books[name] for name in sorted(books))),
        Section("", tuple(f"Caution: {caution}" for caution in evaluation.cautions), grave=True),
        Section("Take-off:", incomplete, grave=True),
        Section("", found.notes),
    )


def open_sections(evaluation: Evaluation, found: TakeOff) -> tuple[Section, ...]:
    """What was not judged, is to be confirmed, or is left out."""
    return (
        Section("What was not judged", tuple(_open(evaluation)) or (NOTHING_OPEN,)),
        Section("", tuple(_unstated(evaluation))),
        Section("", evaluation.cautions),
        Section("", (PASSED_ON, BY_OTHERS)),
        Section(
            "What the take-off leaves out, or takes for granted",
            (*(f"{gap.subject}: {gap.text}" for gap in found.gaps), _UNCOUNTED),
        ),
    )


def lines(sections: tuple[Section, ...]) -> tuple[str, ...]:
    """All lines, without the titles."""
    return tuple(line for section in sections for line in section.lines)


def sections_text(sections: tuple[Section, ...]) -> str:
    """Sections as a page of plain text."""
    page = Page(colour=False)
    for section in sections:
        if section.title:
            page.title(section.title)
        for line in section.lines:
            page.text(line)
        if section.lines:
            page.blank()
    return f"{page}"


def _unstated(evaluation: Evaluation) -> Iterator[str]:
    for result in evaluation.systems:
        if result.unstated:
            yield f"{result.id}: the book gives no limit on {', '.join(result.unstated)}"
        for note in result.notes:
            if not note.of_book:
                yield f"{note.subject}: {note.text}"


def _open(evaluation: Evaluation) -> Iterator[str]:
    for check in _all(evaluation):
        if check.standing in _OPEN:
            yield f"{check.standing.value}: {check.subject}{_said(check)}"


def _said(check: Check) -> str:
    lacking = [name for name in sorted(check.missing) if name != check.note]
    missing = f" (without {', '.join(lacking)})" if lacking else ""
    page = f", page {check.page}" if check.page is not None else ""
    at = f" at {', '.join(check.governs)}" if check.standing is Standing.TO_CONFIRM and check.governs else ""
    return f"{missing}{at}{page}{f': {check.note}' if check.note else ''}"


def _all(evaluation: Evaluation) -> Iterator[Check]:
    for result in evaluation.systems:
        yield from (*result.limits, *result.checks)
        if result.safety is not None:
            known = {check.subject for check in (*result.limits, *result.checks)}
            yield from (check for check in result.safety.checks if check.subject not in known)
    for room in evaluation.rooms:
        yield from room.checks
