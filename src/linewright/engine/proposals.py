"""Outdoor groups proposed for a needed index: which groups of a book could serve it, and why the others cannot."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from linewright.book.compiled import CompiledBook, group_name
from linewright.book.schema import Group, Range
from linewright.units import Amount, over


class Wanted(NamedTuple):
    """What a group has to serve: sum of indoor indices, number of indoor units, rated capacities [W]."""

    index: float  # type: ignore[assignment] # hides tuple.index, which nothing calls
    units: int | None = None
    cooling_w: float | None = None
    heating_w: float | None = None


class Proposal(NamedTuple):
    """A group of a book with what it would give; `faults` says why it cannot serve what is wanted, if it cannot."""

    group: str
    modules: tuple[str, ...]
    index: float  # type: ignore[assignment] # hides tuple.index, which nothing calls
    connection_ratio: float
    cooling_w: float
    heating_w: float
    faults: tuple[str, ...]

    @property
    def serves(self) -> bool:
        """Whether nothing stands against it."""
        return not self.faults


def propose_groups(book: CompiledBook, wanted: Wanted) -> tuple[Proposal, ...]:
    """List every group of a book: those that serve first, then by size.

    Judged are the group's own ranges of connection ratio and unit count, and rated capacities where they are wanted.
    Whether the pipes hold is judged only in a design.
    """
    found = [propose(book, group, wanted) for group in book.book.outdoor.groups]
    return tuple(sorted(found, key=lambda item: (not item.serves, item.index, len(item.modules), item.group)))


def propose(book: CompiledBook, group: Group, wanted: Wanted) -> Proposal:
    """Say what a group of a book would give, and what stands against it."""
    cooling, heating = rated(book, group)
    ratio = wanted.index / group.index
    faults = (
        *_outside("connection ratio", ratio, group.connection_ratio, percent=True),
        *(_outside("unit count", float(wanted.units), group.indoor_count) if wanted.units is not None else ()),
        *_short("cooling", cooling, wanted.cooling_w),
        *_short("heating", heating, wanted.heating_w),
    )
    return Proposal(group_name(group), group.modules, group.index, ratio, cooling, heating, faults)


def rated(book: CompiledBook, group: Group) -> tuple[float, float]:
    """Rated cooling and heating of a group [W]; what is not given is the sum of its modules."""
    data = [book.modules[name] for name in group.modules]
    cooling = group.cooling_w if group.cooling_w is not None else sum(module.cooling_w for module in data)
    heating = group.heating_w if group.heating_w is not None else sum(module.heating_w for module in data)
    return cooling, heating


def _outside(name: str, value: float, bounds: Range, *, percent: bool = False) -> Iterator[str]:
    def say(number: float) -> str:
        return f"{number * 100:.4g} %" if percent else f"{number:g}"

    if _is_over(value, bounds.max):
        yield f"{name} {say(value)} is over its largest, {say(bounds.max.value if bounds.max else 0.0)}"
    if bounds.min is not None and over(bounds.min.value, value):
        yield f"{name} {say(value)} is under its least, {say(bounds.min.value)}"


def _is_over(value: float, bound: Amount | None) -> bool:
    return bound is not None and over(value, bound.value)


def _short(mode: str, rated_w: float, wanted_w: float | None) -> Iterator[str]:
    if wanted_w is not None and over(wanted_w, rated_w):
        yield f"rated {mode} {rated_w / 1e3:g} kW is short of {wanted_w / 1e3:g} kW"
