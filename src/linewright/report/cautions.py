"""The caution page and the list of what was not judged."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linewright.engine.records import Check, Evaluation, Standing
from linewright.report.check_text import summary
from linewright.report.page import Page
from linewright.takeoff import TakeOff

_OPEN = (Standing.UNJUDGED, Standing.TO_CONFIRM)


def caution_text(evaluation: Evaluation, found: TakeOff, books: Mapping[str, str]) -> str:
    """Write what must be read before anything is built or bought."""
    page = Page(colour=False)
    page.title("Read this first")
    page.blank()
    for line in summary(evaluation):
        page.text(line)
    for check in _all(evaluation):
        if check.standing is Standing.OVER:
            page.text(f"OVER: {check.subject}{_said(check)}")
    page.blank()
    for name in sorted(books):
        page.text(books[name])
    page.blank()
    for caution in evaluation.cautions:
        page.text(f"Caution: {caution}")
    page.blank()
    page.text("Take-off:")
    if not found.complete:
        page.text("NOT COMPLETE: something that has to be bought is left out, see what was not judged.", indent=2)
    for note in found.notes:
        page.text(note, indent=2)
    return f"{page}\n"


def open_text(evaluation: Evaluation, found: TakeOff) -> str:
    """Write what was not judged, is to be confirmed, or is left out."""
    page = Page(colour=False)
    page.title("What was not judged")
    lines = list(_open(evaluation))
    for line in lines or ["Of all that the books state, nothing is unjudged and nothing is to be confirmed."]:
        page.text(line)
    page.blank()
    for result in evaluation.systems:
        if result.unstated:
            page.text(f"{result.id}: the book gives no limit on {', '.join(result.unstated)}")
        for note in result.notes:
            if not note.of_book:
                page.text(f"{note.subject}: {note.text}")
    page.blank()
    for caution in evaluation.cautions:
        page.text(caution)
    page.blank()
    page.title("What the take-off leaves out, or takes for granted")
    for gap in found.gaps:
        page.text(f"{gap.subject}: {gap.text}")
    page.text("Brazing alloy, nitrogen that flows while brazing, controls, wiring, drains and labour are not counted.")
    return f"{page}\n"


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
