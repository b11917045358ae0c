"""From a document to PDF: plain data for the template, fixed date, the committed face and no other."""

from __future__ import annotations

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from linewright.draw.primitives import Weight
from linewright.draw.typeface import fit
from linewright.report.pdf.blocks import (
    Block,
    Document,
    Grid,
    Layout,
    Steps,
    StepText,
    Turn,
)
from linewright.report.pdf.columns import PT_MM, broken, column_widths, with_room
from linewright.report.pdf.missing import printable
from linewright.report.pdf.papers import MARGIN_MM, page_of

HERE = Path(__file__).parent
TEMPLATE = HERE / "document.typ"
FACES = HERE.parents[1] / "draw" / "fonts"
#: Written into every file as its date, so that the same input gives the same bytes: 1 January 2000.
CREATED = 946684800
#: Size of the text of tables, of workings and of the head of a page [pt].
TABLE_PT, STEP_PT, HEAD_PT = 7.5, 7.0, 7.0
#: Between the two columns of a page of workings [mm].
GUTTER_MM = 6.0
#: Shares of such a column: name, value, where it is from.
_SHARES = (0.30, 0.17, 0.48)


def pdf(document: Document) -> bytes:
    """Set a document as PDF/A-2b; a character without a glyph is printed as a square, never left out silently.

    Without tags, which make it six times as large: the same stands as text and as tables beside it.

    Raises RuntimeError with the template's own words where typst cannot set it.
    """
    import typst  # noqa: PLC0415 - a heavy library, wanted for paper only

    data = {
        "title": document.title,
        "project": document.project,
        "head": _headed(document.project, 0.45, document),
        "revision": _headed(document.revision, 0.35, document),
        "source": document.source,
        "foot": document.foot,
        "page": page_of(document.paper),
        "gutter": GUTTER_MM,
        "steps": _step_widths(document),
        "blocks": list(_blocks(document)),
    }
    text = json.dumps(_clean(data), ensure_ascii=False)
    made = typst.compile(
        TEMPLATE,
        root=HERE,
        font_paths=_fonts(),
        sys_inputs={"document": text},
        pdf_standards=["a-2b"],
        timestamp=CREATED,
        pdf_tags=False,
    )
    if not isinstance(made, bytes):
        raise RuntimeError("typst gave no document")  # noqa: TRY004 - not a type that was handed in
    return made


@cache
def _fonts() -> Any:  # noqa: ANN401 - typst's own
    import typst  # noqa: PLC0415 - as above

    return typst.Fonts(include_system_fonts=False, include_embedded_fonts=False, font_paths=[str(FACES)])


def _clean(value: Any) -> Any:  # noqa: ANN401 - plain values
    """Every text with a square for what the face has not."""
    if isinstance(value, str):
        return printable(value)
    if isinstance(value, dict):
        return {key: _clean(item) for key, item in value.items()}
    if isinstance(value, list | tuple):
        return [_clean(item) for item in value]
    return value


def _headed(text: str, share: float, document: Document) -> str:
    """As much of a text as its share of the line at the head of a page holds."""
    line = (page_of(document.paper)[0] - 2 * MARGIN_MM) / PT_MM
    return fit(text, share * line, HEAD_PT, weight=Weight.SEMIBOLD)


def _step_widths(document: Document) -> list[float]:
    column = (page_of(document.paper)[0] - 2 * MARGIN_MM - GUTTER_MM) / 2
    return [round(column * share, 3) for share in _SHARES]


def _blocks(document: Document) -> Iterator[dict[str, Any]]:
    width, height = page_of(document.paper)
    room = {Layout.UPRIGHT: width, Layout.ACROSS: height, Layout.COLUMNS: width}
    layout = Layout.UPRIGHT
    for block in document.blocks:
        if isinstance(block, Turn):
            layout = block.layout
        yield _plain(block, room[layout] - 2 * MARGIN_MM, _step_widths(document))


def _plain(block: Block, width_mm: float, step_mm: list[float]) -> dict[str, Any]:
    if isinstance(block, Grid):
        data = _grid(block, width_mm)
    elif isinstance(block, Steps):
        data = _steps(block, step_mm)
    else:
        data = block._asdict()
    return {"kind": type(block).__name__.lower(), **data}


def _steps(block: Steps, widths: list[float]) -> dict[str, Any]:
    return {"title": block.title, "steps": [_step(step, widths) for step in block.steps]}


def _step(step: StepText, widths: list[float]) -> dict[str, Any]:
    rows = [
        [broken(text, width, STEP_PT, inset_mm=0.0) for text, width in zip(row, widths, strict=True)]
        for row in step.inputs
    ]
    whole = sum(widths)
    result, rule, note = (broken(text, whole, STEP_PT) for text in (step.result, step.rule, step.note))
    return {"result": result, "rule": rule, "inputs": rows, "note": note}


def _grid(block: Grid, width_mm: float) -> dict[str, Any]:
    widths = column_widths(block.columns, block.rows, width_mm, TABLE_PT)
    if block.row_mm:
        widths = with_room(widths, block.rows, width_mm)
    return {
        "widths": [round(width, 3) for width in widths],
        "right": [column.right for column in block.columns],
        "head": [broken(column.heading, width, TABLE_PT) for column, width in zip(block.columns, widths, strict=True)],
        "rows": [
            [broken(text, width, TABLE_PT) for text, width in zip(row, widths, strict=True)] for row in block.rows
        ],
        "warned": sorted(block.warned),
        "notes": list(block.notes),
        "row_mm": block.row_mm,
    }
