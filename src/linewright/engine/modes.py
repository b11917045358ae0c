"""One mode of one system, cooling or heating: ratings, needs, capacity, and what each unit gets in both cases."""

from __future__ import annotations

from functools import lru_cache
from typing import NamedTuple

from linewright.engine.capacity import system_capacity
from linewright.engine.capacity_records import SystemCapacity
from linewright.engine.factors import cooling_conditions, heating_conditions
from linewright.engine.frame import MOST_KNOWN, Frame
from linewright.engine.needs import Needs, Served, Watts
from linewright.engine.rated import Rated, rated_capacity
from linewright.engine.records import UnitFigures
from linewright.engine.sharing import Shares, Supply, shares
from linewright.engine.state import State
from linewright.model.design import Design, Site
from linewright.model.same import Same


class Ratings(NamedTuple):
    """What one system is rated at where it stands; nothing for a mode without conditions or tables.

    served : the rooms, and the ratings by which loads are shared: as corrected, or as rated for a mode not judged
    """

    cooling: Rated | None
    heating: Rated | None
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
        cooling = rated_capacity(frame, site, frame.book.cooling, cooling_conditions(site.cooling))
    if site.heating is not None and tables is not None:
        heating = rated_capacity(frame, site, tables, heating_conditions(site.heating))
    return Ratings(cooling, heating, _served(frame, cooling, heating))


def _served(frame: Frame, cooling: Rated | None, heating: Rated | None) -> Served:
    return Served(
        tuple([unit.room for unit in frame.units]),
        cooling.ratings.total_w if cooling is not None else tuple([model.cooling_w for model in frame.models]),
        cooling.ratings.sensible_w if cooling is not None else tuple([model.sensible_w for model in frame.models]),
        heating.ratings.total_w if heating is not None else frame.heating_w,
    )


def cooling_mode(state: State, ratings: Ratings, needs: Needs) -> Mode:
    """Total and sensible cooling of one system."""
    if ratings.cooling is None:
        return Mode(None, _bare(needs.cooling_w), _bare(needs.sensible_w))
    block = state.ground.system.block
    block_w = None if block is None else block.cooling_w
    capacity, got = _share(state, ratings.cooling, needs.cooling_w, needs.sensible_w, block_w=block_w)
    return Mode(capacity, got.total, got.sensible)


def heating_mode(state: State, ratings: Ratings, needs: Needs) -> Mode:
    """Heating of one system."""
    if ratings.heating is None:
        return Mode(None, _bare(needs.heating_w), _bare(needs.heating_w))
    block = state.ground.system.block
    block_w = None if block is None else block.heating_w
    capacity, got = _share(state, ratings.heating, needs.heating_w, None, block_w=block_w)
    return Mode(capacity, got.total, got.sensible)


def _share(
    state: State, rated: Rated, needs: Watts, sensible_needs: Watts | None, *, block_w: float | None
) -> tuple[SystemCapacity, Shares]:
    """The system's capacity, and what its units get of it."""
    capacity = system_capacity(state, rated)
    own = tuple([factor.value for factor in capacity.unit_length_factors.values()])
    got = shares(rated, needs, sensible_needs, Supply(capacity.plant_w, own, not capacity.missing, block_w))
    return (
        capacity._replace(delivered_w=got.delivered_w, block_w=got.block_w, coincident_w=got.coincident_w),
        got,
    )


def _bare(needs: Watts) -> UnitFigures:
    """Figures of a mode for which the site states no conditions or the book has no tables."""
    nothing = (None,) * len(needs)
    return UnitFigures(needs, nothing, nothing, nothing)
