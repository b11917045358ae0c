"""Converting: documents between YAML and JSON, lists out of a design and back into it."""

from __future__ import annotations

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from linewright.app.editing import Edited, edit_design
from linewright.app.list_faults import at_cells
from linewright.app.output import write_aside, write_bytes_aside
from linewright.document.encode import Style
from linewright.document.files import load_book, load_design
from linewright.document.grid import grid_of
from linewright.document.grid_out import csv_text, workbook
from linewright.document.header import states_book
from linewright.document.lists import ListEdits, ListKind, edits_from_grid, list_table
from linewright.document.parsing import parse_text
from linewright.document.reading import read_text
from linewright.document.saving import dump_book, dump_design
from linewright.errors import Fault, InputFaultsError, listed, one_of, quoted
from linewright.model.design import Design, System
from linewright.units import UnitSystem

DOCUMENTS, LISTS = (".yaml", ".yml", ".json"), (".csv", ".xlsx")


class ReadIn(NamedTuple):
    """A list and what it does to a design."""

    found: ListEdits
    edited: Edited


def check_target(path: Path, *, replace: bool) -> None:
    """Raise InputFaultsError for a file that is there already, unless it may be replaced."""
    if path.exists() and not replace:
        message = f"{quoted(path.name)} is there already"
        raise InputFaultsError((_fault(path, message, "another name, or --replace"),))


def convert_document(source: Path, target: Path, units: UnitSystem | None) -> None:
    """Write a design or a book anew, as YAML or JSON by the name of the target; comments are not carried over.

    Raises InputFaultsError with the faults of the source, OSError.
    """
    as_json = target.suffix.lower() == ".json"
    if states_book(parse_text(read_text(source), str(source))):
        text = dump_book(load_book(source).compiled.book, as_json=as_json, units=units or UnitSystem.SI)
    else:
        text = dump_design(load_design(source).design, as_json=as_json, units=units)
    write_aside(target, text)


def write_list(
    source: Path, target: Path, kind: ListKind, system: str | None, *, units: UnitSystem | None = None
) -> int:
    """Write a list of a design as CSV or as a workbook; gives how many rows.

    Raises InputFaultsError, OSError.
    """
    design = load_design(source).design
    name = _system(design, system, source).id if kind.of_system else ""
    table = list_table(kind, design, Style(design.units if units is None else units), system=name)
    if target.suffix.lower() == ".csv":
        write_aside(target, csv_text(table.texts))
    else:
        write_bytes_aside(target, workbook(table.texts, name or kind.value, table.words))
    return len(table.rows)


def read_list(
    name: str,
    target: Path,
    kind: ListKind,
    system: str | None,
    *,
    books: Sequence[Path] = (),
    remove: bool = False,
) -> ReadIn:
    """Read a list into a design without writing it.

    Raises InputFaultsError with every fault of the list, or of the design that would come of it.
    """
    design = load_design(target).design
    of = _system(design, system, target).id if kind.of_system else ""
    found = edits_from_grid(kind, grid_of(name), design, system=of, remove=remove)
    try:
        return ReadIn(found, edit_design(target, found.edit, books, edits_file=name))
    except InputFaultsError as error:
        raise at_cells(error, found, design, file=name) from None


def _system(design: Design, name: str | None, file: Path) -> System:
    names = [system.id for system in design.systems]
    if name is None and len(names) == 1:
        return design.systems[0]
    if name is None:
        raise InputFaultsError((_fault(file, "the design has several systems", f"--system {listed(names)}"),))
    if name not in names:
        raise InputFaultsError((_fault(file, f"there is no system {quoted(name)}", one_of(name, names)),))
    return design.systems[names.index(name)]


def _fault(path: Path, message: str, expected: str) -> Fault:
    return Fault(file=str(path), line=0, column=0, path="", value="", message=message, expected=expected)
