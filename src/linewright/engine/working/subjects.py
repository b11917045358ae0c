"""From a subject such as `main/limit:total_length` to its working."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from difflib import get_close_matches
from types import ModuleType
from typing import cast

from linewright.book.measures import MeasureName
from linewright.engine.records import CheckKind, Evaluation, SystemResult
from linewright.engine.working.boxes import direct_steps
from linewright.engine.working.capacity import factor_steps, room_steps, system_steps, unit_steps
from linewright.engine.working.charge import charge_steps
from linewright.engine.working.limits import limit_steps
from linewright.engine.working.measures import item_steps, measure_steps, uses_of
from linewright.engine.working.others import action_steps, fitting_steps, indoor_index_steps
from linewright.engine.working.outdoor import module_pipe_steps, outdoor_joint_steps
from linewright.engine.working.places import Places, places
from linewright.engine.working.ratings import rating_steps, ratings_steps, reach_steps
from linewright.engine.working.rules import operation_steps, option_steps, requirement_steps
from linewright.engine.working.runs import (
    equivalent_steps,
    index_steps,
    length_steps,
    level_steps,
    rise_steps,
    tube_steps,
)
from linewright.engine.working.steps import Step, Working
from linewright.errors import UnknownSubjectError
from linewright.model.values import Role

#: Checks that rest on statements; each has a subject of its own.
RULED = (CheckKind.REQUIREMENT, CheckKind.OPTION, CheckKind.OPERATION)
#: Subjects of pipework, alone or before a colon.
PIPEWORK = (
    *("design-pressure", "low-side-pressure", "pressure-test", "tube-sizes", "strength"),
    *("insulation", "vapour-barrier", "movement", "test"),
)
MODES = ("cooling", "sensible", "heating")
Steps = tuple[Step, ...] | None


def working(evaluation: Evaluation, subject: str) -> Working:
    """Give the steps behind a subject; reads records only.

    Raises UnknownSubjectError with the nearest subjects when there is none of that name.
    """
    steps = _room(evaluation, subject) if subject.startswith("room:") else _of_system(evaluation, subject)
    if steps is None:
        near = get_close_matches(subject, list(subjects(evaluation)), n=3, cutoff=0.4)
        raise UnknownSubjectError(subject, nearest=tuple(near))
    return Working(subject, steps)


def subjects(evaluation: Evaluation) -> Iterator[str]:
    """Every subject that a person would ask for (items of measures can be asked for as well)."""
    for result in evaluation.systems:
        for rest in _system_subjects(result):
            yield f"{result.id}/{rest}"
        for rest in _flow().flow_subjects(places(evaluation, result)):
            yield f"{result.id}/{rest}"
        if result.safety is not None:
            yield from (check.subject for check in result.safety.checks)
        if result.pipework is not None:
            yield from _pipework().pipework_subjects(result.pipework, result.id)
    for room in evaluation.rooms:
        for check in room.checks:
            yield check.subject


def _system_subjects(result: SystemResult) -> Iterator[str]:
    yield from dict.fromkeys(f"limit:{check.measure}" for check in result.limits)
    yield from (f"measure:{item.key}" for item in result.measures)
    for run in result.runs:
        yield f"run:{run.id}.length"
        yield f"run:{run.id}.equivalent"
        yield f"run:{run.id}.rise"
        yield f"run:{run.id}.level"
        yield f"run:{run.id}.index"
        yield from (f"run:{run.id}.{role}_od" for role in sorted(run.tubes))
    yield from (f"fitting:{fitting.id}" for fitting in result.fittings)
    yield from (f"module_pipe:{pipe.id}" for pipe in result.outdoor.pipes)
    yield from (f"outdoor_joint:{joint.id}" for joint in result.outdoor.joints)
    for unit in result.units:
        yield f"unit:{unit.id}.reach"
        yield f"unit:{unit.id}.equivalent_reach"
        yield f"unit:{unit.id}.level"
        yield from (f"unit:{unit.id}.{mode}" for mode in MODES)
    yield from (f"action:{action.id}" for action in result.actions)
    ruled = (check for check in result.checks if check.kind in RULED)
    yield from dict.fromkeys(check.subject.partition("/")[2] for check in ruled)
    modes = (("cooling", result.cooling), ("heating", result.heating))
    yield from (f"capacity.{mode}.input" for mode, found in modes if found is not None and found.used is not None)
    yield from ("capacity.cooling", "capacity.heating", "indoor_index", "charge")


def _room(evaluation: Evaluation, subject: str) -> Steps:
    for room in evaluation.rooms:
        for check in room.checks:
            if subject in (check.subject, f"room:{room.id}"):
                found = [c for c in room.checks if subject in (c.subject, f"room:{room.id}")]
                return tuple(step for c in found for step in room_steps(evaluation, room, c))
    return None


def _of_system(evaluation: Evaluation, subject: str) -> Steps:
    system, _, rest = subject.partition("/")
    result = next((item for item in evaluation.systems if item.id == system), None)
    if result is None:
        return None
    at = places(evaluation, result)
    kind, _, name = rest.partition(":")
    if kind in PIPEWORK:
        return cast("Steps", _pipework().pipework_steps(at, rest))
    if kind in BY_KIND:
        return BY_KIND[kind](at, name)
    return _whole(at, rest)


def _flow() -> ModuleType:
    """The working of flow, which takes long to load."""
    from linewright.engine.working import flow  # noqa: PLC0415 - nothing else needs it

    return flow


def _safety() -> ModuleType:
    """The working of refrigerant in rooms, which no design without a standard needs."""
    from linewright.engine.working import safety  # noqa: PLC0415 - seldom needed

    return safety


def _pipework() -> ModuleType:
    """The working of pipework, which no design without it needs."""
    from linewright.engine.working import pipework  # noqa: PLC0415 - seldom needed

    return pipework


def _whole(at: Places, rest: str) -> Steps:
    if rest == "charge":
        return charge_steps(at)
    if rest == "indoor_index":
        return indoor_index_steps(at)
    if rest in ("capacity.cooling.ratings", "capacity.heating.ratings"):
        return ratings_steps(at, rest.split(".")[1])
    head, _, tail = rest.partition(".")
    if head == "physics":
        return cast("Steps", _flow().system_flow(at, tail))
    if head in ("refrigerant", "operation"):
        return operation_steps(at, tail) if head == "operation" else cast("Steps", _safety().other_steps(at, tail))
    if head != "capacity":
        return None
    mode, _, factor = tail.partition(".")
    if mode not in ("cooling", "heating"):
        return None
    return factor_steps(at, mode, factor) if factor else system_steps(at, mode)


def _limit(at: Places, name: str) -> Steps:
    found = [check for check in at.result.limits if check.measure == name]
    return tuple(step for check in found for step in limit_steps(at, check)) or None


def _measure(at: Places, name: str) -> Steps:
    key, _, item = name.partition("@")
    use = uses_of(at).get(key)
    if use is None:
        return None
    return item_steps(at, use, item) if item else measure_steps(at, use)


def _run(at: Places, name: str) -> Steps:
    if name in at.runs:
        return tuple(step for role in sorted(at.runs[name].tubes) for step in tube_steps(at, name, role))
    run, _, field = name.rpartition(".")
    if run not in at.runs:
        return None
    plain = {
        "length": length_steps,
        "equivalent": equivalent_steps,
        "rise": rise_steps,
        "level": level_steps,
        "index": index_steps,
    }
    if field in plain:
        return plain[field](at, run)
    what, _, tail = field.rpartition("_")
    roles = {role.value: role for role in Role}
    tube = roles.get(field.removesuffix("_od"))
    if tube is not None and tube in at.runs[run].tubes:
        return tube_steps(at, run, tube)
    if what == "equivalent" and tail in roles and roles[tail] in at.result.state.lengths.roles:
        return equivalent_steps(at, run, roles[tail])
    return cast("Steps", _flow().run_flow(at, run, field))


def _unit(at: Places, name: str) -> Steps:
    if name in at.units:
        return direct_steps(at, name)
    unit, _, field = name.rpartition(".")
    if unit not in at.units:
        return None
    if field in MODES:
        return unit_steps(at, unit, field)
    if field == "level":
        return level_steps(at, unit)
    part, _, what = field.partition("_")
    if what == "rating" and part in MODES:
        return rating_steps(at, unit, part)
    if what == "reach" and part in ("cooling", "heating"):
        return reach_steps(at, unit, part)
    reaches = {"reach": MeasureName.FARTHEST_ACTUAL, "equivalent_reach": MeasureName.FARTHEST_EQUIVALENT}
    if field in reaches:
        return item_steps(at, uses_of(at)[reaches[field].value], unit)
    return cast("Steps", _flow().unit_flow(at, unit, field))


BY_KIND: dict[str, Callable[[Places, str], Steps]] = {
    "limit": _limit,
    "measure": _measure,
    "action": action_steps,
    "fitting": fitting_steps,
    "run": _run,
    "unit": _unit,
    "module_pipe": module_pipe_steps,
    "outdoor_joint": outdoor_joint_steps,
    "requirement": requirement_steps,
    "option": option_steps,
    "refrigerant": lambda at, name: cast("Steps", _safety().room_safety_steps(at, name)),
    "assumption": lambda at, name: cast("Steps", _flow().assumption(at, name)),
}
