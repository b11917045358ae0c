"""Fields of the model as columns of a table: what each holds, how a cell of it is written, and how it is read."""

from __future__ import annotations

import math
import types
from collections.abc import Callable
from enum import Enum, StrEnum
from functools import cache
from typing import Annotated, Any, NamedTuple, Union, get_args, get_origin

from linewright.document.columns import Reader, scalar
from linewright.document.encode import UNKNOWN, Style, Word, default_of, encode, plain, quantity
from linewright.document.grid import Cell
from linewright.document.plans import FieldPlan, Hint, plan
from linewright.document.source import Node, Source
from linewright.units import Dimension, Quantity, UnitFault, parse_as, to_unit

#: Fields that name something else, and therefore have one of what there is.
CHOSEN = ("level", "room", "model")
#: Fields by which an item goes, and by which a run says where it begins.
NAMES = ("id", "from", "to")
_NUMBERS = (float, int)
#: Digits of a figure that is no short decimal in the unit of its column, and how much that leaves out at most.
_DIGITS, _ALIKE, _ALIKE_DEGC = 7, 6e-7, 1e-4


class Holds(StrEnum):
    """What the cells of a column are."""

    NAME = "name"
    NUMBER = "number"
    TEXT = "text"
    CHOICE = "choice"


class ListField(NamedTuple):
    """One column: its key, the field behind it (`override.gas` for one of a mapping), what its cells hold.

    write : of a value, where that is no plain one; read : of a cell, where that is no plain one
    """

    key: str
    name: str
    hint: Hint
    holds: Holds
    required: bool = False
    default: Any = None
    dimension: Dimension | None = None
    write: Callable[[Any], str] | None = None
    read: Reader | None = None

    def text(self, value: Any, how: Style) -> str:  # noqa: ANN401 - a value of the field
        """Give a cell: blank where nothing is stated, a bare number in the unit of the column."""
        if value is None:
            return UNKNOWN if self.required else ""
        if self.write is not None:
            return self.write(value)
        if self.dimension is not None:
            return bare(value, self.dimension, how.unit(self.dimension))
        word = encode(value, self.hint, how)
        return word.text if isinstance(word, Word) else ""

    def same(self, first: object, second: object) -> bool:
        """Say whether two values are one, as far as cells keep them: to so many digits, without blanks in a row."""
        if isinstance(first, str) and isinstance(second, str):
            return first.split() == second.split()
        if isinstance(first, float) and isinstance(second, float):
            return is_same(first, second, self.dimension)
        return first == second

    def heading(self, how: Style) -> str:
        """Give the heading that is read back as this column with this unit."""
        unit = self.unit(how)
        return f"{self.key} [{unit}]" if unit else self.key

    def unit(self, how: Style) -> str:
        """Give the unit of bare numbers; none where there is none."""
        return "" if self.dimension is None else how.unit(self.dimension)


@cache
def fields_of(cls: type) -> tuple[ListField, ...]:
    """Give the columns of a declared value: all fields that are one text, number, word or quantity."""
    return tuple(made for field in plan(cls) if not field.inline and (made := _field(cls, field)) is not None)


def _field(cls: type, field: FieldPlan) -> ListField | None:
    kind, dimension = _plain(field.hint)
    if kind not in (str, bool, *_NUMBERS) and not _is_words(kind):
        return None
    holds = _holds(field.key, kind)
    return ListField(
        key=field.key,
        name=field.name,
        hint=field.hint,
        holds=holds,
        required=field.required,
        default=None if field.required else default_of(cls, field.name),
        dimension=dimension,
        read=None if holds is Holds.NUMBER else as_it_stands,
    )


def _plain(hint: Hint) -> tuple[Hint, Dimension | None]:
    """What a hint is without marks and without None, and the dimension that it is marked with."""
    origin: Hint = get_origin(hint)
    if origin is Annotated:
        base, *marks = get_args(hint)
        return base, next((mark.dimension for mark in marks if isinstance(mark, Quantity)), None)
    if origin in (Union, types.UnionType):
        options = [option for option in get_args(hint) if option is not type(None)]
        return _plain(options[0]) if len(options) == 1 else (hint, None)
    return hint, None


def _is_words(hint: Hint) -> bool:
    return isinstance(hint, type) and issubclass(hint, Enum)


def _holds(key: str, kind: Hint) -> Holds:
    if key in NAMES:
        return Holds.NAME
    if kind in _NUMBERS:
        return Holds.NUMBER
    return Holds.CHOICE if key in CHOSEN or kind is bool or _is_words(kind) else Holds.TEXT


def as_it_stands(_: Source, cell: Cell, unit: str) -> Node:  # noqa: ARG001 - one signature
    """Read a text: it is no number, whatever it looks like."""
    return scalar(cell)


def bare(value_si: float, dimension: Dimension, unit: str) -> str:
    """Give a bare number in a unit: exactly where that is short, else rounded so that it reads back as the same."""
    exact = quantity(value_si, dimension, unit)
    number = exact.removesuffix(f" {unit}") if unit else exact
    if (number != exact and sum(sign.isdigit() for sign in number) <= _DIGITS) or not unit:
        return number
    short = plain(to_unit(value_si, unit), _DIGITS)
    try:
        return short if is_same(parse_as(f"{short} {unit}", dimension), value_si, dimension) else exact
    except UnitFault:
        return exact


def is_same(first: float, second: float, dimension: Dimension | None) -> bool:
    """Say whether two values differ by no more than rounding to so many digits makes of one."""
    on_a_scale = dimension is Dimension.TEMPERATURE
    return math.isclose(first, second, rel_tol=_ALIKE, abs_tol=_ALIKE_DEGC if on_a_scale else 0.0)
