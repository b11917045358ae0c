"""The guide to writing a book: its blocks load, and it names every key and every word of the format."""

import dataclasses
import re
import typing
from collections.abc import Iterator
from enum import Enum
from pathlib import Path

import pytest
import yaml

from linewright.book.schema import Book, Kind
from linewright.document.decode import plan
from linewright.document.files import book_from_text
from linewright.errors import InputFaultsError
from linewright.model.values import Role
from linewright.units import Amount, Dimension

GUIDE = (Path(__file__).parents[2] / "docs" / "books.md").read_text(encoding="utf-8")
BLOCKS = re.findall(r"^```yaml\n(.*?)^```", GUIDE, flags=re.MULTILINE | re.DOTALL)
MORE = [block for block in BLOCKS if block.startswith("# more")]
WALK = [block for block in BLOCKS if not block.startswith(("# instead", "# more", "# recovery"))]
(RECOVERY,) = [block for block in BLOCKS if block.startswith("# recovery")]
VARIANTS = [block for block in BLOCKS if block.startswith("# instead")]
#: Roles of a heat-recovery family, and dimensions, which are no words of a file.
SET_ASIDE = (Role, Dimension)
TICKED = set(re.findall(r"`([^`\n]+)`", GUIDE))


def test_the_blocks_of_the_walk_are_one_sound_book() -> None:
    book = book_from_text("\n".join(WALK), "walk.book.yaml").compiled.book
    assert book.id == "walk"
    assert len(book.limits) == 11


def test_what_stands_beyond_the_tables_fits_into_the_walk() -> None:
    book = book_from_text("\n".join((*WALK, *MORE)), "walk.book.yaml").compiled.book
    assert len(book.options) == 1
    assert len(book.requirements) == 4


def test_the_block_of_a_heat_recovery_family_replaces_its_sections_of_the_walk() -> None:
    replaced = yaml.safe_load(RECOVERY)
    kept = [block for block in WALK if next(iter(yaml.safe_load(block))) not in replaced]
    text = "\n".join((*kept, RECOVERY)).replace("kind: heat-pump\n", "", 1)
    book = book_from_text(text, "recovery.book.yaml").compiled.book
    assert book.kind is Kind.HEAT_RECOVERY
    assert book.boxes is not None
    assert [model.model for model in book.boxes.models] == ["box 1", "box 4"]


def test_every_section_after_the_identity_has_a_block_of_its_own() -> None:
    keys = [next(iter(yaml.safe_load(block))) for block in WALK]
    sections = "outdoor indoor tubes sizing fittings limits capacity charge"
    assert keys == ["linewright", *sections.split()]


@pytest.mark.parametrize("variant", VARIANTS, ids=[next(iter(yaml.safe_load(text))) for text in VARIANTS])
def test_a_block_that_replaces_a_section_fits_into_the_walk(variant: str) -> None:
    section = next(iter(yaml.safe_load(variant)))
    blocks = [variant if next(iter(yaml.safe_load(block))) == section else block for block in WALK]
    assert variant in blocks
    book_from_text("\n".join(blocks), f"{section}.book.yaml")


def test_a_wrong_block_is_refused() -> None:
    broken = "\n".join(WALK).replace("max: 100 m", "max: 100 kg")
    with pytest.raises(InputFaultsError):
        book_from_text(broken, "broken.book.yaml")


def _reachable(hint: object, seen: set[type]) -> Iterator[type]:
    """Every declared class and every closed set of words that a book file can hold."""
    if isinstance(hint, type) and hint.__module__.startswith("linewright.") and hint not in seen:
        seen.add(hint)
        yield hint
        for field in plan(hint) if dataclasses.is_dataclass(hint) else ():
            yield from _reachable(field.hint, seen)
    for argument in typing.get_args(hint):
        yield from _reachable(argument, seen)


CLASSES = list(_reachable(Book, set()))
KEYS = sorted(
    {
        field.key
        for cls in CLASSES
        if dataclasses.is_dataclass(cls) and cls is not Amount
        for field in plan(cls)
        if not field.inline  # its entries stand beside the owner's keys
    }
)
SETS = [cls for cls in CLASSES if issubclass(cls, Enum) and cls not in SET_ASIDE]
WORDS = sorted({str(word.value) for words in SETS for word in words})


def test_the_format_was_found() -> None:
    assert len(KEYS) > 90
    assert {"upsized_twice", "port_index", "multiplier"} <= set(KEYS)
    assert {"raises-main", "level_outdoor_above", "half-up"} <= set(WORDS)


@pytest.mark.parametrize("name", KEYS)
def test_the_guide_explains_every_key(name: str) -> None:
    assert name in TICKED


@pytest.mark.parametrize("name", WORDS)
def test_the_guide_explains_every_word_of_a_closed_set(name: str) -> None:
    assert any(name in text.replace(":", " ").split() for text in TICKED)
