"""Every headroom that is claimed of a demonstration design, judged again in the whole design, and between at random."""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path

import pytest

from linewright.app.project import Project, open_project
from linewright.engine import evaluate
from linewright.engine.records import Standing
from linewright.errors import InputFaultsError
from linewright.explore.growing import Growing, growings
from linewright.explore.headroom import headroom
from linewright.explore.headroom_records import Headroom, LeftOut
from linewright.explore.verdicts import standing_of
from linewright.model.edits import apply
from tests.house.files import ROOT

pytestmark = pytest.mark.soak

EXAMPLES = ROOT / "examples"
SYSTEMS = [
    ("harbour-clinic", "ground"),
    ("harbour-clinic", "quay"),
    ("ridge-hostel", "lodge"),
    ("pilot-station", "station"),
    ("foundry-lofts", "west"),
]
#: Points between what is stated and what holds that are judged for each claim.
BETWEEN = 8
HELD = (Standing.WITHIN, Standing.ON_CONDITIONS)


def _opened(name: str) -> Project:
    return open_project(EXAMPLES / name / f"{name}.design.yaml")


def _things(project: Project, system: str) -> Iterator[Growing]:
    design = project.loaded.design
    of = next(item for item in design.systems if item.id == system)
    yield from (item for item in growings(design, of) if not isinstance(item, LeftOut))


def _holds(project: Project, system: str, thing: Growing, steps: int) -> bool:
    """In the whole design, with nothing of the search: the edit, the judgement, the standing."""
    try:
        design = apply(project.loaded.design, thing.edit(steps)).design
    except InputFaultsError:
        return False
    return standing_of(evaluate(design, project.library), system) in HELD


@pytest.mark.parametrize(("name", "system"), SYSTEMS, ids=str)
def test_what_is_claimed_holds_and_the_next_step_does_not(name: str, system: str) -> None:
    project = _opened(name)
    found: Headroom = headroom(project.loaded.design, project.library, system)
    assert found.claimed
    dice = random.Random(f"{name}/{system}")  # noqa: S311 - not for secrets
    claims = {(one.subject, one.down): one for one in found.growths}
    wrong, missed = [], []
    for thing in _things(project, system):
        one = claims[thing.subject, thing.down]
        steps = round(abs(one.holds_to - one.stated) / one.step)
        if not _holds(project, system, thing, steps) or (
            one.fails_at is not None and _holds(project, system, thing, steps + 1)
        ):
            wrong.append(one.subject)
        between = {dice.randint(0, steps) for _ in range(BETWEEN)}
        missed += [(one.subject, step) for step in sorted(between) if not _holds(project, system, thing, step)]
    assert wrong == []
    assert missed == []


def test_the_designs_are_there() -> None:
    assert all(Path(EXAMPLES / name).is_dir() for name, _ in SYSTEMS)
