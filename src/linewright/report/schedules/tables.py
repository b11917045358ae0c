"""A table as data: columns with a dimension, rows of SI values. How it is written is the writers' business."""

from __future__ import annotations

from typing import NamedTuple

from linewright.units import Dimension


class Of(NamedTuple):
    """A value with a dimension of its own, in a column whose rows differ in that."""

    value: float | None
    dimension: Dimension


#: `None` is not known and is written as such; "" has nothing to say.
Cell = str | float | int | None | Of


class Column(NamedTuple):
    """A column: the key for programs, the heading for people, the dimension of its numbers."""

    key: str
    heading: str
    dimension: Dimension | None = None


class Table(NamedTuple):
    """A schedule: the name of its files, its title, what is said below it."""

    name: str
    title: str
    columns: tuple[Column, ...]
    rows: tuple[tuple[Cell, ...], ...]
    notes: tuple[str, ...] = ()
