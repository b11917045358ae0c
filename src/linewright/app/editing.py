"""Editing a design file: read the edits, apply them, judge the result, save it into the same text."""

from __future__ import annotations

from codecs import BOM_UTF8
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from linewright.app.output import write_aside
from linewright.app.project import open_edited, open_project
from linewright.document.edits import edits_from_text
from linewright.document.reading import read_text
from linewright.document.saving import BOM, save_design
from linewright.engine import Evaluation
from linewright.errors import Fault, InputFaultsError
from linewright.model.design import Design
from linewright.model.edits import Applied, Edit, EditRefusedError, apply


class Edited(NamedTuple):
    """A project before and after an edit, the edit with what it did, the text of the file after it, both verdicts."""

    path: Path
    edit: Edit
    applied: Applied
    text: str
    design: Design
    before: Evaluation
    after: Evaluation


def read_edits(text: str, file: str) -> Edit:
    """Read edits from their text; raises InputFaultsError with every fault."""
    return edits_from_text(text, file)


def edit_design(path: Path, edit: Edit, book_folders: Sequence[Path] = (), *, edits_file: str = "edit") -> Edited:
    """Apply an edit to a design file without writing it.

    Raises InputFaultsError where the design is not sound, the edit cannot apply, or the edited design names what its
    books do not hold; nothing is changed then.
    """
    project = open_project(path, book_folders)
    try:
        applied = apply(project.loaded.design, edit)
    except EditRefusedError as error:
        raise InputFaultsError(_in_file(fault, edits_file) for fault in error.faults) from None
    text = save_design(whole_text(path), applied.design)
    after = open_edited(text, path, book_folders)
    return Edited(path, edit, applied, text, project.loaded.design, project.evaluate(), after.evaluate())


def write(edited: Edited) -> None:
    """Write the edited text in place of the file; raises OSError."""
    write_aside(edited.path, edited.text)


def whole_text(path: Path) -> str:
    """The text of a file with the byte order mark that it begins with, if it does."""
    mark = BOM if path.read_bytes().startswith(BOM_UTF8) else ""
    return mark + read_text(path)


def _in_file(fault: Fault, file: str) -> Fault:
    return Fault(
        file=file,
        line=0,
        column=0,
        path=fault.path,
        value=fault.value,
        message=fault.message,
        expected=fault.expected,
    )
