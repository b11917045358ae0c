"""Each thing that can be wrong, alone: where it is, what is there, what is wrong, what would be right; and no more."""

import pytest

from tests.documents.cases import (
    book_bands,
    book_limits,
    book_names,
    book_numbers,
    book_rules,
    book_services,
    book_tables,
    design_forms,
    design_keys,
    design_names,
    design_pipes,
    design_pipework,
    design_quantities,
    design_safety,
)
from tests.documents.texts import BOOK, DESIGN, Case, book_faults, damaged, design_faults, told

DESIGN_CASES = (
    *design_keys.CASES,
    *design_quantities.CASES,
    *design_pipes.CASES,
    *design_names.CASES,
    *design_forms.CASES,
    *design_safety.CASES,
    *design_pipework.CASES,
)
BOOK_CASES = (
    *book_bands.CASES,
    *book_tables.CASES,
    *book_names.CASES,
    *book_limits.CASES,
    *book_numbers.CASES,
    *book_rules.CASES,
    *book_services.CASES,
)


def test_the_files_that_are_damaged_here_are_sound() -> None:
    assert design_faults(DESIGN) == ()
    assert book_faults(BOOK) == ()


@pytest.mark.parametrize("case", DESIGN_CASES, ids=lambda case: case.name)
def test_a_fault_of_a_design(case: Case) -> None:
    text, places = damaged(DESIGN, (case.old, case.new))
    found = design_faults(text, "some folder/boat.design.yaml")
    assert [expect for _, expect in told(found)] == list(case.faults)
    assert {fault.file for fault in found} == {"some folder/boat.design.yaml"}
    assert [place for place, _ in told(found)][: len(places)] == places


@pytest.mark.parametrize("case", BOOK_CASES, ids=lambda case: case.name)
def test_a_fault_of_a_book(case: Case) -> None:
    text, places = damaged(BOOK, (case.old, case.new))
    found = book_faults(text, "some folder/some.book.yaml")
    assert [expect for _, expect in told(found)] == list(case.faults)
    assert {fault.file for fault in found} == {"some folder/some.book.yaml"}
    assert [place for place, _ in told(found)][: len(places)] == places
