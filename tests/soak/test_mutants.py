"""The tests themselves: small defects are put into the engine and the units, and nearly all have to be noticed."""

import ast

import pytest

from tools.mutation.operators import mutants, mutated
from tools.mutation.run import ROOT, draw, every, survivors

DRAWN, SEED = 300, 2026
SURVIVORS = ROOT / "bench" / "survivors.txt"
NOTICED = 0.85


@pytest.mark.soak
def test_the_tests_notice_most_small_defects() -> None:
    drawn = draw(DRAWN, SEED)
    missed = survivors(drawn)
    listed = "\n".join(str(mutant) for mutant in missed)
    SURVIVORS.write_text(f"{len(missed)} of {len(drawn)} not noticed\n{listed}\n", encoding="utf-8", newline="\n")
    assert len(missed) <= (1 - NOTICED) * len(drawn), listed


def test_each_mutant_changes_its_module() -> None:
    source = "def least(a, b):\n    return a if a < b and b != 0 else min(a, b) + 1\n"
    found = mutants(source)
    texts = {ast.unparse(mutated(source, mutant.number)) for mutant in found}
    assert [mutant.change for mutant in found] == [
        "Lt to LtE",
        "0 to 1",
        "NotEq to Eq",
        "And to Or",
        "min to max",
        "1 to 2",
        "Add to Sub",
        "outcomes swapped",
    ]
    assert len(texts | {ast.unparse(ast.parse(source))}) == len(found) + 1


def test_every_module_of_the_engine_and_the_units_can_be_changed() -> None:
    assert {mutant.module.split(".")[1] for mutant in every()} == {"engine", "units"}
    assert len(every()) > 2000
