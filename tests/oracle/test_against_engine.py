"""The engine against a naive evaluator that was written from docs/methods.md alone, on random books and designs.

The naive side knows nothing of the engine's code: plain recursion, exact decimals, every subset measured afresh.
"""

import os
import subprocess
import sys

import pytest

from tests.oracle.compare import differences, evaluated, more_cautious, naively
from tests.oracle.generate import generate

CASES, CHUNK = 400, 40
SOAK_CASES, SOAK_CHUNK = 20_000, 500
#: Share of the limits that the engine may leave unjudged though what is known decides them.
CAUTION = 0.005


def check(first: int, count: int) -> None:
    """Raise with the seed and every difference of the first case that differs."""
    cautious, limits = 0, 0
    for seed in range(first, first + count):
        case = generate(seed)
        evaluation, naive = evaluated(case), naively(case)
        found = differences(evaluation, naive)
        assert found == [], f"seed {seed}"
        cautious += more_cautious(evaluation, naive)
        limits += sum(len(system.limits) for system in evaluation.systems)
    assert cautious <= max(2, CAUTION * limits), f"{cautious} of {limits} limits left unjudged from seed {first} on"


@pytest.mark.parametrize("first", range(0, CASES, CHUNK))
def test_engine_and_naive_evaluator_agree(first: int) -> None:
    check(first, CHUNK)


@pytest.mark.soak
@pytest.mark.parametrize("first", range(CASES, CASES + SOAK_CASES, SOAK_CHUNK))
def test_engine_and_naive_evaluator_agree_at_length(first: int) -> None:
    check(first, SOAK_CHUNK)


@pytest.mark.parametrize("seed", [3, 7])
def test_a_seed_gives_the_same_case_in_another_process(seed: int) -> None:
    program = f"from tests.oracle.generate import generate; print(repr(generate({seed})))"
    done = [
        subprocess.run(
            [sys.executable, "-c", program],
            env={**os.environ, "PYTHONHASHSEED": hashes},
            capture_output=True,
            check=True,
            encoding="utf-8",
        )
        for hashes in ("1", "2")
    ]
    assert done[0].stdout == done[1].stdout
    assert len(done[0].stdout) > 1000
