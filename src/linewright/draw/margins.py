"""The strip of margins across the top: what is used against what is allowed, least margin first."""

from __future__ import annotations

from typing import NamedTuple

from linewright.draw.frame import EDGE
from linewright.draw.plan import SheetLayout
from linewright.draw.primitives import AnyPrimitive, Line, Rect, Text, Weight
from linewright.draw.style import SMALL
from linewright.draw.typeface import fit
from linewright.draw.verdicts import strip_checks
from linewright.draw.wording import SIGNS, check_name, standing_words, used_of_allowed
from linewright.engine.records import Check, Sense, Standing
from linewright.model.kept import KeptEach
from linewright.units import UnitSystem

LEAST_CELL, CELL_GAP = 172.0, 20.0
BAR_HEIGHT = 6.0
PLAIN_ROW, WORDY_ROW, REST_ROW = 50.0, 64.0, 22.0


class Cell(NamedTuple):
    """One margin on the strip [px]."""

    id: str
    check: Check
    x: float
    y: float
    width: float


def margins(
    sheet: SheetLayout, width: float, top: float, *, system: UnitSystem, rows: int = 0
) -> tuple[list[AnyPrimitive], float]:
    """Paint the strip; gives the y below it too.

    rows : int — so many rows, and as many more as there are checks that are not plainly within; 0: all of them
    """
    checks = strip_checks(sheet)
    per_row = max(1, int((width - 2 * EDGE + CELL_GAP) // (LEAST_CELL + CELL_GAP)))
    cell_width = (width - 2 * EDGE + CELL_GAP) / per_row - CELL_GAP
    names = margin_ids(checks)
    cells: list[Cell] = []
    y = top
    shown = _shown(checks, rows * per_row, per_row)
    for start in range(0, shown, per_row):
        row = checks[start : start + per_row]
        for i, check in enumerate(row):
            x = EDGE + i * (cell_width + CELL_GAP)
            cells.append(Cell(names[start + i], check, x, y, cell_width))
        y += WORDY_ROW if any(standing_words(check, system) for check in row) else PLAIN_ROW
    found = [item for cell in _CELLS(sheet.result.id, [(cell, system) for cell in cells]) for item in cell]
    if shown < len(checks):
        found.append(_rest(len(checks) - shown, y))
        y += REST_ROW
    return found, y


def _shown(checks: list[Check], wanted: int, per_row: int) -> int:
    """How many checks are shown: whole rows, and nothing that is not within is left out."""
    if wanted == 0:
        return len(checks)
    needed = max((i for i, check in enumerate(checks, start=1) if check.standing is not Standing.WITHIN), default=0)
    return min(max(wanted, -(-needed // per_row) * per_row), len(checks))


def _rest(count: int, y: float) -> Text:
    text = f"and {count} more, all within"
    return Text(
        id="margins/rest", role="margins-rest", css="quiet", group="margins", x=EDGE, y=y + 8, text=text, size=SMALL
    )


def margin_ids(checks: list[Check]) -> list[str]:
    """Give each margin an id: its check's subject, with the bound's sense where a measure has both."""
    names: list[str] = []
    for check in checks:
        name = f"margin:{check.subject.rpartition('/')[2]}"
        for more in (f".{check.sense}", f".{check.path}"):
            if name in names:
                name += more
        names.append(name)
    return names


def _cell(cell: Cell, system: UnitSystem) -> tuple[AnyPrimitive, ...]:
    """Paint one margin."""
    check = cell.check
    over, words = check.standing is Standing.OVER, standing_words(check, system)
    sign = SIGNS.get(check.standing, "")
    name, used = f"{sign} {check_name(check)}".strip(), used_of_allowed(check, system)
    weight = Weight.SEMIBOLD if over else Weight.REGULAR
    title = ": ".join(part for part in (check_name(check), "; ".join(filter(None, (used, words)))) if part)
    if check.page is not None:
        title += f" (page {check.page})"
    css = "warning" if over else "text"
    lines = [("", name, 12.0, css, weight), ("used", used, 37.0, "warning" if over else "quiet", Weight.REGULAR)]
    if words:
        lines.append(("words", words, 51.0, css, Weight.REGULAR))
    texts: list[AnyPrimitive] = [
        Text(
            id=f"{cell.id}/{part or 'name'}",
            role=f"margin-{part or 'name'}",
            css=colour,
            group=cell.id,
            title=title,
            x=cell.x,
            y=cell.y + down,
            text=fit(text, cell.width, SMALL, weight=bold),
            size=SMALL,
            weight=bold,
        )
        for part, text, down, colour, bold in lines
    ]
    return (*_bar(cell, title), *texts)


#: The margins of the sheet before, by system.
_CELLS: KeptEach[tuple[AnyPrimitive, ...]] = KeptEach(_cell)


def _bar(cell: Cell, title: str) -> list[AnyPrimitive]:
    check, y = cell.check, cell.y + 18
    unjudged = check.standing in (Standing.UNJUDGED, Standing.TO_CONFIRM)
    css = "bar-over" if check.standing is Standing.OVER else "bar-lower" if unjudged else "bar-used"
    found: list[AnyPrimitive] = [
        _rect(cell, "", cell.width, css="bar-unjudged" if unjudged else "bar", title=title),
    ]
    if used_share(check) > 0:
        found.append(_rect(cell, "/bar", cell.width * used_share(check), css=css))
    if check.standing is Standing.ON_CONDITIONS and check.plain_bound and check.bound:
        x = cell.x + cell.width * min(check.plain_bound / check.bound, 1.0)
        found.append(_plain(cell, x, y))
    return found


def _rect(cell: Cell, part: str, width: float, *, css: str, title: str = "") -> Rect:
    return Rect(
        id=cell.id + part,
        role="margin-bar" if part else "margin",
        css=css,
        group=cell.id,
        title=title,
        x=cell.x,
        y=cell.y + 18,
        width=width,
        height=BAR_HEIGHT,
    )


def _plain(cell: Cell, x: float, y: float) -> Line:
    return Line(
        id=f"{cell.id}/plain",
        role="margin-plain",
        css="zero",
        group=cell.id,
        title="plain bound",
        x1=x,
        y1=y - 3,
        x2=x,
        y2=y + BAR_HEIGHT + 3,
        stroke=1.6,
    )


def used_share(check: Check) -> float:
    """Give how much of the bar is filled: used over allowed, or needed over had for a least bound; at most 1."""
    if check.value is None or check.bound is None:
        return 0.0
    if check.standing is Standing.OVER:
        return 1.0
    used, allowed = (check.value, check.bound) if check.sense is Sense.MAX else (check.bound, check.value)
    return min(max(used / allowed, 0.0), 1.0) if allowed > 0 else 0.0
