"""A filled form read back: every value with its unit, every fault with its row and column."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from linewright.document.columns import Column, headings, open_grid, scalar, value
from linewright.document.grid import Cell, grid_of
from linewright.document.grid_out import as_written
from linewright.document.source import Source
from linewright.errors import listed, quoted
from linewright.report.forms.blanks import Blank, Key
from linewright.report.forms.tables import ABOUT, COLUMNS
from linewright.units import Dimension, UnitFault, parse_as

_PLACE = ("system", "form", "item", "field")
_NEEDED = ("form", "item", "field", "value")
#: What may lie below nought: gauges that show a vacuum, temperatures.
_SIGNED = (Dimension.TEMPERATURE, Dimension.PRESSURE)
_EXAMPLES = {
    Dimension.PRESSURE: "a pressure, as 41.5 bar",
    Dimension.TEMPERATURE: "a temperature, as 21 degC",
    Dimension.TEMPERATURE_DIFFERENCE: "a difference of temperature, as 1 K",
    Dimension.TIME: "a time, as 24 h",
    Dimension.MASS: "a mass, as 6.9 kg",
    Dimension.LENGTH: "a length, as 12.5 m",
}


class Filled(NamedTuple):
    """What was filled in: quantities in SI and texts by where they stand; the hash of the design that it is of."""

    file: str
    sha256: str
    numbers: Mapping[Key, float]
    texts: Mapping[Key, str]

    def number(self, system: str, form: str, item: str, field: str) -> float | None:
        """A quantity, `None` where nothing was filled in."""
        return self.numbers.get(Key(system, form, item, field))

    def text(self, system: str, form: str, item: str, field: str) -> str:
        """A text, empty where nothing was filled in."""
        return self.texts.get(Key(system, form, item, field), "")


def read_filled(name: str, blanks: Sequence[Blank]) -> Filled:
    """Read a filled form (CSV or workbook).

    Raises InputFaultsError with every fault.
    """
    grid = grid_of(name)
    source = open_grid(grid)
    columns = headings(source, grid, {key: key for key in COLUMNS})
    there = {column.key for column in columns if column is not None}
    for key in _NEEDED:
        if key not in there:
            source.fault("", f"there is no column {quoted(key)}", f"the columns of the form: {listed(COLUMNS)}")
    source.refuse()
    reader = _Reader(source, {blank.key: blank for blank in blanks})
    for row in grid.rows[1:]:
        reader.row(_by_key(row, columns))
    source.refuse()
    return Filled(name, reader.sha256, reader.numbers, reader.texts)


def _by_key(row: Sequence[Cell], columns: Sequence[Column | None]) -> dict[str, Cell]:
    return {column.key: cell for cell, column in zip(row, columns, strict=False) if column is not None and cell.text}


class _Reader:
    """Reads row by row and notes what is wrong."""

    def __init__(self, source: Source, blanks: Mapping[Key, Blank]) -> None:
        """Start with nothing read."""
        self._source, self._blanks = source, blanks
        self._systems = list(dict.fromkeys(key.system for key in blanks))
        self.sha256 = ""
        self.numbers: dict[Key, float] = {}
        self.texts: dict[Key, str] = {}

    def row(self, cells: Mapping[str, Cell]) -> None:
        """Read one row; one without a value says nothing."""
        key = Key(*(as_written(cells[name].text) if name in cells else "" for name in _PLACE))
        filled = cells.get("value")
        if filled is None:
            return
        if key[:2] == ABOUT[:2]:
            self.sha256 = filled.text if tuple(key) == ABOUT else self.sha256
            return
        if not key.system and len(self._systems) == 1:
            key = key._replace(system=self._systems[0])
        blank = self._blanks.get(key)
        if blank is None:
            self._unknown(key, cells)
        elif key in self.numbers or key in self.texts:
            self._note_cell(filled, key, f"{_named(key)} stands twice", "each blank once")
        elif blank.dimension is None:
            self.texts[key] = filled.text
        else:
            self._number(blank, filled, cells)

    def _number(self, blank: Blank, filled: Cell, cells: Mapping[str, Cell]) -> None:
        dimension = blank.dimension or Dimension.NUMBER
        unit = cells["unit"].text if "unit" in cells else blank.unit
        node = value(self._source, filled, unit)
        text = str(node.value)
        try:
            number = parse_as(text, dimension)
        except UnitFault as error:
            self._note_cell(filled, blank.key, str(error), _EXAMPLES[dimension])
            return
        if number < 0.0 and dimension not in _SIGNED:
            self._note_cell(filled, blank.key, f"{_named(blank.key)} is below 0", "0 or more")
            return
        self.numbers[blank.key] = number

    def _unknown(self, key: Key, cells: Mapping[str, Cell]) -> None:
        """Name the first part of a key that no blank has, and what would be right there."""
        for depth, name in enumerate(_PLACE):
            known = list(dict.fromkeys(one[depth] for one in self._blanks if one[:depth] == key[:depth]))
            if key[depth] not in known:
                cell = cells.get(name, cells["value"])
                self._note_cell(cell, key, f"there is no {name} {quoted(key[depth])} in this record", listed(known))
                return

    def _note_cell(self, cell: Cell, key: Key, message: str, expected: str) -> None:
        path = ".".join(part for part in key if part)
        self._source.fault(path, message, expected, node=scalar(cell))


def _named(key: Key) -> str:
    return f"{key.item}, {key.field}" if key.item != key.form else key.field
