"""Each thing that can be wrong, alone: where it is, what is there, what is wrong, what would be right; and no more."""

import pytest

from tests.documents.design_cases import DESIGN_CASES
from tests.documents.texts import BOOK, DESIGN, Case, book_faults, damaged, design_faults, told


def test_the_files_that_are_damaged_here_are_sound() -> None:
    assert design_faults(DESIGN) == ()
    assert book_faults(BOOK) == ()


@pytest.mark.parametrize("case", DESIGN_CASES, ids=lambda case: case.name)
def test_a_fault_of_a_design(case: Case) -> None:
    text, places = damaged(DESIGN, (case.old, case.new))
    found = design_faults(text, "some folder/boat.design.yaml")
    assert [expect for _, expect in told(found)] == list(case.faults)
    assert {fault.file for fault in found} == {"some folder/boat.design.yaml"}
    if places:
        assert [place for place, _ in told(found)][: len(places)] == places
