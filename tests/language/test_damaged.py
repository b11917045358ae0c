"""Damaged texts of the mountain book and of the hostel on it: a result or faults with a place, never a crash."""

import pytest

from linewright.cli.common import Exit
from tests.documents.mutating import mutant
from tests.documents.test_mutants import ends
from tests.house.files import ROOT

BOOK = (ROOT / "books" / "highland-r454b.book.yaml").read_text(encoding="utf-8")
#: With options on whose sections stand in for those of the book.
DESIGN = (ROOT / "examples" / "ridge-hostel" / "ridge-hostel.design.yaml").read_text(encoding="utf-8")
SWITCHED = DESIGN.replace("options: [oil kit]", "options: [oil kit, high-lift, quiet, pressed]")
SEEDS = 120
BATCH = 20


@pytest.mark.parametrize("start", range(0, SEEDS, BATCH))
def test_a_damaged_book_or_design_is_told_and_never_crashes(start: int) -> None:
    assert SWITCHED != DESIGN
    found = set()
    for seed in range(start, start + BATCH):
        of_book = seed % 3 != 0
        found.add(ends(SWITCHED if of_book else mutant(SWITCHED, seed), mutant(BOOK, seed) if of_book else BOOK))
    assert found <= set(Exit)
    assert Exit.NOT_UNDERSTOOD in found
