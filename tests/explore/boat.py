"""The boat house of the contract with loads that it can carry, so that it holds; and ways to ask for its headroom."""

from __future__ import annotations

from functools import cache

from linewright.document.files import book_from_text, design_from_text
from linewright.engine import Library
from linewright.engine.records import Standing
from linewright.explore.headroom import headroom
from linewright.explore.headroom_records import Growth, Headroom
from linewright.model.design import Design
from tests.contract.program import MINIMAL
from tests.house.files import ROOT

#: What the rooms of the contract ask for, and what they ask for here: the capacities of the contract cover it.
LOADS = (
    ("cooling: 6.4 kW, sensible: 5.0 kW, heating: 6.0 kW", "cooling: 5.0 kW, sensible: 4.0 kW, heating: 4.0 kW"),
    ("cooling: 4.8 kW, sensible: 3.8 kW, heating: 4.5 kW", "cooling: 3.5 kW, sensible: 2.5 kW, heating: 3.0 kW"),
    ("cooling: 3.5 kW, sensible: 2.4 kW, heating: 2.5 kW", "cooling: 3.0 kW, sensible: 2.0 kW, heating: 2.5 kW"),
)
BOOK = ROOT / "books" / "minimal.book.yaml"


def design_text(*changes: tuple[str, str]) -> str:
    """The text of the boat house that holds, with changes, each of which has to be there once."""
    text = MINIMAL.read_text(encoding="utf-8")
    for before, after in (*LOADS, *changes):
        assert text.count(before) == 1, before
        text = text.replace(before, after)
    return text


def design(*changes: tuple[str, str]) -> Design:
    return design_from_text(design_text(*changes), "boat.design.yaml").design


def book_text(*changes: tuple[str, str]) -> str:
    text = BOOK.read_text(encoding="utf-8")
    for before, after in changes:
        assert text.count(before) == 1, before
        text = text.replace(before, after)
    return text


def library(*changes: tuple[str, str]) -> Library:
    book = book_from_text(book_text(*changes), "minimal.book.yaml")
    return Library.of({"minimal": book.compiled}, {"minimal": book.sha256})


@cache
def spare() -> Headroom:
    """Headroom of the boat house that holds."""
    return headroom(design(), library(), "main")


def growth(found: Headroom, subject: str, *, down: bool = False) -> Growth:
    return next(one for one in found.growths if one.subject == subject and one.down is down)


def gives(one: Growth) -> set[str]:
    """What is over; beside it other things may be no longer judged."""
    return {check.subject for check in one.gives if check.standing is Standing.OVER}
