"""Writing a book to be filled in."""

from __future__ import annotations

from pathlib import Path

from linewright.app.output import write_aside
from linewright.book.schema import Kind
from linewright.document.encode import Word
from linewright.document.files import book_from_text
from linewright.document.render import Form
from linewright.errors import Fault, InputFaultsError, quoted
from linewright.report.skeleton import skeleton
from linewright.units import UnitSystem


def write_skeleton(path: Path, name: str, kind: Kind, *, units: UnitSystem, refrigerant: str = "") -> None:
    """Write a new book whose id is `name`.

    Raises InputFaultsError for an id that none can be, or a file that is there already; OSError.
    """
    book, of = (Form().flow(Word(word, is_text=True)) if word else "" for word in (name, refrigerant))
    text = skeleton(book, kind, units, refrigerant=of)
    if path.exists():
        raise InputFaultsError((_there(path),))
    try:
        book_from_text(text, str(path))
    except InputFaultsError as error:
        of_id = [fault for fault in error.faults if fault.path == "id"]
        if of_id:
            raise InputFaultsError(of_id) from None
    write_aside(path, text)


def _there(path: Path) -> Fault:
    return Fault(
        file=str(path),
        line=0,
        column=0,
        path="",
        value=path.name,
        message=f"{quoted(path.name)} is there already, and no file is written over",
        expected="another name with --output",
    )
