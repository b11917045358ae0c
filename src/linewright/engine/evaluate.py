"""`evaluate(design, library)`: the pure function that everything else shows."""

from __future__ import annotations

from collections.abc import Set as AbstractSet
from functools import partial
from typing import TYPE_CHECKING

from linewright.engine.actions import action_result
from linewright.engine.box_checks import box_checks
from linewright.engine.capacity_records import SystemCapacity
from linewright.engine.checks import action_checks, capacity_check, fitting_checks, size_checks
from linewright.engine.demand import surroundings_of
from linewright.engine.fittings import find_fittings
from linewright.engine.ground import Ground, lay_ground
from linewright.engine.library import Library
from linewright.engine.modes import Ratings, cooling_mode, find_ratings, heating_mode
from linewright.engine.needs import Needs, find_needs
from linewright.engine.outdoor import outdoor_checks, outdoor_result
from linewright.engine.records import Check, Deferred, Evaluation, Standing, SystemFigures, SystemResult
from linewright.engine.results import measure_results, notes, unit_results, unstated
from linewright.engine.rooms import room_results, room_standings
from linewright.engine.rules import operation_checks, option_checks, requirement_checks
from linewright.engine.runs import run_results
from linewright.engine.state import State
from linewright.engine.variants import Variant, resolve
from linewright.model.design import Design, System

if TYPE_CHECKING:
    from linewright.engine.hydraulics_records import Hydraulics
    from linewright.engine.pipework_records import PipeworkResult
    from linewright.engine.safety_records import SafetyResult

RECOVERY = (
    "Heat recovery is judged with all units cooling and with all units heating; units in both modes at once, and the "
    "change from one to the other, are not judged."
)
NOT_JUDGED = "{} and electrical matters are not judged here."
ROOMS, PIPEWORK = "Refrigerant in rooms", "tube strength, insulation and movement of pipe"
OTHERS = "physics of flow and oil,"
CAUTIONS = (
    NOT_JUDGED.format(f"{ROOMS}, {PIPEWORK}, {OTHERS}"),
    "A book is what somebody typed; the maker's current printed data, local codes and a licensed engineer decide.",
    "Delivered capacities share the system's capacity in proportion to unit ratings: a convention, not physics.",
)
#: In place of the first by whether refrigerant in rooms is judged, and whether pipework is.
UNJUDGED = {
    (False, False): CAUTIONS[0],
    (True, False): NOT_JUDGED.format(f"{PIPEWORK.capitalize()}, {OTHERS}"),
    (False, True): NOT_JUDGED.format(f"{ROOMS}, {OTHERS}"),
    (True, True): NOT_JUDGED.format(OTHERS.capitalize()),
}
IN_ROOMS = (
    "Refrigerant is heavier than air and drives it out: a leak can suffocate people in a small room without a smell.",
    "Refrigerants of class A2L, A2 and A3 burn: ignition sources, detectors and ventilation are not judged here.",
    "Rooms without a stated unit or fitting, pipe that passes a room, machinery rooms, shafts, exits are not judged.",
    "What is advisory rests on memory: read the standard and the code; the authority and a licensed engineer decide.",
)
ON_PIPEWORK = (
    "Never test with oxygen or a gas that burns: dry nitrogen only, through a regulator, with a relief valve.",
    "Gas under test pressure throws what breaks: keep people at a distance and raise the pressure in stages.",
    "Braze with nitrogen flowing through the pipe and a fire watch, then and after. Brazing anneals tube.",
    "Where the design is silent on air, temperatures and stock, defaults stand in: the working (why) names each.",
)


