"""Pipework of a system, judged as the design states: strength and test, insulation, movement and supports."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import NamedTuple

from linewright.engine.ground import Ground
from linewright.engine.pipework_design import design_pressure, low_side
from linewright.engine.pipework_insulation import barrier_check, insulation
from linewright.engine.pipework_job import Job
from linewright.engine.pipework_movement import movement_check, moves
from linewright.engine.pipework_records import Line, PipeworkResult
from linewright.engine.pipework_stages import stage_check, stages
from linewright.engine.pipework_strength import strength
from linewright.engine.records import Check
from linewright.engine.sizing import Sized
from linewright.model.design import Design, Location, Run
from linewright.model.values import Role
from linewright.units import Dimension, same_tube

EITHER = "either"
_PLACES = {Location.INDOORS: "indoors", Location.OUTDOORS: "outdoors"}


def pipework_of(design: Design, ground: Ground, sized: Sized) -> PipeworkResult | None:
    """Judge the pipework of a system; none where the design does not state how."""
    stated = design.pipework
    if stated is None:
        return None
    lines = tuple(_lines(ground, sized))
    job = Job(design, ground, stated)
    pressure = design_pressure(job)
    test = stages(job)
    movements = tuple(moves(job, line) for line in lines)
    wraps = tuple(insulation(job, group) for group in _grouped(lines, by_place=True))
    return PipeworkResult(
        stated,
        pressure,
        low_side(job),
        tuple(strength(job, pressure, group) for group in _grouped(lines, by_place=False)),
        test,
        wraps,
        movements,
        (
            *_sizes_missing(job, lines),
            stage_check(job, pressure, test),
            *barrier_check(job, wraps),
            movement_check(job, movements),
        ),
    )


def _lines(ground: Ground, sized: Sized) -> Iterator[Line]:
    """Every tube of every run, then of the module pipes, in the order of the design."""
    positions = {run.to: i for i, run in enumerate(ground.system.runs)}
    for i, run in enumerate(ground.tree.runs):
        blank = _line(run, f"system:runs[{positions[run.to]}]", unstated=EITHER)._replace(
            rise_m=ground.levels.rise_m[i]
        )
        for role, sizes in sized.by_role.items():
            if ground.carries(i, role):
                yield blank._replace(role=role, od_m=sizes[i], od_from=f"subject:run:{run.to}.{role}_od")
    for i, run in enumerate(ground.system.outdoor.pipes):
        blank = _line(run, f"system:outdoor.pipes[{i}]", unstated="outdoors")
        for role, outer in ground.pipes.sizes.items():
            yield blank._replace(role=role, od_m=outer[i], od_from=f"subject:module_pipe:{run.to}")


def _line(run: Run, at: str, *, unstated: str) -> Line:
    """What is the same of all tubes of a run."""
    built = run.as_built_m is not None
    return Line(
        run=run.to,
        role=Role.GAS,
        od_m=None,
        length_m=run.as_built_m if built else run.length_m,
        rise_m=run.rise_m,
        bends=run.bends,
        loops=sum(item.count for item in run.items if item.kind == "loop"),
        place=unstated if run.location is None else _PLACES.get(run.location, EITHER),
        od_from="",
        length_from=f"{at}.{'as_built' if built else 'length'}",
    )


def _sizes_missing(job: Job, lines: Iterable[Line]) -> Iterator[Check]:
    """Tubes of which no size is known are judged in nothing."""
    missing = tuple(dict.fromkeys(f"{line.role} size of {line.run}" for line in lines if line.od_m is None))
    if missing:
        yield job.check("tube-sizes", "strength", Dimension.PRESSURE)._replace(missing=missing)


class _Key(NamedTuple):
    role: object
    od_m: float
    place: str


def _grouped(lines: Iterable[Line], *, by_place: bool) -> list[tuple[Line, ...]]:
    """Lines of one size together; of one role and place as well where wanted. Small to large."""
    found: dict[_Key, list[Line]] = {}
    for line in lines:
        if line.od_m is None:
            continue
        wanted = _Key(line.role if by_place else None, line.od_m, line.place if by_place else "")
        key = next((key for key in found if key[::2] == wanted[::2] and same_tube(key.od_m, wanted.od_m)), wanted)
        found.setdefault(key, []).append(line)
    order = sorted(found, key=lambda key: (str(key.role), key.od_m, key.place))
    return [tuple(found[key]) for key in order]
