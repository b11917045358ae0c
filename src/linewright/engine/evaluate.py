"""`evaluate(design, library)`: the pure function that everything else shows."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from collections.abc import Set as AbstractSet
from functools import partial
from typing import NamedTuple

from linewright.book.capacity import ModeTables
from linewright.engine.actions import action_result
from linewright.engine.capacity import (
    Conditions,
    UnitRatings,
    coincident,
    cooling_conditions,
    heating_conditions,
    sensible,
    system_capacity,
    unit_ratings,
)
from linewright.engine.checks import action_checks, capacity_check, fitting_checks, size_checks
from linewright.engine.fittings import find_fittings
from linewright.engine.ground import Ground, lay_ground
from linewright.engine.library import Library
from linewright.engine.needs import Needs, Rating, find_needs
from linewright.engine.records import (
    Check,
    Deferred,
    Evaluation,
    ModeFigures,
    Standing,
    SystemCapacity,
    SystemResult,
)
from linewright.engine.results import measure_results, notes, run_results, unit_results, unstated
from linewright.engine.rooms import room_results
from linewright.engine.state import State
from linewright.engine.variants import Variant, resolve
from linewright.model.design import Design, System

CAUTIONS = (
    "Refrigerant in rooms, tube strength, physics of flow and oil, and electrical matters are not judged here.",
    "A book is what somebody typed; the maker's current printed data, local codes and a licensed engineer decide.",
    "Delivered capacities share the system's capacity in proportion to unit ratings: a convention, not physics.",
)


class _Modes(NamedTuple):
    """Capacity of one system in one mode with its units' figures [W]."""

    capacity: SystemCapacity | None
    figures: tuple[ModeFigures, ...]
    sensible: tuple[ModeFigures, ...]


def evaluate(design: Design, library: Library) -> Evaluation:
    """Judge a sound design on its books.

    Pure: no files, no clock, no state. Raises KeyError for a book that the library lacks.
    """
    variants = {system.id: resolve(lay_ground(system, library.books[system.book])) for system in design.systems}
    needs = find_needs(design, {name: _ratings(variant.state.ground) for name, variant in variants.items()})
    systems = tuple(
        _system(design, system, variants[system.id], needs[system.id])
        for system in sorted(design.systems, key=lambda system: system.id)
    )
    rooms = room_results(design, systems)
    standings = {check.standing for system in systems for check in (*system.limits, *system.checks)}
    standings.update(standing for room in rooms for standing in room.standings)
    return Evaluation(
        design=design,
        systems=systems,
        rooms=rooms,
        standing=overall(standings),
        books={name: library.hashes.get(name, "") for name in sorted({system.book for system in design.systems})},
        cautions=CAUTIONS,
    )


def overall(found: AbstractSet[Standing]) -> Standing:
    """Give the gravest standing: over, then unjudged (or to confirm), then on conditions, then within."""
    if Standing.OVER in found:
        return Standing.OVER
    if found & {Standing.UNJUDGED, Standing.TO_CONFIRM}:
        return Standing.UNJUDGED
    return Standing.ON_CONDITIONS if Standing.ON_CONDITIONS in found else Standing.WITHIN


def _ratings(ground: Ground) -> list[Rating]:
    return [
        Rating(unit.room, model.cooling_w, model.sensible_w, model.heating_w)
        for unit, model in zip(ground.system.units, ground.models, strict=True)
    ]


def _system(design: Design, system: System, variant: Variant, needs: Needs) -> SystemResult:
    state, ground = variant.state, variant.state.ground
    cooling = _cooling(design, state, needs)
    heating = _heating(design, state, needs)
    chosen = {scope.action.id for scope in variant.chosen}
    actions = tuple(
        action_result(
            ground,
            scope,
            state.sized,
            chosen=scope.action.id in chosen,
            over_with=variant.over_with.get(scope.action.id),
        )
        for scope in variant.scopes
    )
    fittings = find_fittings(ground, state.sized)
    checks = [
        *size_checks(ground, state.table, state.sized),
        *action_checks(ground, actions),
        *fitting_checks(ground, fittings),
        *([variant.charge] if variant.charge is not None else []),
        *(check for mode in (cooling.capacity, heating.capacity) if (check := _judged(ground, mode))),
    ]
    return SystemResult(
        id=system.id,
        name=system.name,
        book=system.book,
        group=ground.group_id,
        outdoor_index=ground.group.index,
        indoor_index=ground.index_sum,
        system=system,
        tree=ground.tree,
        state=state,
        rejected=variant.rejected,
        deferred_measures=Deferred(partial(measure_results, state)),
        limits=variant.limits,
        checks=tuple(sorted(checks, key=lambda check: (check.subject, check.measure))),
        unstated=unstated(state),
        actions=actions,
        deferred_runs=Deferred(partial(run_results, variant)),
        fittings=fittings,
        units=unit_results(state, cooling.figures, cooling.sensible, heating.figures),
        cooling=cooling.capacity,
        heating=heating.capacity,
        charge=state.charge,
        notes=notes(ground),
    )


