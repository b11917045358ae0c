"""All size and fitting tables of a book by their paths."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import NamedTuple, TypeVar

from linewright.book.schema import Book, FittingTable, HeaderTable, IndoorModel, OutdoorModule, SizeTable

T = TypeVar("T")


def size_tables(book: Book) -> Iterator[tuple[str, SizeTable]]:
    """Size tables by path; those of options stand apart."""
    return _stated(book.sizing, "sizing", ("main", "branch", "unit", "module", "below_box"), SizeTable)


def fitting_tables(book: Book) -> Iterator[tuple[str, FittingTable]]:
    """Tables of joints by path."""
    return _stated(book.fittings, "fittings", ("first", "joint", "outdoor_joint", "below_box"), FittingTable)


def header_tables(book: Book) -> Iterator[tuple[str, HeaderTable]]:
    """Tables of headers by path."""
    return _stated(book.fittings, "fittings", ("header", "below_box_header"), HeaderTable)


def capacity_tables(book: Book) -> Iterator[tuple[str, int | None]]:
    """Pages of all tables of capacity by path."""
    modes = (("cooling", book.capacity.cooling), ("heating", book.capacity.heating))
    for name, mode in modes:
        for key in ("table", "factors", "temperature", "ratio", "length", "unit_temperature"):
            tables = getattr(mode, key, ())
            for i, table in enumerate(tables):
                yield f"capacity.{name}.{key}" + (f"[{i}]" if len(tables) > 1 or key == "factors" else ""), table.page
        if mode is not None and mode.defrost is not None:
            yield f"capacity.{name}.defrost", mode.defrost.page


class Rated(NamedTuple):
    """A unit or an outdoor module with its place."""

    path: str
    page: int | None
    data: IndoorModel | OutdoorModule


def rising(book: Book) -> Iterator[tuple[Rated, Rated]]:
    """Neighbours by index among the units of each kind and among the outdoor modules, the smaller one first."""
    kinds: dict[str, list[Rated]] = {}
    for i, model in enumerate(book.indoor.models):
        made = Rated(f"indoor.models[{i}]", model.page or book.indoor.page, model)
        kinds.setdefault(f"indoor {model.kind}", []).append(made)
    for i, module in enumerate(book.outdoor.modules):
        made = Rated(f"outdoor.modules[{i}]", module.page or book.outdoor.page, module)
        kinds.setdefault("outdoor", []).append(made)
    for of_kind in kinds.values():
        yield from pairwise(sorted(of_kind, key=lambda one: one.data.index))


def _stated(holder: object, path: str, names: Sequence[str], kind: type[T]) -> Iterator[tuple[str, T]]:
    for name in names:
        table = getattr(holder, name)
        if isinstance(table, kind):
            yield f"{path}.{name}", table


def upper(row: object) -> float:
    """Upper edge of a band; a sound book gives each row one."""
    edge = getattr(row, "upto", None) or getattr(row, "below", None)
    return float(edge.value) if edge is not None else float("inf")
