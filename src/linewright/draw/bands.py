"""Which lane each indoor unit gets: levels in true order, units of a level as the pipe meets them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import count

from linewright.draw.plan import Band, Lane, ModuleRow
from linewright.engine.records import Evaluation, SystemResult, UnitResult
from linewright.model.design import Level
from linewright.model.kept import Kept
from linewright.units import over

NOWHERE = ""


def make_bands(evaluation: Evaluation, result: SystemResult, *, module_reach: Mapping[str, float | None]) -> list[Band]:
    """Give the levels that hold a unit or the outdoor group, top level first, lanes numbered from the top."""
    levels = sorted(evaluation.design.site.levels, key=lambda level: -level.elevation_m)
    rank = {level.id: i for i, level in enumerate(levels)}
    rooms = _rooms(evaluation, levels)
    home = {
        unit.id: rooms[unit.room] if unit.room in rooms else _level_at(unit.elevation_m, levels)
        for unit in result.units
    }
    outdoor = _outdoor_level(result, levels)
    units = {unit.id: unit for unit in result.units}
    tree, ranks = result.tree, tuple([rank.get(home[unit.id], len(levels)) for unit in result.system.units])
    order = _ORDERS(result.id, tree.ids, tree.parent, tree.children, tree.unit_at, ranks)
    bands: list[Band] = []
    number = 0
    for level in [*levels, None]:
        name = level.id if level else NOWHERE
        mine = [units[unit] for unit in order if home[unit] == name]
        modules = _module_rows(result, module_reach) if name == outdoor else []
        if not mine and not modules:
            continue
        below = bool(bands) and bool(mine)
        band = _band(level, modules, mine, start=number, modules_last=below)
        bands.append(band)
        number = band.last + 1
    return bands


def _walk_order(  # noqa: PLR0917 - kept by these, of a tree
    ids: Sequence[str],
    parent: Sequence[int],
    children: Sequence[Sequence[int]],
    unit_at: Sequence[int],
    ranks: Sequence[int],
) -> list[str]:
    """Give the units in walking order, higher branches first, so that few pipes cross.

    ranks : by position of the unit, 0 for the top level. Branches of equal height keep the design's order.
    """
    total, many = [0.0] * len(ids), [0] * len(ids)
    for i in range(len(ids) - 1, -1, -1):
        if unit_at[i] >= 0:
            total[i] += ranks[unit_at[i]]
            many[i] += 1
        if parent[i] >= 0:
            total[parent[i]] += total[i]
            many[parent[i]] += many[i]
    found, stack = [], [i for i, before in enumerate(parent) if before < 0]
    while stack:
        at = stack.pop()
        if unit_at[at] >= 0:
            found.append(ids[at])
        stack += sorted(children[at], key=lambda i: (-total[i] / max(many[i], 1), -i))
    return found


#: The order of units before, by system.
_ORDERS: Kept[list[str]] = Kept(_walk_order)


def _rooms(evaluation: Evaluation, levels: Sequence[Level]) -> dict[str, str]:
    """Give the level of each room that stands on a known one."""
    known = {level.id for level in levels}
    return {room.id: room.level for room in evaluation.design.rooms if room.level in known}


def _level_at(elevation_m: float | None, levels: Sequence[Level]) -> str:
    """Give the highest level whose floor is not above `elevation_m`, the lowest for what lies below all."""
    if elevation_m is None or not levels:
        return NOWHERE
    for level in levels:
        if not over(level.elevation_m, elevation_m):
            return level.id
    return levels[-1].id


def _outdoor_level(result: SystemResult, levels: Sequence[Level]) -> str:
    outdoor = result.system.outdoor
    stated = [module.elevation_m for module in outdoor.modules if module.elevation_m is not None]
    elevation = outdoor.elevation_m if outdoor.elevation_m is not None else max(stated, default=None)
    return _level_at(elevation, levels)


def _module_rows(result: SystemResult, reach: Mapping[str, float | None]) -> list[ModuleRow]:
    modules = result.system.outdoor.modules
    named = [(module.id or f"M{i + 1}", module.model) for i, module in enumerate(modules)]
    return [ModuleRow(id=name, model=model, number=0, reach_m=reach.get(name)) for name, model in named]


def _band(
    level: Level | None, modules: list[ModuleRow], units: list[UnitResult], *, start: int, modules_last: bool
) -> Band:
    """Number the rows of a level; below other levels the outdoor group stands under the level's lanes."""
    first_module = start + (len(units) if modules_last else 0)
    first_unit = start + (0 if modules_last else len(modules))
    rows = [
        ModuleRow(id=row.id, model=row.model, number=first_module + i, reach_m=row.reach_m)
        for i, row in enumerate(modules)
    ]
    return Band(
        id=level.id if level else NOWHERE,
        name=(level.name or level.id) if level else "",
        elevation_m=level.elevation_m if level else None,
        modules=tuple(rows),
        lanes=tuple(map(Lane, units, count(first_unit))),
    )