def _judged(ground: Ground, capacity: SystemCapacity | None) -> Check | None:
    return None if capacity is None else capacity_check(ground, capacity)


def _cooling(design: Design, state: State, needs: Needs) -> _Modes:
    site = design.site.cooling
    if site is None:
        return _unserved(needs.cooling_w, needs.sensible_w)
    block = state.ground.system.block
    stated = block.cooling_w if block is not None else None
    tables = state.ground.book.cooling
    return _mode(
        state,
        tables,
        cooling_conditions(site),
        needs=needs.cooling_w,
        sensible_needs=needs.sensible_w,
        block_w=stated,
    )


def _heating(design: Design, state: State, needs: Needs) -> _Modes:
    site, tables = design.site.heating, state.ground.book.heating
    if site is None or tables is None:
        return _unserved(needs.heating_w, ())
    block = state.ground.system.block
    stated = block.heating_w if block is not None else None
    return _mode(state, tables, heating_conditions(site), needs=needs.heating_w, sensible_needs=(), block_w=stated)


def _mode(
    state: State,
    tables: ModeTables,
    conditions: Conditions,
    *,
    needs: Sequence[float | None],
    sensible_needs: Sequence[float | None],
    block_w: float | None,
) -> _Modes:
    ratings = unit_ratings(state, tables, conditions)
    capacity, delivered = system_capacity(state, tables, conditions, ratings)
    served = [need for need, unit in zip(needs, state.ground.system.units, strict=True) if unit.room]
    known = sum(need for need in served if need is not None)
    block = block_w if block_w is not None else known if served and None not in served else None
    got = coincident(
        capacity.plant_w,
        ratings.total_w,
        _coincident_needs(state, needs, block, known),
        own_factors=_own_factors(state, capacity),
    )
    whole = None if None in got else sum(item for item in got if item is not None)
    figures = tuple(ModeFigures(*item) for item in zip(needs, ratings.total_w, delivered, got, strict=True))
    parts = sensible(delivered, ratings, applies=bool(sensible_needs))
    sensible_got = sensible(got, ratings, applies=bool(sensible_needs))
    return _Modes(
        capacity._replace(block_w=block, coincident_w=whole),
        figures,
        _sensible_figures(ratings, sensible_needs, parts, sensible_got),
    )


def _sensible_figures(
    ratings: UnitRatings,
    needs: Sequence[float | None],
    delivered: Sequence[float | None],
    got: Sequence[float | None],
) -> tuple[ModeFigures, ...]:
    asked = needs or [None] * len(delivered)
    return tuple(ModeFigures(*item) for item in zip(asked, ratings.sensible_w, delivered, got, strict=True))


def _coincident_needs(
    state: State, needs: Sequence[float | None], block: float | None, known: float
) -> tuple[float | None, ...]:
    """Needs scaled from the sum of rooms to the block load; a unit without a room takes none."""
    scale = None if block is None or not known else block / known
    rooms = [unit.room for unit in state.ground.system.units]
    return tuple(
        0.0 if not room else None if need is None or scale is None else need * scale
        for need, room in zip(needs, rooms, strict=True)
    )


def _own_factors(state: State, capacity: SystemCapacity) -> tuple[float, ...]:
    own: Mapping[str, float] = {name: factor.value or 0.0 for name, factor in capacity.unit_length_factors.items()}
    return tuple(own.get(unit.id, 1.0) for unit in state.ground.system.units)


def _unserved(needs: Sequence[float | None], sensible_needs: Sequence[float | None]) -> _Modes:
    """Figures of a mode for which the site states no conditions or the book has no tables."""
    figures = tuple(ModeFigures(need, None, None, None) for need in needs)
    parts = tuple(ModeFigures(need, None, None, None) for need in sensible_needs)
    return _Modes(None, figures, parts)
