"""Damaged files: whatever comes of them, it is a result or faults with a place, never a crash."""

import json
import re

import pytest

from linewright.cli.common import Exit, exit_code
from linewright.document.files import book_from_text, draft_from_text
from linewright.document.links import check_links
from linewright.engine import Library, evaluate
from linewright.errors import InputFaultsError
from linewright.report.check_json import check_json
from linewright.report.check_text import check_text
from tests.documents.mutating import mutant
from tests.documents.texts import BOOK, DESIGN

QUICK = 500
SOAK = 20_000
#: Texts of a batch: one test for each would cost more than the work.
BATCH = 50
#: What YAML 1.1 takes for the end of a line.
BREAKS = re.compile("\r\n|[\r\n\x85\u2028\u2029]")


def ends(design_text: str, book_text: str) -> Exit:
    """How a check of the two ends; faults are looked at closely."""
    try:
        book = book_from_text(book_text, "minimal.book.yaml")
        design = draft_from_text(design_text, "boat.design.yaml")
        books = {book.compiled.book.id: book.compiled}
        check_links(design.design, books, design.source)
        design.source.refuse()
    except InputFaultsError as error:
        look_at(error, design_text, book_text)
        return Exit.NOT_UNDERSTOOD
    evaluation = evaluate(design.design, Library.of(books))
    json.dumps(check_json(evaluation), allow_nan=False)
    assert check_text(evaluation, system=design.design.units, colour=False, books={})
    return exit_code(evaluation.standing)


def look_at(error: InputFaultsError, *texts: str) -> None:
    """Every fault says something and stands in the text."""
    lines = max(len(BREAKS.split(text)) for text in texts)
    assert error.faults
    for fault in error.faults:
        assert fault.message
        assert fault.expected
        assert 0 <= fault.line <= lines + 1
        assert (fault.line == 0) == (fault.column == 0)


def ends_of(seed: int) -> Exit:
    """Damage the design, the book, or both."""
    design = mutant(DESIGN, seed) if seed % 3 != 1 else DESIGN
    book = mutant(BOOK, seed + 1_000_000) if seed % 3 != 0 else BOOK
    return ends(design, book)


def endings(seeds: range) -> set[Exit]:
    found = set()
    for seed in seeds:
        try:
            found.add(ends_of(seed))
        except Exception as error:
            raise AssertionError(f"seed {seed}: {type(error).__name__}: {error}") from error
    return found


@pytest.mark.parametrize("start", range(0, QUICK, BATCH))
def test_damaged_files(start: int) -> None:
    found = endings(range(start, start + BATCH))
    assert found <= set(Exit)
    # Both come up in every batch: the damage is neither too coarse nor too fine to show anything.
    assert {Exit.OVER, Exit.NOT_UNDERSTOOD} <= found


@pytest.mark.soak
@pytest.mark.parametrize("start", range(QUICK, SOAK, BATCH * 20))
def test_many_damaged_files(start: int) -> None:
    assert endings(range(start, start + BATCH * 20)) <= set(Exit)
