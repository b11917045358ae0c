"""The calculation annex: the working of every limit, size, fitting, charge, room and capacity, in order, as text."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linewright.engine.records import Evaluation, SystemResult
from linewright.engine.working import working
from linewright.report.why_text import why_text
from linewright.units import UnitSystem


def annex_subjects(evaluation: Evaluation) -> Iterator[str]:
    """Every subject of the annex: system by system, then room by room."""
    for result in evaluation.systems:
        yield from (f"{result.id}/{subject}" for subject in _of_system(result))
        if result.safety is not None:
            yield from (check.subject for check in result.safety.checks)
    yield from dict.fromkeys(check.subject for room in evaluation.rooms for check in room.checks)


def _of_system(result: SystemResult) -> Iterator[str]:
    yield "indoor_index"
    yield from dict.fromkeys(f"limit:{check.measure}" for check in result.limits)
    yield from (f"module_pipe:{pipe.id}" for pipe in result.outdoor.pipes)
    yield from (f"outdoor_joint:{joint.id}" for joint in result.outdoor.joints)
    yield from (f"run:{run.id}" for run in result.runs)
    yield from (f"fitting:{fitting.id}" for fitting in result.fittings)
    yield from (f"action:{action.id}" for action in result.actions)
    modes = (("cooling", result.cooling), ("heating", result.heating))
    yield from (f"capacity.{mode}" for mode, found in modes if found is not None)
    yield "charge"


def annex_text(evaluation: Evaluation, files: Mapping[str, str], system: UnitSystem) -> str:
    """Write the working of every subject, numbered; `files` names the files as the working does."""
    subjects = list(annex_subjects(evaluation))
    parts = [
        f"[{number}] {why_text(working(evaluation, subject), files, system=system, colour=False)}"
        for number, subject in enumerate(subjects, start=1)
    ]
    contents = [f"[{number}] {subject}" for number, subject in enumerate(subjects, start=1)]
    return "\n".join(["Calculations", "", *contents, "", "", "\n\n".join(parts), ""])
