"""Converting: documents between YAML and JSON, run lists out of a design and back into it."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import NamedTuple

from linewright.app.editing import Edited, edit_design
from linewright.app.output import write_aside, write_bytes_aside
from linewright.document.encode import Style
from linewright.document.files import load_book, load_design
from linewright.document.grid import grid_of
from linewright.document.grid_out import csv_text, workbook
from linewright.document.header import states_book
from linewright.document.parsing import parse_text
from linewright.document.reading import read_text
from linewright.document.run_list import RunList, run_table, runs_from_grid
from linewright.document.saving import dump_book, dump_design
from linewright.errors import Fault, InputFaultsError, listed, one_of, quoted
from linewright.model.design import Design, System
from linewright.units import UnitSystem

DOCUMENTS, LISTS = (".yaml", ".yml", ".json"), (".csv", ".xlsx")
_RUN = re.compile(r"(?P<runs>.+[.]runs)\[(?P<at>[0-9]+)\](?:[.](?P<key>override[.][a-z_]+|[a-z_]+))?")
#: Columns of a run list that hold names and not numbers.
_NAMES = ("from", "to", "items", "ports", "location")


class ReadIn(NamedTuple):
    """A run list and what it does to a design."""

    runs: RunList
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


def write_runs(source: Path, target: Path, system: str | None, units: UnitSystem | None) -> int:
    """Write the runs of a system as CSV or as a workbook; gives how many.

    Raises InputFaultsError, OSError.
    """
    design = load_design(source).design
    found = _system(design, system, source)
    rows = run_table(found, Style(design.units if units is None else units))
    if target.suffix.lower() == ".csv":
        write_aside(target, csv_text(rows))
    else:
        texts = [at for at, name in enumerate(rows[0]) if name in _NAMES]
        write_bytes_aside(target, workbook(rows, found.id, texts))
    return len(rows) - 1


def read_runs(
    name: str, target: Path, system: str | None, *, books: Sequence[Path] = (), remove: bool = False
) -> ReadIn:
    """Read a run list into a design without writing it.

    Raises InputFaultsError with every fault of the list, or of the design that would come of it.
    """
    design = load_design(target).design
    found = _system(design, system, target)
    runs = runs_from_grid(grid_of(name), found, remove=remove)
    try:
        return ReadIn(runs, edit_design(target, runs.edit, books, edits_file=name))
    except InputFaultsError as error:
        left = set(runs.left_out) if remove else set()
        names = [run.to for run in found.runs if run.to not in left] + list(runs.added)
        at = _At(name, f"systems[{design.systems.index(found)}].runs", names, runs)
        raise InputFaultsError([_at_its_cell(fault, at) for fault in error.faults], more=error.more) from None


class _At(NamedTuple):
    """Where faults of runs belong: the file, the path of the runs in the edited design, their names in order."""

    file: str
    path: str
    names: Sequence[str]
    runs: RunList


def _at_its_cell(fault: Fault, at: _At) -> Fault:
    """Give a fault of a run of the edited design the row and column that it comes from, where the list has that run."""
    match = _RUN.match(fault.path)
    if match is None or match["runs"] != at.path or int(match["at"]) >= len(at.names):
        return fault
    name = at.names[int(match["at"])]
    key = (match["key"] or "").removeprefix("override.")
    place = at.runs.rows.get((name, key)) or at.runs.rows.get((name, ""))
    return fault if place is None else replace(fault, file=at.file, line=place[0], column=place[1])


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
