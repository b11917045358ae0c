"""The working of random designs on random books: every step replays, the last step of a tube gives its size."""

import math

import pytest

from linewright.engine import Evaluation
from linewright.engine.working import replay, subjects, working
from tests.oracle.compare import evaluated
from tests.oracle.generate import generate

CASES, CHUNK = 160, 40


def sizes(evaluation: Evaluation) -> dict[str, float | None]:
    return {
        f"{system.id}/run:{run.id}.{role}_od": tube.od_m
        for system in evaluation.systems
        for run in system.runs
        for role, tube in run.tubes.items()
    }


def check(seed: int) -> None:
    evaluation = evaluated(generate(seed))
    wanted = sizes(evaluation)
    for subject in {*subjects(evaluation), *wanted}:
        steps = working(evaluation, subject).steps
        for step in steps:
            if step.result is not None:
                assert isinstance(step.result, float)
                assert math.isclose(replay(step), step.result, rel_tol=1e-9, abs_tol=1e-9), (seed, subject, step)
        if subject in wanted:
            assert steps[-1].result == wanted[subject], (seed, subject)


@pytest.mark.parametrize("first", range(0, CASES, CHUNK))
def test_every_step_of_a_random_design_replays(first: int) -> None:
    for seed in range(first, first + CHUNK):
        check(seed)
