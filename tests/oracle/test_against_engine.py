"""The engine against a naive evaluator that was written from docs/methods.md alone, on random books and designs.

The naive side knows nothing of the engine's code: plain recursion, exact decimals, every subset measured afresh.
"""

import pytest

from tests.oracle.compare import differences
from tests.oracle.generate import generate

CASES, CHUNK = 400, 40
SOAK_CASES, SOAK_CHUNK = 20_000, 500


def check(first: int, count: int) -> None:
    """Raise with the seed and every difference of the first case that differs."""
    for seed in range(first, first + count):
        found = differences(generate(seed))
        assert found == [], f"seed {seed}"


@pytest.mark.parametrize("first", range(0, CASES, CHUNK))
def test_engine_and_naive_evaluator_agree(first: int) -> None:
    check(first, CHUNK)


@pytest.mark.soak
@pytest.mark.parametrize("first", range(CASES, CASES + SOAK_CASES, SOAK_CHUNK))
def test_engine_and_naive_evaluator_agree_at_length(first: int) -> None:
    check(first, SOAK_CHUNK)
