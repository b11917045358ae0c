"""The calculation annex as blocks: the working of every subject, numbered as in `calculations.txt`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from linewright.engine import Evaluation
from linewright.engine.working import Working, working
from linewright.engine.working.steps import Step
from linewright.report.calculations import annex_subjects
from linewright.report.pdf.blocks import Block, Facts, Heading, Layout, Say, Steps, StepText, Tone, Turn
from linewright.report.why_text import value, where
from linewright.units import UnitSystem


def annex(evaluation: Evaluation, files: Mapping[str, str], system: UnitSystem) -> Iterator[Block]:
    """Every working in order."""
    yield Turn(Layout.COLUMNS)
    yield Heading("Calculations")
    yield Say(
        "Every limit, size, fitting, charge and room: how it was found, from what, with table and page.", Tone.NOTE
    )
    yield Facts(tuple(sorted(files.items())))
    for number, subject in enumerate(annex_subjects(evaluation), start=1):
        yield _steps(number, working(evaluation, subject), system)


def _steps(number: int, found: Working, system: UnitSystem) -> Steps:
    steps = tuple(_step(i, step, system) for i, step in enumerate(found.steps, start=1))
    return Steps(f"[{number}] {found.subject}", steps)


def _step(number: int, step: Step, system: UnitSystem) -> StepText:
    inputs = tuple((item.name, value(item.value, item.dimension, system), item.from_) for item in step.inputs)
    result = f"{number}. {step.name} = {value(step.result, step.dimension, system)}{where(step)}"
    return StepText(result, f"{step.text} ({step.source})", inputs, step.note)
