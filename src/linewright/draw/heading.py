"""Who, what, on which book and under which conditions, and how it stands: the top of the sheet."""

from __future__ import annotations

from collections import Counter
from operator import attrgetter

from linewright.book.schema import Status
from linewright.draw.frame import EDGE
from linewright.draw.plan import SheetLayout
from linewright.draw.primitives import Anchor, AnyPrimitive, Rect, Text, Weight
from linewright.draw.style import BODY, TITLE
from linewright.draw.typeface import fit, text_width
from linewright.draw.verdicts import own_checks
from linewright.draw.wording import SIGNS
from linewright.engine.records import Standing
from linewright.units import Dimension, UnitSystem, show, show_number

STAMP = "NOT FOR CONSTRUCTION"
STATUS_WORDS = {
    Status.DEMONSTRATION: "demonstration data, do not build from it",
    Status.TRANSCRIBED: "transcribed, not checked",
    Status.CHECKED: "checked",
}
COUNTED = (
    (Standing.OVER, "over"),
    (Standing.UNJUDGED, "unjudged"),
    (Standing.TO_CONFIRM, "to confirm"),
    (Standing.ON_CONDITIONS, "on conditions"),
)


def heading(sheet: SheetLayout, width: float, system: UnitSystem) -> tuple[list[AnyPrimitive], float]:
    """Paint the top of the sheet; gives the y below it too."""
    stamp_width = text_width(STAMP, BODY, Weight.SEMIBOLD) + 20
    right = width - EDGE
    room = right - stamp_width - 30 - EDGE
    found: list[AnyPrimitive] = [*_title(sheet, room), *_stamp(right - stamp_width, stamp_width)]
    found.append(_summary(sheet, right))
    y = 54.0
    for name, words in (("book", book_words(sheet)), ("conditions", conditions_words(sheet, system))):
        text = fit(words, room if name == "book" else right - EDGE - 260, BODY)
        found.append(
            Text(
                id=f"title/{name}",
                role=name,
                css="quiet",
                group="title",
                title=words,
                x=EDGE,
                y=y,
                text=text,
                size=BODY,
            )
        )
        y += 18
    return found, y - 4


def book_words(sheet: SheetLayout) -> str:
    """Give the book's title, edition, status and refrigerant."""
    book = sheet.book
    if book is None:
        return f"book {sheet.result.book}"
    document = book.document
    parts = [book.title, f"edition {document.edition}, {document.date}", STATUS_WORDS[book.status], book.refrigerant]
    return "  ·  ".join(parts)


def conditions_words(sheet: SheetLayout, system: UnitSystem) -> str:
    """Give the outdoor group with its indices, and the design conditions of both modes."""
    site, result = sheet.evaluation.design.site, sheet.result

    def degrees(value: float) -> str:
        return show(value, Dimension.TEMPERATURE, system).replace("-", "−")

    indices = " on ".join(show_number(n, Dimension.NUMBER, system) for n in (result.indoor_index, result.outdoor_index))
    parts = [f"outdoor group {result.group}, index {indices}"]
    if site.cooling is None:
        parts.append("cooling conditions not stated")
    else:
        outdoor, indoor = degrees(site.cooling.outdoor_db_degc), degrees(site.cooling.indoor_wb_degc)
        parts.append(f"cooling at {outdoor} outdoor dry bulb, {indoor} indoor wet bulb")
    if site.heating is None:
        parts.append("heating conditions not stated")
    else:
        outdoor, indoor = degrees(site.heating.outdoor_wb_degc), degrees(site.heating.indoor_db_degc)
        parts.append(f"heating at {outdoor} outdoor wet bulb, {indoor} indoor dry bulb")
    return "  ·  ".join(parts)


def system_words(sheet: SheetLayout) -> str:
    """Give the system's id and name."""
    result = sheet.result
    return f"system {result.id}" + (f", {result.name}" if result.name else "")


def summary_words(sheet: SheetLayout) -> str:
    """Count what is not simply within."""
    counts = Counter(map(attrgetter("standing"), own_checks(sheet)))
    parts = [f"{SIGNS[standing]} {counts[standing]} {word}" for standing, word in COUNTED if counts[standing]]
    return "   ".join(parts) or "all within"


def _title(sheet: SheetLayout, room: float) -> list[AnyPrimitive]:
    project, system = sheet.evaluation.design.project, system_words(sheet)
    wanted = text_width(system, BODY)
    first = fit(project, room - min(wanted, room * 0.4) - 16, TITLE, weight=Weight.SEMIBOLD)
    x = EDGE + text_width(first, TITLE, Weight.SEMIBOLD) + 16
    return [
        Text(
            id="title/project",
            role="project",
            css="text",
            group="title",
            title=project,
            x=EDGE,
            y=32,
            text=first,
            size=TITLE,
            weight=Weight.SEMIBOLD,
        ),
        Text(
            id="title/system",
            role="system",
            css="quiet",
            group="title",
            title=system,
            x=x,
            y=32,
            text=fit(system, EDGE + room - x, BODY),
            size=BODY,
        ),
    ]


def _stamp(x: float, width: float) -> list[AnyPrimitive]:
    return [
        Rect(id="stamp", role="stamp", css="stamp", group="title", x=x, y=15, width=width, height=24, radius=2),
        Text(
            id="stamp/words",
            role="stamp",
            css="warning",
            group="title",
            x=x + width / 2,
            y=31.5,
            text=STAMP,
            size=BODY,
            weight=Weight.SEMIBOLD,
            anchor=Anchor.MIDDLE,
        ),
    ]


def _summary(sheet: SheetLayout, right: float) -> Text:
    words = summary_words(sheet)
    over = SIGNS[Standing.OVER] in words
    return Text(
        id="title/summary",
        role="summary",
        css="warning" if over else "text",
        group="title",
        x=right,
        y=63,
        text=words,
        size=BODY,
        weight=Weight.SEMIBOLD,
        anchor=Anchor.END,
    )
