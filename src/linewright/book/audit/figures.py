"""Doubts about ratings, factors and masses: figures that are a unit or a digit off, sums that do not add up."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from itertools import pairwise
from statistics import median

from linewright.book.audit.doubts import Doubt
from linewright.book.audit.tables import rising
from linewright.book.naming import group_name
from linewright.book.roles import line_rates
from linewright.book.schema import Book
from linewright.book.walls import wall_of
from linewright.model.values import Role

#: kg/m3 of liquid that a charge per metre may stand for, over all refrigerants and temperatures, wide on purpose.
LIQUID_DENSITY = (700.0, 1400.0)
#: The same of gas, suction and hot gas.
GAS_DENSITY = (2.0, 250.0)
#: Wall of a tube of which the book says none.
PLAIN_WALL_M = 0.001
#: So few models, and nothing can be called usual among them.
MOST_WITHOUT_USUAL = 2
W_PER_UNIT = {"kW": 1000.0, "MBH": 293.07107, "kBtu/h": 293.07107, "ton": 3516.8528, "tons": 3516.8528, "W": 1.0}


def charge_rates(book: Book) -> Iterator[Doubt]:
    """A charge per metre is the mass that the tube holds, and grows with the tube."""
    for role, rates in line_rates(book.charge):
        liquid = role in (Role.LIQUID, Role.HIGH)
        for (_, before), (size, rate) in pairwise(sorted(rates.items())):
            if rate < before:
                said = f"{rate:g} kg/m for {size * 1000:g} mm, less than for the next smaller tube, {before:g} kg/m"
                yield Doubt("charge-falls", f"charge.{role}", book.charge.page, said, "two figures swapped")
        for size, rate in rates.items():
            density = rate / (math.pi / 4 * (size - 2 * _wall(book, size)) ** 2)
            low, high = LIQUID_DENSITY if liquid else GAS_DENSITY
            if rate > 0 and not low <= density <= high:
                said = f"{rate:g} kg/m fill a tube of {size * 1000:g} mm with {density:.0f} kg/m3"
                yield Doubt("charge-density", f"charge.{role}", book.charge.page, said, "the unit, or a digit")


def _wall(book: Book, size: float) -> float:
    return wall_of(book, size) or PLAIN_WALL_M


def ratings(book: Book) -> Iterator[Doubt]:
    """Sensible and heating of a unit are of the order of its total."""
    for i, model in enumerate(book.indoor.models):
        path, page = f"indoor.models[{i}]", model.page or book.indoor.page
        sensible, heating = model.sensible_w / model.cooling_w, model.heating_w / model.cooling_w
        if not 0.45 <= sensible <= 1:
            yield Doubt("sensible-share", f"{path}.sensible", page, f"{sensible:.0%} of the total", "the column")
        if not 0.7 <= heating <= 2:
            yield Doubt("heating-share", f"{path}.heating", page, f"{heating:.0%} of the cooling", "the column")


def larger_ratings(book: Book) -> Iterator[Doubt]:
    """Of two units of one kind, and of two outdoor modules, the larger one gives no less."""
    for smaller, larger in rising(book):
        for field in ("cooling", "heating"):
            less, more = (getattr(one.data, f"{field}_w") for one in (smaller, larger))
            if larger.data.index > smaller.data.index and more < less:
                said = f"{larger.data.model} gives less than the smaller {smaller.data.model}"
                yield Doubt("larger-gives-less", f"{larger.path}.{field}", larger.page, said, "the two rows")


def index_units(book: Book) -> Iterator[Doubt]:
    """Where the index is counted in a unit of power, it is near the rated cooling in that unit."""
    watts = W_PER_UNIT.get(book.index.unit)
    if watts is None:
        return
    parts = [(f"indoor.models[{i}]", m, m.page or book.indoor.page) for i, m in enumerate(book.indoor.models)]
    parts += [(f"outdoor.modules[{i}]", m, m.page or book.outdoor.page) for i, m in enumerate(book.outdoor.modules)]  # type: ignore[misc]
    for path, part, page in parts:
        share = part.cooling_w / (part.index * watts)
        if not 0.75 <= share <= 1.35:
            said = f"an index of {part.index:g} {book.index.unit} on {part.cooling_w / 1000:g} kW of cooling"
            yield Doubt("index-unit", f"{path}.index", page, said, "the unit of the index, or a digit")


def index_shares(book: Book) -> Iterator[Doubt]:
    """Rated cooling over index is much the same for all indoor units, and for all outdoor modules."""
    units = [(f"indoor.models[{i}]", m, m.page or book.indoor.page) for i, m in enumerate(book.indoor.models)]
    modules = [(f"outdoor.modules[{i}]", m, m.page or book.outdoor.page) for i, m in enumerate(book.outdoor.modules)]
    told = {doubt.path for doubt in index_units(book)}
    for parts in (units, modules):
        usual = median(part.cooling_w / part.index for _, part, _ in parts) if len(parts) > MOST_WITHOUT_USUAL else None
        for path, part, page in parts:
            share = part.cooling_w / part.index / usual if usual else 1.0
            if f"{path}.index" not in told and not 0.8 <= share <= 1.25:
                said = f"{part.cooling_w / 1000:g} kW on an index of {part.index:g}, {share:.0%} of what is usual here"
                yield Doubt("index-share", f"{path}.cooling", page, said, "the row, or a digit")


def group_sums(book: Book) -> Iterator[Doubt]:
    """A group is near the sum of its modules."""
    modules = {module.model: module for module in book.outdoor.modules}
    for i, group in enumerate(book.outdoor.groups):
        page = group.page or book.outdoor.page
        for field in ("index", "cooling_w", "heating_w", "factory_charge_kg"):
            own = getattr(group, field)
            total = sum(getattr(modules[name], field) for name in group.modules)
            if own is not None and total and not 0.9 <= own / total <= 1.1:
                key = field.rpartition("_")[0] or field
                said = f"group {group_name(group)} has {own / total:.0%} of the sum of its modules"
                yield Doubt("group-sum", f"outdoor.groups[{i}].{key}", page, said, "the modules, or the figure")


def factors(book: Book) -> Iterator[Doubt]:
    """Factors are of the order of one, and those of length fall along the pipe."""
    modes = (("cooling", book.capacity.cooling), ("heating", book.capacity.heating))
    for name, mode in modes:
        if mode is None:
            continue
        for i, table in enumerate(mode.temperature):
            path = f"capacity.{name}.temperature" + (f"[{i}]" if len(mode.temperature) > 1 else "")
            yield from _sizes(table.factor, path, table.page)
            yield from _axes(table, path, table.page)
            yield from _jumps(table.factor, path, table.page)
        for i, lengths in enumerate(mode.length):
            path = f"capacity.{name}.length" + (f"[{i}]" if len(mode.length) > 1 else "")
            yield from _sizes(lengths.factor, path, lengths.page)
            for before, row in pairwise(lengths.factor):
                if any(late > early + 1e-9 for early, late in zip(before, row, strict=True)):
                    said = "a factor grows with the length of pipe"
                    yield Doubt("length-factor", f"{path}.factor", lengths.page, said, "two rows swapped")
        for i, ratio in enumerate(mode.ratio):
            path = f"capacity.{name}.ratio" + (f"[{i}]" if len(mode.ratio) > 1 else "")
            if any(late < early - 1e-9 for early, late in pairwise(ratio.factor)):
                said = "the capacity falls while more is connected"
                yield Doubt("ratio-factor", f"{path}.factor", ratio.page, said, "two figures swapped")


def _sizes(rows: Sequence[Sequence[float]], path: str, page: int | None) -> Iterator[Doubt]:
    for i, row in enumerate(rows):
        for j, factor in enumerate(row):
            if not 0.3 <= factor <= 1.6:
                where = f"{path}.factor[{i}][{j}]"
                yield Doubt("odd-factor", where, page, f"a factor of {factor:g}", "the decimal point, or a capacity")


def _jumps(rows: Sequence[Sequence[float]], path: str, page: int | None) -> Iterator[Doubt]:
    """A figure outside those before and after it in its column; the one behind it looks so because of it."""
    for j in range(len(rows[0]) if rows else 0):
        odd = -1
        for i in range(1, len(rows) - 1):
            before, factor, after = (rows[at][j] for at in (i - 1, i, i + 1))
            low, high = sorted((before, after))
            if odd != i - 1 and not low - 0.02 <= factor <= high + 0.02:
                odd = i
                said = f"{factor:g} between {before:g} and {after:g}"
                yield Doubt("factor-jump", f"{path}.factor[{i}][{j}]", page, said, "a digit, or two rows swapped")


_AXES: Mapping[str, tuple[float, float]] = {
    "outdoor_db_degc": (-40.0, 60.0),
    "outdoor_wb_degc": (-40.0, 35.0),
    "indoor_db_degc": (5.0, 40.0),
    "indoor_wb_degc": (5.0, 30.0),
}


def _axes(table: object, path: str, page: int | None) -> Iterator[Doubt]:
    for axis, (low, high) in _AXES.items():
        entries: tuple[float, ...] = getattr(table, axis)
        for i, entry in enumerate(entries):
            if not low <= entry <= high:
                where = f"{path}.{axis.removesuffix('_degc')}[{i}]"
                yield Doubt("odd-temperature", where, page, f"{entry:g} C", "the unit: degC or degF")
