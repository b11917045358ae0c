"""Doubts about tubes: rows that look swapped, columns that look swapped, walls that do not grow."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from linewright.book.audit.doubts import Doubt
from linewright.book.audit.tables import fitting_tables, rising, size_tables, upper
from linewright.book.roles import GAS_SIDE, LIQUID_SIDE
from linewright.book.schema import Book
from linewright.model.values import Role
from linewright.units import same_tube

#: A port may be so many times the tube of the table, or the other way round.
MOST_PORT = 1.8


def smaller_tubes(book: Book) -> Iterator[Doubt]:
    """A row for more carries a smaller tube than the row before it."""
    for path, table in size_tables(book):
        for role in Role:
            sizes = [row.sizes.get(role) for row in table.rows]
            for i, (before, size) in enumerate(pairwise(sizes), start=1):
                if before is not None and size is not None and size < before and not same_tube(size, before):
                    where = f"{path}.rows[{i}].{role}"
                    said = f"{_mm(size)} for more than the row before it, which has {_mm(before)}"
                    yield Doubt("smaller-tube", where, table.page, said, "two rows or two figures swapped")


def swapped_columns(book: Book) -> Iterator[Doubt]:
    """The liquid side is as a rule the smaller one of a pipe."""
    for path, table in size_tables(book):
        for i, row in enumerate(table.rows):
            yield from _columns(row.sizes, f"{path}.rows[{i}]", table.page)
    for i, module in enumerate(book.outdoor.modules):
        yield from _columns(module.ports, f"outdoor.modules[{i}]", module.page or book.outdoor.page)
    for i, model in enumerate(book.indoor.models):
        yield from _columns(model.ports, f"indoor.models[{i}]", model.page or book.indoor.page)


def _columns(sizes: Mapping[Role, float], path: str, page: int | None) -> Iterator[Doubt]:
    gas = next((sizes[role] for role in GAS_SIDE if role in sizes), None)
    liquid = next((sizes[role] for role in LIQUID_SIDE if role in sizes), None)
    if gas is not None and liquid is not None and gas < liquid and not same_tube(gas, liquid):
        said = f"the gas side, {_mm(gas)}, is smaller than the liquid side, {_mm(liquid)}"
        yield Doubt("swapped-columns", path, page, said, "gas and liquid columns swapped")


def larger_ports(book: Book) -> Iterator[Doubt]:
    """Of two units of one kind, and of two outdoor modules, the larger one has as a rule no smaller ports."""
    for smaller, larger in rising(book):
        for role, size in larger.data.ports.items():
            other = smaller.data.ports.get(role, 0.0)
            if size < other and not same_tube(size, other):
                said = f"{_mm(size)}, and the smaller {smaller.data.model} has {_mm(other)}"
                yield Doubt("smaller-port", f"{larger.path}.{role}", larger.page, said, "the two rows")


def ports_for_tables(book: Book) -> Iterator[Doubt]:
    """A port of a unit is of the order of the tube that the branch table gives for as much; swapped ones are told."""
    for i, model in enumerate(book.indoor.models):
        if any(_columns(model.ports, "", None)):
            continue
        sizes = next((row.sizes for row in book.sizing.branch.rows if model.index <= upper(row)), {})
        for options in (GAS_SIDE, LIQUID_SIDE):
            port = next((model.ports[role] for role in options if role in model.ports), None)
            tube = next((sizes[role] for role in options if role in sizes), None)
            if port is not None and tube is not None and not 1 / MOST_PORT <= port / tube <= MOST_PORT:
                said = f"a port of {_mm(port)}, and the table gives {_mm(tube)} for an index of {model.index:g}"
                role = next(role for role in options if role in model.ports)
                page = model.page or book.indoor.page
                yield Doubt("port-for-table", f"indoor.models[{i}].{role}", page, said, "the size, or its unit")


def smaller_joints(book: Book) -> Iterator[Doubt]:
    """A joint for more takes a smaller tube than the one of the row before it."""
    for path, table in fitting_tables(book):
        for i, (before, row) in enumerate(pairwise(table.rows), start=1):
            if before.gas is not None and row.gas is not None and row.gas < before.gas:
                said = f"{_mm(row.gas)} for more than the row before it, which takes {_mm(before.gas)}"
                yield Doubt("smaller-joint", f"{path}.rows[{i}].gas", table.page, said, "two rows or figures swapped")


def walls(book: Book) -> Iterator[Doubt]:
    """A wall grows with the tube, and is between a fiftieth and a fifth of it."""
    walls_m = sorted(book.tubes.wall_m.items())
    for (_, before), (size, wall) in pairwise(walls_m):
        if wall < before:
            said = f"the wall of {_mm(size)}, {_mm(wall)}, is less than that of the next smaller tube, {_mm(before)}"
            yield Doubt("thinner-wall", "tubes.wall", book.tubes.page, said, "two rows swapped")
    for size, wall in walls_m:
        if not size / 50 <= wall <= size / 5:
            said = f"a tube of {_mm(size)} with a wall of {_mm(wall)}"
            yield Doubt("odd-wall", "tubes.wall", book.tubes.page, said, "the unit, or the row")


def ladder_gaps(book: Book) -> Iterator[Doubt]:
    """A step of the ladder to more than twice the size skips one."""
    for role, ladder in book.tubes.ladders.items():
        for before, size in pairwise(ladder):
            if size > 2.01 * before:
                said = f"from {_mm(before)} to {_mm(size)} in one step"
                yield Doubt("ladder-gap", f"tubes.{role}", book.tubes.page, said, "a size left out")


def _mm(metres: float) -> str:
    return f"{metres * 1000:g} mm"
