"""Cells of a worksheet that show an error, or hold a formula whose value was not saved.

What reads the values of a workbook gives such cells as empty ones, and an empty cell means something else.
"""

from __future__ import annotations

import posixpath
import re
import zipfile
import zlib
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import NamedTuple
from xml.parsers import expat

_WORKBOOK, _RELATIONS = "xl/workbook.xml", "xl/_rels/workbook.xml.rels"
_PLACE = re.compile(r"([A-Z]{1,3})([0-9]{1,7})")
_CHUNK = 1 << 16


class UnreadableError(Exception):
    """A workbook whose parts are not what they should be."""


class Unread(NamedTuple):
    """The error that a cell shows, or nothing for a formula without a value; row and column from 1."""

    text: str
    row: int
    column: int


def unread_cells(path: Path, sheet: str) -> list[Unread]:
    """Find such cells of a sheet of an .xlsx file, row by row.

    Raises UnreadableError.
    """
    found = _Cells()
    try:
        with zipfile.ZipFile(path) as parts:
            _parse(parts, _part_of(parts, sheet), found.begin, end=found.end, text=found.text)
    except (zipfile.BadZipFile, zlib.error, LookupError, ValueError, OSError, RuntimeError, expat.ExpatError) as error:
        raise UnreadableError(str(error)) from None
    return found.unread


def _part_of(parts: zipfile.ZipFile, sheet: str) -> str:
    """Name of the part that holds a sheet."""
    relations: dict[str, str] = {}
    sheets: dict[str, str] = {}

    def related(name: str, stated: Mapping[str, str]) -> None:
        if name == "Relationship":
            relations[stated["Id"]] = posixpath.join("/xl", stated["Target"]).lstrip("/")

    def listed(name: str, stated: Mapping[str, str]) -> None:
        if name == "sheet":
            sheets[stated["name"]] = stated["id"]

    _parse(parts, _RELATIONS, related)
    _parse(parts, _WORKBOOK, listed)
    return posixpath.normpath(relations[sheets[sheet]])


def column_number(letters: str) -> int:
    """Number of a column, from 1, by its letters."""
    number = 0
    for letter in letters:
        number = number * 26 + ord(letter) - ord("A") + 1
    return number


class _Cells:
    """Goes through a sheet; cells that do not state their place follow one another."""

    def __init__(self) -> None:
        self.unread: list[Unread] = []
        self._row = self._column = 0
        self._kind = self._value = ""
        self._formula = self._in_value = False

    def begin(self, name: str, stated: Mapping[str, str]) -> None:
        if name == "row":
            self._row, self._column = int(stated.get("r", self._row + 1)), 0
        elif name == "c":
            self._kind, self._value, self._formula = stated.get("t", "n"), "", False
            place = _PLACE.fullmatch(stated.get("r", ""))
            self._column = column_number(place[1]) if place else self._column + 1
            self._row = int(place[2]) if place else self._row
        elif name == "f":
            self._formula = True
        self._in_value = name == "v"

    def text(self, text: str) -> None:
        if self._in_value:
            self._value += text

    def end(self, name: str) -> None:
        self._in_value = False
        if name != "c":
            return
        if self._kind == "e":
            self.unread.append(Unread(self._value or "#", self._row, self._column))
        elif self._formula and not self._value and self._kind != "str":  # a text may well be empty
            self.unread.append(Unread("", self._row, self._column))


def _parse(
    parts: zipfile.ZipFile,
    name: str,
    begin: Callable[[str, Mapping[str, str]], None],
    *,
    end: Callable[[str], None] | None = None,
    text: Callable[[str], None] | None = None,
) -> None:
    """Go through a part; names come without their namespaces, and nothing may be declared."""
    parser = expat.ParserCreate(namespace_separator=" ")
    parser.buffer_text = True
    parser.StartElementHandler = lambda tag, stated: begin(_local(tag), {_local(key): stated[key] for key in stated})
    parser.EndElementHandler = (lambda tag: end(_local(tag))) if end else None
    parser.CharacterDataHandler = text
    parser.StartDoctypeDeclHandler = _refuse_declarations
    with parts.open(name) as opened:
        while chunk := opened.read(_CHUNK):
            parser.Parse(chunk, False)  # noqa: FBT003 - the parser takes no name for it
        parser.Parse(b"", True)  # noqa: FBT003


def _refuse_declarations(*_: object) -> None:
    detail = "it declares names of its own"
    raise UnreadableError(detail)


def _local(name: str) -> str:
    return name.rpartition(" ")[2]
