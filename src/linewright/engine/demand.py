"""The coincident cooling load of each system, before anything is sized: stated, or its part of its rooms' loads.

Nobody knows what a unit in no room takes, so with one of them the load is known only where it is stated.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

from linewright.book.compiled import CompiledBook
from linewright.engine.formulas import need_share
from linewright.engine.frame import MOST_KNOWN
from linewright.engine.library import Library
from linewright.engine.still import Surroundings
from linewright.model.design import Design, System
from linewright.model.same import Same


def surroundings_of(design: Design, library: Library) -> dict[str, Surroundings]:
    """Give what each system stands in; the load only where a book asks for it."""
    if not any(_asks_demand(Same(library.books[name])) for name in {system.book for system in design.systems}):
        plain = Surroundings(design.site)
        return {system.id: plain for system in design.systems}
    ratings = _ratings(design, library)
    return {system.id: Surroundings(design.site, _demand(design, system, ratings)) for system in design.systems}


@lru_cache(maxsize=MOST_KNOWN)
def _asks_demand(book: Same[CompiledBook]) -> bool:
    return book.value.asks_demand


def _ratings(design: Design, library: Library) -> dict[str, dict[tuple[str, str], float]]:
    """Rated cooling of every unit [W] by its room, system and id."""
    by_room: dict[str, dict[tuple[str, str], float]] = {}
    for system in design.systems:
        models = library.books[system.book].models
        for unit in system.units:
            by_room.setdefault(unit.room, {})[system.id, unit.id] = models[unit.model].cooling_w
    return by_room


def _demand(design: Design, system: System, ratings: Mapping[str, Mapping[tuple[str, str], float]]) -> float | None:
    if system.block is not None and system.block.cooling_w is not None:
        return system.block.cooling_w
    loads = {room.id: room.cooling_w for room in design.rooms}
    total = 0.0
    for unit in system.units:
        load = loads.get(unit.room)
        if load is None:
            return None
        total += need_share(load, ratings[unit.room][system.id, unit.id], sum(ratings[unit.room].values()))
    return total
