"""Refrigerant in rooms on the sheet: a column, a margin, words on the lane; nothing of it without a standard."""

from __future__ import annotations

import pytest

from linewright.document.files import design_from_text, link, load_book
from linewright.draw import Axis, Scene, layout, sheet_scene
from linewright.engine import Library, evaluate
from linewright.units import UnitSystem
from tests.draw.cases import ROOT
from tests.draw.geometry import by_id, text

TERMINAL = (ROOT / "examples" / "ferry-terminal" / "ferry-terminal.design.yaml").read_text(encoding="utf-8")
CHOSEN = "{profile: en-378, edition: 2016+A1:2020, access: general, region: eu, installed: 2027-05-01}"


def scene(chosen: str, *changes: tuple[str, str]) -> Scene:
    of = TERMINAL.replace(f"refrigerant: {CHOSEN}\n", f"refrigerant: {chosen}\n" if chosen else "")
    for old, new in changes:
        assert old in of
        of = of.replace(old, new)
    loaded, book = design_from_text(of, "t.design.yaml"), load_book(ROOT / "books" / "tidewater-r32.book.yaml").compiled
    books = {"tidewater-r32": book}
    link(loaded, books)
    evaluation = evaluate(loaded.design, Library.of(books))
    return sheet_scene(layout(evaluation, evaluation.systems[0], book=book.book, axis=Axis.ACTUAL), UnitSystem.SI)


def test_a_lane_gives_the_charge_against_the_most_that_its_room_takes() -> None:
    # Worked by hand in docs and tests/safety: 10.2 kg; staff 0.571 x 1.8 x sqrt(14) = 3.85, C.3 0.063 x 36.4 = 2.29 kg.
    found = scene(CHOSEN)
    assert text(found, "lanes/leak").text == "charge / most, kg"
    assert text(found, "unit:U5/leak").text == "▲ 10.2 / 3.8"
    assert text(found, "unit:U5/verdict").title.startswith("▲ refrigerant over by 6.35 kg")
    assert text(found, "unit:U1/leak").text.startswith("10.2 / ")
    assert text(found, "unit:U1/verdict").title == "within"


def test_the_strip_shows_the_worst_room() -> None:
    found = by_id(scene(CHOSEN))
    margins = [name for name in found if name.startswith("margin:refrigerant") and name.endswith("/name")]
    assert margins == ["margin:refrigerant:staff/name"]


def test_what_is_advisory_is_to_confirm_and_what_is_not_stated_unjudged() -> None:
    released = ("releasable: {luggage: 4 kg}", "releasable: {staff: 1.5 kg}")
    advisory = scene("{profile: iec-60335-2-40}", released)
    assert text(advisory, "unit:U5/verdict").title == "□ refrigerant to confirm"
    unknown = scene(CHOSEN, ("area: 14 m2", "area: unknown"))
    assert text(unknown, "unit:U5/leak").text == "10.2 / ?"
    assert "refrigerant unjudged: area of staff" in text(unknown, "unit:U5/verdict").title


@pytest.mark.parametrize("name", ["lanes/leak", "unit:U5/leak"])
def test_without_a_standard_there_is_no_such_column(name: str) -> None:
    assert name not in by_id(scene(""))
