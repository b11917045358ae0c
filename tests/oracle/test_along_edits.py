"""The engine keeps much of what it worked out before: along many small changes it agrees with who keeps nothing."""

from dataclasses import replace
from random import Random

import pytest

from linewright.book.compiled import compile_book
from linewright.engine import Library, evaluate
from linewright.model.design import Design, Run
from tests.oracle.compare import differences, naively
from tests.oracle.generate import faultless, generate

CASES, CHUNK, CHANGES = 60, 15, 8


def _changed(run: Run, dice: Random) -> Run:
    """Change a length most often, as designers do; at times bends or a rise."""
    if dice.random() < 0.7:
        return replace(run, length_m=dice.choice((None, 0.5, 4.0, 12.5, 37.0, 80.0)))
    if dice.random() < 0.5:
        return replace(run, bends=dice.randrange(4))
    return replace(run, rise_m=None if run.rise_m is None else run.rise_m / 2)


def _a_step_on(design: Design, dice: Random) -> Design:
    at = dice.randrange(len(design.systems))
    system = design.systems[at]
    of = dice.randrange(len(system.runs))
    runs = (*system.runs[:of], _changed(system.runs[of], dice), *system.runs[of + 1 :])
    return replace(design, systems=(*design.systems[:at], replace(system, runs=runs), *design.systems[at + 1 :]))


@pytest.mark.parametrize("first", range(0, CASES, CHUNK))
def test_engine_and_naive_evaluator_agree_along_changes(first: int) -> None:
    for seed in range(first, first + CHUNK):
        case, dice = generate(seed), Random(seed)  # noqa: S311 - no secret
        library = Library.of({name: compile_book(book, faultless) for name, book in case.books.items()})
        designs = [case.design]
        for step in range(CHANGES):
            # Now and then somebody takes back what was done.
            before = dice.choice(designs) if dice.random() < 0.25 else designs[-1]
            designs.append(_a_step_on(before, dice))
            found = differences(evaluate(designs[-1], library), naively(replace(case, design=designs[-1])))
            assert found == [], f"seed {seed}, change {step}"
