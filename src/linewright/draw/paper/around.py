"""The sheet around a drawing: border, title block, panels, and the area that is left for the drawing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import NamedTuple

from linewright.draw.paper import title
from linewright.draw.paper.facts import Facts, Subject
from linewright.draw.paper.lettering import Area
from linewright.draw.paper.marks import FINE, HEAVY, Box, Drawing, Layer, Mark, Measure, Pen, Stroke
from linewright.draw.paper.panels import Sign, notes_panel, revisions_panel, signs_panel
from linewright.draw.paper.papers import Sheet

#: Between the frame and the drawing [mm].
AIR = 3.0
_TRIM = 5.0
_REVISIONS, _PANEL = 27.0, 44.0
_LEAST_BESIDE = 150.0


class Place(NamedTuple):
    """Where things stand on a sheet: the drawing, the title block, the panels [mm]."""

    content: Area
    title: Area
    signs: Area
    notes: Area
    revisions: Area


class Around(NamedTuple):
    """What stands around every sheet of one drawing; `measure` is that of its heights.

    bare : it brings its own signs and notes
    """

    facts: Facts
    system: str
    drawing: str
    scale: str
    signs: tuple[Sign, ...] = ()
    notes: tuple[str, ...] = ()
    measure: Measure = Measure()
    bare: bool = False


def low_place(sheet: Sheet) -> Area | None:
    """Give the area of a low title block where the sheet is wide enough for one [mm]."""
    inner = sheet.inner
    if inner.width < title.LOW_WIDTH:
        return None
    return Area(inner.left, inner.bottom - title.LOW_HEIGHT, inner.right, inner.bottom)


def content(sheet: Sheet, *, bare: bool = False) -> Area:
    """Give the area that is left for a drawing [mm]; `bare` where it brings its own signs and notes."""
    low = low_place(sheet) if bare else None
    if low is None:
        return place(sheet).content
    return Area(sheet.inner.left, sheet.inner.top, sheet.inner.right, low.top)


def place(sheet: Sheet) -> Place:
    """Divide a sheet: panels beside the title block where there is room, else above it."""
    inner = sheet.inner
    block = Area(inner.right - title.WIDTH, inner.bottom - title.HEIGHT, inner.right, inner.bottom)
    if block.left - inner.left >= _LEAST_BESIDE:
        strip = Area(inner.left, block.top, block.left, inner.bottom)
        top = strip.top
    elif block.left - inner.left >= _LEAST_BESIDE / 2:
        return _beside_narrow(inner, block)
    else:
        block = Area(inner.left, block.top, inner.right, inner.bottom)
        strip = Area(inner.left, block.top - _PANEL, inner.right, block.top)
        top = strip.top
        return _divided(inner, block, strip, top, revisions=False)
    return _divided(inner, block, strip, top, revisions=True)


def _beside_narrow(inner: Area, block: Area) -> Place:
    """One column beside the title block: signs there, notes and revisions in a strip above both."""
    signs = Area(inner.left, block.top, block.left, inner.bottom)
    strip = Area(inner.left, block.top - _REVISIONS, inner.right, block.top)
    middle = strip.left + strip.width * 0.62
    return Place(
        Area(inner.left, inner.top, inner.right, strip.top),
        block,
        signs,
        Area(strip.left, strip.top, middle, strip.bottom),
        Area(middle, strip.top, strip.right, strip.bottom),
    )


def _divided(inner: Area, block: Area, strip: Area, top: float, *, revisions: bool) -> Place:
    middle = strip.left + min(strip.width * 0.45, 100.0)
    signs = Area(strip.left, strip.top, middle, strip.bottom)
    low = strip.bottom - (_REVISIONS if revisions else _REVISIONS * 0.8)
    notes = Area(middle, strip.top, strip.right, low)
    return Place(
        Area(inner.left, inner.top, inner.right, top), block, signs, notes, Area(middle, low, strip.right, strip.bottom)
    )


class Furnished(NamedTuple):
    """A sheet without its drawing: the marks, and what found no room in the panels."""

    marks: tuple[Mark, ...]
    signs: tuple[Sign, ...]
    notes: tuple[str, ...]


def furnish(sheet: Sheet, around: Around, *, number: int = 1, of: int = 1, more: str = "") -> Furnished:
    """Paint what stands around sheet `number` of `of`; `more` says where notes go on."""
    subject = Subject(around.system, around.drawing, around.scale, number, of)
    low = low_place(sheet) if around.bare else None
    if low is not None:
        block = title.low_title_block(low, around.facts, subject, paper=sheet.paper.name)
        return Furnished((*_border(sheet), *block), (), ())
    at = place(sheet)
    signs, signs_left = signs_panel(at.signs, around.signs)
    notes, notes_left = notes_panel(at.notes, around.notes, more=more)
    marks = [
        *_border(sheet),
        *signs,
        *notes,
        *revisions_panel(at.revisions, around.facts),
        *title.title_block(at.title, around.facts, subject, paper=sheet.paper.name),
    ]
    return Furnished(tuple(marks), tuple(signs_left), tuple(notes_left))


def _border(sheet: Sheet) -> list[Mark]:
    inner = sheet.inner
    x, y = sheet.width / 2, sheet.height / 2
    centring = (
        (x, inner.top - _TRIM, x, inner.top),
        (x, inner.bottom, x, inner.bottom + _TRIM),
        (inner.left - _TRIM, y, inner.left, y),
        (inner.right, y, inner.right + _TRIM, y),
    )
    return [
        Box("border", Layer.BORDER, inner.left, inner.top, inner.width, inner.height, Pen(HEAVY)),
        *(Stroke(f"border/centre/{i}", Layer.BORDER, *ends, Pen(FINE)) for i, ends in enumerate(centring)),
    ]


def drawing(name: str, sheet: Sheet, around: Around, marks: Sequence[Mark], *, said: str) -> Drawing:
    """Put marks together to one sheet."""
    return Drawing(
        name,
        f"{around.facts.project}, {around.system}: {around.drawing}",
        said,
        sheet.paper.name,
        sheet.width,
        sheet.height,
        tuple(marks),
        around.measure,
    )
