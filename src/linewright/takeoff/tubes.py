"""Every tube of every run as a cut, by what the book asks of it; what has no length or size is a gap."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import ceil
from typing import NamedTuple, TypeVar

from linewright.engine.records import Evaluation, SystemResult
from linewright.model.design import Run
from linewright.model.values import Role
from linewright.takeoff.records import Cut, Gap, Material
from linewright.takeoff.settings import Settings
from linewright.takeoff.wanted import wanted
from linewright.units import same_tube

T = TypeVar("T")


class Laid(NamedTuple):
    """One tube of one run or module pipe: its length and size [m], how many bends it has.

    measured : whether its length is that of the design or, where those are asked for, as built
    """

    system: str
    run: str
    role: Role
    length_m: float | None
    od_m: float | None
    bends: int
    measured: bool = True


class Tubes(NamedTuple):
    """Cuts by material, and what is left out of them."""

    cuts: Mapping[Material, tuple[Cut, ...]]
    gaps: tuple[Gap, ...]


def all_tubes(result: SystemResult, *, as_built: bool = False) -> Iterator[Laid]:
    """Every tube of a system: those of the module pipes first, then of the runs in order of their ids.

    as_built : lengths as built go before those of the design
    """
    outer = {run.to: run for run in result.system.outdoor.pipes}
    for pipe in result.outdoor.pipes:
        for role in sorted(pipe.tubes):
            yield _laid(result.id, outer[pipe.id], role, pipe.tubes[role], as_built=as_built)
    runs = {run.to: run for run in result.system.runs}
    for run in result.runs:
        for role in sorted(run.tubes):
            yield _laid(result.id, runs[run.id], role, run.tubes[role].od_m, as_built=as_built)


def _laid(system: str, run: Run, role: Role, od_m: float | None, *, as_built: bool) -> Laid:
    built = as_built and run.as_built_m is not None
    length_m = run.as_built_m if built else run.length_m
    return Laid(system, run.to, role, length_m, od_m, run.bends, measured=built or not as_built)


def at_size(by_size: Mapping[float, T], od_m: float) -> T | None:
    """What a table by tube size holds for a size."""
    return next((found for size, found in by_size.items() if same_tube(size, od_m)), None)


def gather(evaluation: Evaluation, settings: Settings) -> Tubes:
    """Sort all tubes by size, wall and temper; each is longer by the allowance for waste."""
    cuts: dict[Material, list[Cut]] = {}
    gaps: dict[Gap, None] = {}
    for result in evaluation.systems:
        for tube in all_tubes(result, as_built=settings.as_built):
            where = f"{tube.system}/run:{tube.run}"
            lacking = "length" if tube.length_m is None else "size"
            if tube.length_m is None or tube.od_m is None:
                gaps[Gap(where, f"no {lacking} of the {tube.role.word} tube: not counted", left_out=True)] = None
                continue
            if not tube.measured:
                gaps[Gap(where, "no length as built: that of the design is taken")] = None
            found = wanted(result, tube.od_m)
            if found.note:
                gaps[Gap(f"{tube.system}/strength:{tube.od_m * 1000:.6g}", found.note)] = None
            material = next((known for known in cuts if _same(known, found.material)), found.material)
            need = max(ceil(tube.length_m * (1.0 + settings.waste) * 1000.0 - 1e-6), 1)
            cuts.setdefault(material, []).append(Cut(tube.system, tube.run, tube.role, tube.length_m, need))
    ordered = {key: tuple(cuts[key]) for key in sorted(cuts, key=lambda m: (m.od_m, m.wall_m or 0.0, m.temper))}
    return Tubes(ordered, tuple(gaps))


def _same(first: Material, second: Material) -> bool:
    return same_tube(first.od_m, second.od_m) and (first.wall_m, first.temper) == (second.wall_m, second.temper)
