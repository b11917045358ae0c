"""The harbour clinic of the examples with a standard chosen, and what is stated for it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from linewright.document.files import design_from_text, link, load_book
from linewright.engine import Evaluation, Library, evaluate
from linewright.engine.safety_records import SafetyResult, SpaceResult

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml").read_text(encoding="utf-8")
BOOK = load_book(ROOT / "books" / "tidewater-r32.book.yaml").compiled

EN = "{profile: en-378, access: general}"
US = "{profile: ashrae-15, occupancy: institutional}"
IEC = "{profile: iec-60335-2-40}"


@cache
def clinic(chosen: str, *changes: tuple[str, str]) -> Evaluation:
    """The clinic by one standard, with texts of its file replaced, each of which stands there once."""
    text = TEXT.replace("units: si\n", f"units: si\nrefrigerant: {chosen}\n" if chosen else "units: si\n", 1)
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    loaded = design_from_text(text, "clinic.design.yaml")
    books = {"tidewater-r32": BOOK}
    link(loaded, books)
    return evaluate(loaded.design, Library.of(books))


def safety(evaluation: Evaluation, system: str = "ground") -> SafetyResult:
    found = next(result for result in evaluation.systems if result.id == system).safety
    assert found is not None
    return found


def space(evaluation: Evaluation, room: str, system: str = "ground") -> SpaceResult:
    return next(one for one in safety(evaluation, system).spaces if one.room.id == room)
