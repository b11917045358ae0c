"""What was worked out otherwise in the second of two designs: sizes, models, the outdoor group."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine import Evaluation
from linewright.engine.records import SystemResult
from linewright.model.edits.places import element
from linewright.model.edits.values import Kind
from linewright.report.compared import Resulted
from linewright.units import Dimension, same_tube

#: A result by its element and what it is: a figure or a word, and what it is measured in.
_Results = dict[tuple[str, str], tuple[float | str | None, Dimension | None]]


def resulted(first: Evaluation, second: Evaluation) -> Iterator[Resulted]:
    """Give what differs of elements that are in both designs."""
    old, new = _all(first), _all(second)
    for (name, what), (before, dimension) in old.items():
        if (name, what) not in new:
            continue
        after = new[name, what][0]
        if not _same(before, after):
            yield Resulted(name, what, before, after, dimension)


def _all(evaluation: Evaluation) -> _Results:
    found: _Results = {}
    for result in evaluation.systems:
        found |= _of_system(result)
    return found


def _of_system(result: SystemResult) -> _Results:
    found: _Results = {(element(Kind.OUTDOOR, "", result.id), "group"): (result.group, None)}
    for run in result.runs:
        name = element(Kind.RUN, run.id, result.id)
        found |= {(name, f"{role.word} size"): (tube.od_m, Dimension.TUBE) for role, tube in run.tubes.items()}
    for pipe in result.outdoor.pipes:
        name = element(Kind.PIPE, pipe.id, result.id)
        found |= {(name, f"{role.word} size"): (od_m, Dimension.TUBE) for role, od_m in pipe.tubes.items()}
    for fitting in result.fittings:
        found[element(Kind.FITTING, fitting.id, result.id), "model"] = (fitting.model or None, None)
    return found


def _same(before: float | str | None, after: float | str | None) -> bool:
    if isinstance(before, float) and isinstance(after, float):
        return same_tube(before, after)
    return before == after
