"""What is said of a run: the short label on it and the full text behind it."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.draw.plan import Pipe
from linewright.draw.wording import UNKNOWN, quantity
from linewright.engine.records import RunResult, TubeSize
from linewright.model.design import Run
from linewright.model.values import Role
from linewright.units import Dimension, UnitSystem, show, show_number, tube_name

STEP_SIGN = "↑"
OVERRIDE_SIGN = "†"
# Gas first: it gives the line its weight.
ROLE_ORDER = (Role.GAS, Role.SUCTION, Role.LOW, Role.HIGH_LOW, Role.HIGH, Role.LIQUID)


def size_words(run: RunResult, system: UnitSystem) -> str:
    """Give the tube sizes of a run, gas first, marked where a size action or the designer set them."""
    tubes = [run.tubes[role] for role in ROLE_ORDER if role in run.tubes]
    return " · ".join(_size(tube, system) for tube in tubes) or UNKNOWN


def _size(tube: TubeSize, system: UnitSystem) -> str:
    if tube.od_m is None:
        return UNKNOWN
    number = show_number(tube.od_m, Dimension.TUBE, system)
    if tube.override_m is not None:
        return number + OVERRIDE_SIGN
    return STEP_SIGN + number if tube.steps else number


def length_words(pipe: Pipe, system: UnitSystem) -> str:
    """Give the run's length along the axis, or what is left for it."""
    if pipe.length_m is not None:
        return show(pipe.length_m, Dimension.LENGTH, system)
    if pipe.metres_left is None:
        return UNKNOWN
    return f"{show(pipe.metres_left, Dimension.LENGTH, system)} left"


def module_pipe_title(pipe: Pipe, system: UnitSystem) -> str:
    """Give all that is known of a module pipe."""
    return f"module pipe to {pipe.id}: {quantity(pipe.length_m, Dimension.LENGTH, system)}"


def run_title(pipe: Pipe, drawn: Run, pipework: Sequence[str], system: UnitSystem) -> str:
    """Give all that is known of a run in one line: what the design says of it, its results, its pipework in words."""
    run = pipe.result
    if run is None:
        return module_pipe_title(pipe, system)
    parts = [
        f"run {run.id}, {run.from_} to {run.to}",
        f"actual {quantity(run.length_m, Dimension.LENGTH, system)}",
        f"equivalent {quantity(run.equivalent_m, Dimension.LENGTH, system)}",
        f"rise {quantity(run.rise_m, Dimension.LENGTH, system)}{' assumed' if run.assumed_rise else ''}",
        f"bends {drawn.bends}",
        f"index downstream {show_number(run.downstream_index, Dimension.NUMBER, system)}",
        *(_tube_words(run.tubes[role], system) for role in ROLE_ORDER if role in run.tubes),
    ]
    parts += pipework
    if pipe.metres_left is not None:
        parts.append(f"{show(pipe.metres_left, Dimension.LENGTH, system)} left for the unknown length")
    return "; ".join(parts)


def _tube_words(tube: TubeSize, system: UnitSystem) -> str:
    words = f"{tube.role.word} {UNKNOWN if tube.od_m is None else tube_name(tube.od_m, system)}"
    if tube.override_m is not None:
        return f"{words} set by the designer"
    return f"{words}, {tube.steps} up by {tube.action}" if tube.steps else words