def evaluate(design: Design, library: Library) -> Evaluation:
    """Judge a sound design on its books.

    Pure: no files, no clock, no state. Raises KeyError for a book that the library lacks.
    """
    around = surroundings_of(design, library)
    variants = {
        system.id: resolve(lay_ground(system, library.books[system.book], around[system.id]))
        for system in design.systems
    }
    ratings = {name: find_ratings(design, variant.state) for name, variant in variants.items()}
    needs = find_needs(design, {name: found.served for name, found in ratings.items()})
    systems = tuple(
        _system(design, system, variants[system.id], ratings=ratings[system.id], needs=needs[system.id])
        for system in sorted(design.systems, key=lambda system: system.id)
    )
    standings = {check.standing for system in systems for check in (*system.limits, *system.checks)}
    standings |= room_standings(design, systems)
    return Evaluation(
        design=design,
        systems=systems,
        deferred_rooms=Deferred(partial(room_results, design, systems)),
        standing=overall(standings) if systems else Standing.UNJUDGED,
        books={name: library.hashes.get(name, "") for name in sorted({system.book for system in design.systems})},
        cautions=_cautions(design, recovers=any(variant.state.ground.zones for variant in variants.values())),
    )


def _cautions(design: Design, *, recovers: bool) -> tuple[str, ...]:
    rooms, pipework = design.refrigerant is not None, design.pipework is not None
    about = (UNJUDGED[rooms, pipework], *(IN_ROOMS if rooms else ()), *(ON_PIPEWORK if pipework else ()))
    return (*about, *CAUTIONS[1:], *((RECOVERY,) if recovers else ()))


def overall(found: AbstractSet[Standing]) -> Standing:
    """Give the gravest standing: over, then unjudged (or to confirm), then on conditions, then within."""
    if Standing.OVER in found:
        return Standing.OVER
    if found & {Standing.UNJUDGED, Standing.TO_CONFIRM}:
        return Standing.UNJUDGED
    return Standing.ON_CONDITIONS if Standing.ON_CONDITIONS in found else Standing.WITHIN


def _system(design: Design, system: System, variant: Variant, *, ratings: Ratings, needs: Needs) -> SystemResult:
    state, ground = variant.state, variant.state.ground
    cooling, heating = cooling_mode(state, ratings, needs), heating_mode(state, ratings, needs)
    chosen = {scope.action.id for scope in variant.chosen}
    actions = tuple(
        action_result(
            state,
            scope,
            chosen=scope.action.id in chosen,
            over_with=variant.over_with.get(scope.action.id),
        )
        for scope in variant.scopes
    )
    figures = SystemFigures(cooling.figures, cooling.sensible, heating.figures)
    fittings = find_fittings(ground, state.sized)
    outdoor = outdoor_result(ground, state.sized)
    safety, pipework = _safety(design, state), _pipework(design, state)
    checks = [
        *size_checks(ground, state.table, state.sized),
        *action_checks(ground, actions),
        *fitting_checks(ground, fittings),
        *box_checks(ground),
        *outdoor_checks(ground, outdoor),
        *requirement_checks(state),
        *option_checks(state),
        *operation_checks(ground),
        *([variant.charge] if variant.charge is not None else []),
        *(safety.checks if safety is not None else ()),
        *(pipework.checks if pipework is not None else ()),
        *(check for mode in (cooling.capacity, heating.capacity) if (check := _judged(ground, mode))),
    ]
    result = SystemResult(
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
        outdoor=outdoor,
        figures=figures,
        deferred_units=Deferred(partial(unit_results, state, figures)),
        cooling=cooling.capacity,
        heating=heating.capacity,
        charge=state.charge,
        notes=notes(state),
        safety=safety,
        pipework=pipework,
    )
    return result._replace(deferred_hydraulics=Deferred(partial(_hydraulics, result)))


def _safety(design: Design, state: State) -> SafetyResult | None:
    if design.refrigerant is None:
        return None
    from linewright.engine.safety import safety_of  # noqa: PLC0415 - what no design asks for takes long to load

    return safety_of(design, state.ground, state.charge, state.sized)


def _pipework(design: Design, state: State) -> PipeworkResult | None:
    if design.pipework is None:
        return None
    from linewright.engine.pipework import pipework_of  # noqa: PLC0415 - what no design asks for takes long to load

    return pipework_of(design, state.ground, state.sized)


def _hydraulics(result: SystemResult) -> tuple[Hydraulics]:
    from linewright.engine.hydraulics import hydraulics  # noqa: PLC0415 - what no book needs takes long to load

    return (hydraulics(result),)


def _judged(ground: Ground, capacity: SystemCapacity | None) -> Check | None:
    return None if capacity is None else capacity_check(ground, capacity)
