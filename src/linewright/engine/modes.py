"""One mode of one system, cooling or heating: ratings, needs, capacity, and what each unit gets in both cases."""

from __future__ import annotations

from functools import lru_cache
from itertools import compress
from typing import NamedTuple

from linewright.book.capacity import ModeTables
from linewright.engine.capacity import (
    UnitRatings,
    coincident,
    sensible,
    system_capacity,
    unit_ratings,
)
from linewright.engine.capacity_records import SystemCapacity
from linewright.engine.factors import Conditions, cooling_conditions, heating_conditions
from linewright.engine.frame import MOST_KNOWN, Frame
from linewright.engine.needs import Needs, Served, Watts
from linewright.engine.records import UnitFigures
from linewright.engine.state import State
from linewright.model.design import Design, Site
from linewright.model.same import Same


class Ratings(NamedTuple):
    """Corrected ratings of the units of one system; none for a mode without conditions or tables.

    served : the rooms, and the ratings by which loads are shared: as corrected, or as rated for a mode not judged
    """

    cooling: UnitRatings | None
    heating: UnitRatings | None
    served: Served


class Mode(NamedTuple):
    """Capacity of one system in one mode, and the figures of its units; `sensible` means something in cooling only."""

    capacity: SystemCapacity | None
    figures: UnitFigures
    sensible: UnitFigures


def find_ratings(design: Design, state: State) -> Ratings:
    """Correct the ratings of all units for their own air."""
    return _ratings(Same(state.ground.frame), Same(design.site))


@lru_cache(maxsize=MOST_KNOWN)
def _ratings(of: Same[Frame], at: Same[Site]) -> Ratings:
    frame, site = of.value, at.value
    tables = frame.book.heating
    cooling = heating = None
    if site.cooling is not None:
        cooling = unit_ratings(frame, frame.book.cooling, cooling_conditions(site.cooling))
    if site.heating is not None and tables is not None:
        heating = unit_ratings(frame, tables, heating_conditions(site.heating))
    return Ratings(cooling, heating, _served(frame, cooling, heating))


def _served(frame: Frame, cooling: UnitRatings | None, heating: UnitRatings | None) -> Served:
    return Served(
        tuple([unit.room for unit in frame.units]),
        cooling.total_w if cooling is not None else tuple([model.cooling_w for model in frame.models]),
        cooling.sensible_w if cooling is not None else tuple([model.sensible_w for model in frame.models]),
        heating.total_w if heating is not None else frame.heating_w,
    )


def cooling_mode(design: Design, state: State, ratings: Ratings, needs: Needs) -> Mode:
    """Total and sensible cooling of one system."""
    site, found = design.site.cooling, ratings.cooling
    if site is None or found is None:
        return Mode(None, _bare(needs.cooling_w), _bare(needs.sensible_w))
    block = state.ground.system.block
    block_w = None if block is None else block.cooling_w
    capacity, total, got = _share(
        state,
        state.ground.book.cooling,
        cooling_conditions(site),
        ratings=found,
        needs=needs.cooling_w,
        block_w=block_w,
    )
    return Mode(
        capacity,
        UnitFigures(needs.cooling_w, found.total_w, total, got),
        UnitFigures(needs.sensible_w, found.sensible_w, sensible(total, found), sensible(got, found)),
    )


def heating_mode(design: Design, state: State, ratings: Ratings, needs: Needs) -> Mode:
    """Heating of one system."""
    site, tables, found = design.site.heating, state.ground.book.heating, ratings.heating
    if site is None or tables is None or found is None:
        return Mode(None, _bare(needs.heating_w), _bare(needs.heating_w))
    block = state.ground.system.block
    block_w = None if block is None else block.heating_w
    capacity, total, got = _share(
        state, tables, heating_conditions(site), ratings=found, needs=needs.heating_w, block_w=block_w
    )
    figures = UnitFigures(needs.heating_w, found.total_w, total, got)
    return Mode(capacity, figures, figures)


def _share(
    state: State,
    tables: ModeTables,
    conditions: Conditions,
    *,
    ratings: UnitRatings,
    needs: Watts,
    block_w: float | None,
) -> tuple[SystemCapacity, Watts, Watts]:
    """The system's capacity, what its units get at full demand, and what they get at coincident load."""
    capacity, delivered = system_capacity(state, tables, conditions, ratings)
    housed = [bool(unit.room) for unit in state.ground.system.units]
    wanted = list(compress(needs, housed))
    known = sum([need for need in wanted if need is not None])
    block = block_w if block_w is not None else known if wanted and None not in wanted else None
    scale = None if block is None else block / known if known else 1.0
    got = coincident(
        None if capacity.missing else capacity.plant_w,
        ratings.total_w,
        [_scaled(need, scale) if has_room else 0.0 for need, has_room in zip(needs, housed, strict=True)],
        own_factors=_own_factors(state, capacity),
    )
    whole = None if None in got else sum([item for item in got if item is not None])
    return capacity._replace(block_w=block, coincident_w=whole), delivered, got


def _scaled(need: float | None, scale: float | None) -> float | None:
    return None if need is None or scale is None else need * scale


def _own_factors(state: State, capacity: SystemCapacity) -> list[float]:
    factors, units = capacity.unit_length_factors, state.ground.system.units
    if not factors:
        return [1.0] * len(units)
    return [factors[unit.id].value or 0.0 for unit in units]


def _bare(needs: Watts) -> UnitFigures:
    """Figures of a mode for which the site states no conditions or the book has no tables."""
    nothing = (None,) * len(needs)
    return UnitFigures(needs, nothing, nothing, nothing)
