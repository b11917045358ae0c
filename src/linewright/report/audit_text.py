"""What `linewright book check` says: in words, and as `linewright/book-check/1`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from linewright.book.audit import Doubt
from linewright.document.files import LoadedBook
from linewright.report.page import Page

SCHEMA = "linewright/book-check/1"


def audit_text(loaded: LoadedBook, doubts: Sequence[Doubt], *, line: str, colour: bool) -> str:
    """Say that a book was understood, and every doubt with its place."""
    page = Page(colour=colour)
    page.text(f"{loaded.compiled.book.id}: {line}")
    page.text("understood: keys, units, names, bands and tables hold together.")
    for doubt in doubts:
        page.blank()
        of_page = f", page {doubt.page}" if doubt.page is not None else ""
        page.text(f"{doubt.code}: {doubt.path} (line {_line_of(loaded, doubt.path)}{of_page})")
        page.text(doubt.message, indent=2)
        page.text(f"look at: {doubt.look}", indent=2)
    page.blank()
    count = len(doubts)
    page.text(f"{count or 'no'} doubt{'' if count == 1 else 's'}. {_PROVES}")
    return str(page)


_PROVES = "Nobody but a reader of the maker's document can say whether the figures are the maker's."


def audit_json(loaded: LoadedBook, doubts: Sequence[Doubt]) -> dict[str, Any]:
    """Give the same for programs."""
    return {
        "schema": SCHEMA,
        "id": loaded.compiled.book.id,
        "sha256": loaded.sha256,
        "faults": [],
        "doubts": [{**doubt._asdict(), "line": _line_of(loaded, doubt.path)} for doubt in doubts],
    }


def _line_of(loaded: LoadedBook, path: str) -> int:
    """Line of what stands at a path, or of the nearest thing around it that is written."""
    nodes = loaded.source.nodes
    while path and path not in nodes:
        path = path[: max(path.rfind("."), path.rfind("["), 0)]
    return int(nodes[path].start_mark.line) + 1
