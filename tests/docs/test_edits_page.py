"""The reference of edits: every kind with its keys, and an example that can be applied."""

import dataclasses

import pytest

from linewright.book.edits import apply_to_book
from linewright.document.book_edits import book_edits_from_text
from linewright.document.edit_words import CLASSES, ITEMS, WORDS
from linewright.document.edits import edits_from_text
from linewright.document.files import load_book
from linewright.model.edits import Drop, Put, Set, apply
from linewright.model.values import key_of
from tests.docs.pages import blocks, page, rows, sections
from tests.edits.boat_house import BOAT_HOUSE
from tests.house.files import ROOT

PAGE = page("reference/edits.md")
ROWS = {name: row for row in rows(sections(PAGE)["Kinds"]) for name in row.names}
#: Keys that differ from the fields of the value.
SPECIAL = {
    Put: {"system", "in", "after", "by_name", "item"},
    Drop: {"system", "from", "id"},
    Set: {"system", *(kind.value for kind in CLASSES)},
}


def test_every_kind_stands_once_and_nothing_else_does() -> None:
    assert sorted(ROWS) == sorted(WORDS)
    assert len(WORDS) == 27


@pytest.mark.parametrize("word", WORDS)
def test_a_kind_lists_its_keys(word: str) -> None:
    cls = WORDS[word]
    keys = SPECIAL.get(cls) or {key_of(field.name) for field in dataclasses.fields(cls)}
    assert keys <= set(ROWS[word].cells[1].split("`")[1::2])


def test_every_list_is_named() -> None:
    text = sections(PAGE)["Kinds"]
    assert all(f"`{table}`" in text for table in ITEMS)


def test_the_example_can_be_applied_and_undone() -> None:
    example, _ = [block.text for block in blocks(PAGE) if block.kind == "yaml"]
    done = apply(BOAT_HOUSE, edits_from_text(example, "edits.md"))
    assert [unit.label for unit in done.design.systems[0].units if unit.id == "U4"] == ["Store, north wall"]
    assert apply(done.design, done.inverse).design == BOAT_HOUSE


def test_the_example_of_a_book_can_be_applied_and_undone() -> None:
    _, example = [block.text for block in blocks(PAGE) if block.kind == "yaml"]
    book = load_book(ROOT / "books" / "skerry-hr-r410a.book.yaml").compiled.book
    done = apply_to_book(book, book_edits_from_text(example, "edits", book))
    assert done.book != book
    assert apply_to_book(done.book, done.inverse).book == book
