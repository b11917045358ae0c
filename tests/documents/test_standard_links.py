"""A refrigerant of which the chosen standard has no values is a fault that names those of which it has."""

from __future__ import annotations

import pytest

from linewright.document.files import book_from_text, draft_from_text
from linewright.document.links import check_links
from linewright.errors import InputFaultsError
from tests.documents.texts import BOOK, DESIGN

UNKNOWN = "en-378 has no values of 'R-999' here"


def test_a_refrigerant_without_values_is_named_with_those_that_have_some() -> None:
    book = book_from_text(BOOK.replace("refrigerant: R-32", "refrigerant: R-999"), "some.book.yaml").compiled
    text = DESIGN.replace("units: si ", "refrigerant: {profile: en-378}\nunits: si ", 1)
    draft = draft_from_text(text, "boat.design.yaml")
    check_links(draft.design, {"minimal": book}, draft.source)
    with pytest.raises(InputFaultsError) as caught:
        draft.source.refuse()
    (fault,) = caught.value.faults
    assert (fault.path, fault.message) == ("systems[0].book", UNKNOWN)
    assert fault.expected.startswith("one of R-1234yf, R-134a, R-22")


def test_without_a_standard_nobody_asks_for_values() -> None:
    book = book_from_text(BOOK.replace("refrigerant: R-32", "refrigerant: R-999"), "some.book.yaml").compiled
    draft = draft_from_text(DESIGN, "boat.design.yaml")
    check_links(draft.design, {"minimal": book}, draft.source)
    draft.source.refuse()
