"""The two kinds of documents: how each is read, written and changed, so that all that is kept is kept alike."""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any, NamedTuple

from linewright.book.edits import apply_to_book
from linewright.book.schema import Book
from linewright.document.book_edits import book_edits_from_text, encode_book_edits
from linewright.document.edits import edits_from_text
from linewright.document.edits_out import encode_edits
from linewright.document.encode import Style
from linewright.document.files import book_from_text, design_from_text
from linewright.document.render import Form
from linewright.document.saving import dump_design, save_book
from linewright.model.design import Design
from linewright.model.edits import Touch, Touched, apply, meeting
from linewright.units import UnitSystem

#: What edits are called in faults: they come from a request, not from a file.
EDITS = "edits"


class Applied(NamedTuple):
    """A document after an edit, the edit that undoes it, and what it touches."""

    value: Any
    inverse: Any
    touched: Touched


@dataclass(frozen=True, slots=True, kw_only=True)
class Kind:
    """How documents of one kind are handled.

    read : of a text and its name; raises InputFaultsError
    dump : text of a changed document; before : the text that it was before
    read_edits : of a text, on a document; raises InputFaultsError
    write_edits : edits as JSON, on the document that they were made on
    apply : raises EditRefusedError
    """

    name: str
    read: Callable[[str, str], Any]
    dump: Callable[[Any, str], str]
    read_edits: Callable[[str, Any], Any]
    write_edits: Callable[[Any, Any], str]
    apply: Callable[[Any, Any], Applied]


def touched_text(touched: Touched) -> str:
    """What edits touch, as it is kept."""
    return json.dumps({"reads": sorted(touched.reads), "writes": sorted(touched.writes)}, ensure_ascii=False)


def touched_of(text: str) -> Touched | None:
    """What edits touch, as it was kept; none where the whole document was put in."""
    if not text:
        return None
    found = json.loads(text)
    reads, writes = (frozenset(Touch(*one) for one in found[key]) for key in ("reads", "writes"))
    return Touched(reads, writes)


def met(mine: Touched, later: Iterable[Touched | None]) -> frozenset[Touch]:
    """Where edits meet later ones; everything where one of those put in the whole document."""
    known = list(later)
    if any(one is None for one in known):
        return mine.writes | mine.reads
    return meeting(mine, (one for one in known if one is not None))


def _read_design(text: str, name: str) -> Design:
    return design_from_text(text, name).design


def _apply_to_design(design: Design, edit: Any) -> Applied:  # noqa: ANN401 - an edit of a design
    return Applied(*apply(design, edit))


def _write_design_edits(edit: Any, design: Design) -> str:  # noqa: ANN401 - an edit of a design
    return Form(as_json=True).flow(encode_edits(edit, Style(design.units)))


def _read_book(text: str, name: str) -> Book:
    return book_from_text(text, name).compiled.book


def _apply_to_book(book: Book, edit: Any) -> Applied:  # noqa: ANN401 - an edit of a book
    return Applied(*apply_to_book(book, edit))


def _write_book_edits(edit: Any, book: Book) -> str:  # noqa: ANN401 - an edit of a book
    return Form(as_json=True).flow(encode_book_edits(edit, book, Style(UnitSystem.SI)))


DESIGN = Kind(
    name="design",
    read=_read_design,
    dump=lambda design, _: dump_design(design),
    read_edits=lambda text, _: edits_from_text(text, EDITS),
    write_edits=_write_design_edits,
    apply=_apply_to_design,
)
BOOK = Kind(
    name="book",
    read=_read_book,
    dump=lambda book, before: save_book(before, book),
    read_edits=lambda text, book: book_edits_from_text(text, EDITS, book),
    write_edits=_write_book_edits,
    apply=_apply_to_book,
)
KINDS = {kind.name: kind for kind in (DESIGN, BOOK)}
