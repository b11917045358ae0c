"""Every tube of every run as a cut, by what the book asks of it; what has no length or size is a gap."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import ceil
from typing import NamedTuple, TypeVar

from linewright.engine.records import Evaluation, SystemResult
from linewright.model.values import Role
from linewright.takeoff.records import Cut, Gap, Material
from linewright.units import same_tube

T = TypeVar("T")


class Laid(NamedTuple):
    """One tube of one run or module pipe: its length and size [m], how many bends it has."""

    system: str
    run: str
    role: Role
    length_m: float | None
    od_m: float | None
    bends: int


class Tubes(NamedTuple):
    """Cuts by material, and what is left out of them."""

    cuts: Mapping[Material, tuple[Cut, ...]]
    gaps: tuple[Gap, ...]
    left_out: bool


def all_tubes(result: SystemResult) -> Iterator[Laid]:
    """Every tube of a system: those of the module pipes first, then of the runs in order of their ids."""
    outer = {run.to: run for run in result.system.outdoor.pipes}
    for pipe in result.outdoor.pipes:
        for role in sorted(pipe.tubes):
            yield Laid(result.id, pipe.id, role, pipe.length_m, pipe.tubes[role], outer[pipe.id].bends)
    runs = {run.to: run for run in result.system.runs}
    for run in result.runs:
        for role in sorted(run.tubes):
            yield Laid(result.id, run.id, role, run.length_m, run.tubes[role].od_m, runs[run.id].bends)


def at_size(by_size: Mapping[float, T], od_m: float) -> T | None:
    """What a table by tube size holds for a size."""
    return next((found for size, found in by_size.items() if same_tube(size, od_m)), None)


def gather(evaluation: Evaluation, waste: float) -> Tubes:
    """Sort all tubes by size, wall and temper; each is longer by the allowance for waste."""
    cuts: dict[Material, list[Cut]] = {}
    gaps: dict[Gap, None] = {}
    left_out = False
    for result in evaluation.systems:
        tubes = result.state.ground.book.book.tubes
        for tube in all_tubes(result):
            lacking = "length" if tube.length_m is None else "size"
            if tube.length_m is None or tube.od_m is None:
                text = f"no {lacking} of the {tube.role.word} tube: not counted"
                gaps[Gap(f"{tube.system}/run:{tube.run}", text)] = None
                left_out = True
                continue
            material = Material(tube.od_m, at_size(tubes.wall_m, tube.od_m), at_size(tubes.temper, tube.od_m) or "")
            material = next((known for known in cuts if _same(known, material)), material)
            need = max(ceil(tube.length_m * (1.0 + waste) * 1000.0 - 1e-6), 1)
            cuts.setdefault(material, []).append(Cut(tube.system, tube.run, tube.role, tube.length_m, need))
    ordered = {key: tuple(cuts[key]) for key in sorted(cuts, key=lambda m: (m.od_m, m.wall_m or 0.0, m.temper))}
    return Tubes(ordered, tuple(gaps), left_out)


def _same(first: Material, second: Material) -> bool:
    return same_tube(first.od_m, second.od_m) and (first.wall_m, first.temper) == (second.wall_m, second.temper)
