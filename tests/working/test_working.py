"""The working of every number: each step replays, and each input comes from somewhere that can be looked at."""

import math
from pathlib import Path

import pytest

from linewright.app.project import Project, open_project
from linewright.app.shipped import shipped
from linewright.engine.records import Evaluation
from linewright.engine.working import Step, replay, subjects, working
from linewright.errors import UnknownSubjectError

EXAMPLES = sorted(shipped("examples").glob("*/*.design.yaml"))


@pytest.fixture(scope="module", params=EXAMPLES, ids=lambda path: path.parent.name)
def project(request: pytest.FixtureRequest) -> Project:
    """Every example."""
    path: Path = request.param
    return open_project(path)


@pytest.fixture(scope="module")
def evaluation(project: Project) -> Evaluation:
    """Its evaluation."""
    return project.evaluate()


def everything(evaluation: Evaluation) -> dict[str, tuple[Step, ...]]:
    """The working of every subject, and of every subject that an input names, as far as that leads."""
    found: dict[str, tuple[Step, ...]] = {}
    left = list(subjects(evaluation))
    while left:
        subject = left.pop()
        if subject in found:
            continue
        found[subject] = working(evaluation, subject).steps
        inputs = [item for step in found[subject] for item in step.inputs]
        left += [item.from_ for item in inputs if not item.from_.startswith(("design:", "book:"))]
    return found


def test_every_step_replays_to_what_the_evaluation_holds(evaluation: Evaluation) -> None:
    steps = [step for found in everything(evaluation).values() for step in found if step.result is not None]
    assert len(steps) > 100
    for step in steps:
        again = replay(step)
        assert isinstance(step.result, float)
        assert math.isclose(again, step.result, rel_tol=1e-9, abs_tol=1e-9), step


def test_every_input_from_a_file_names_a_place_that_exists(project: Project, evaluation: Evaluation) -> None:
    """A path that stops above the value (a table, a list) is a place as well; a place nobody wrote is not."""
    sources = {"design": project.loaded.source}
    sources |= {f"book:{name}": book.source for name, book in project.books.items()}
    for subject, steps in everything(evaluation).items():
        for item in (item for step in steps for item in step.inputs):
            head = next((head for head in sources if item.from_.startswith(f"{head}:")), None)
            if head is None:
                continue
            path = item.from_.removeprefix(f"{head}:")
            known = sources[head].nodes
            assert path in known or parent(path) in known, (subject, item)


def parent(path: str) -> str:
    """The place above: the owner of a key that was left to its default."""
    return path[: max(path.rfind("."), path.rfind("["), 0)]


def test_every_check_can_be_asked_for(evaluation: Evaluation) -> None:
    checks = [check for system in evaluation.systems for check in (*system.limits, *system.checks)]
    checks += [check for room in evaluation.rooms for check in room.checks]
    for check in checks:
        assert working(evaluation, check.subject).steps, check.subject


def test_the_last_step_of_a_size_a_charge_and_a_share_is_the_figure_itself(evaluation: Evaluation) -> None:
    for system in evaluation.systems:
        for run in system.runs:
            for role, tube in run.tubes.items():
                assert working(evaluation, f"{system.id}/run:{run.id}.{role}_od").steps[-1].result == tube.od_m
        total = working(evaluation, f"{system.id}/charge").steps[-1]
        assert total.result == system.charge.total_kg
        for unit in system.units:
            steps = working(evaluation, f"{system.id}/unit:{unit.id}.cooling").steps
            assert unit.cooling.delivered_w in [step.result for step in steps]


def test_an_unknown_subject_names_the_nearest(evaluation: Evaluation) -> None:
    wanted = f"{evaluation.systems[0].id}/charg"
    with pytest.raises(UnknownSubjectError) as error:
        working(evaluation, wanted)
    assert f"{wanted}e" in error.value.nearest
