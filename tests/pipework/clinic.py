"""The harbour clinic of the examples with its pipework judged, and what is stated for it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from linewright.document.files import book_from_text, design_from_text, link
from linewright.engine import Evaluation, Library, evaluate
from linewright.engine.pipework_records import InsulationResult, MoveResult, PipeworkResult, TubeStrength

ROOT = Path(__file__).parents[2]
TEXT = (ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml").read_text(encoding="utf-8")
BOOK = (ROOT / "books" / "tidewater-r32.book.yaml").read_text(encoding="utf-8")
#: What a nameplate and a test would say, put before the notes of the book; invented.
PRESSURES = """
pressures:
  page: 30
  high: 4.15 MPa
  test: [{pressure: 0.5 MPa, hold: 5 min}, {pressure: 1.5 MPa, hold: 5 min}, {pressure: 4.15 MPa, hold: 24 h}]
"""


@cache
def clinic(stated: str, *changes: tuple[str, str], pressures: str = PRESSURES) -> Evaluation:
    """The clinic with pipework as stated, and texts of the book or the design replaced, each of which is there."""
    text, book = TEXT.replace("units: si\n", f"units: si\npipework: {stated}\n" if stated else "units: si\n", 1), BOOK
    for old, new in changes:
        assert old in text or old in book, old
        text, book = text.replace(old, new), book.replace(old, new)
    loaded = design_from_text(text, "clinic.design.yaml")
    books = {"tidewater-r32": book_from_text(book + pressures, "tidewater-r32.book.yaml").compiled}
    link(loaded, books)
    return evaluate(loaded.design, Library.of(books))


def pipework(evaluation: Evaluation, system: str = "ground") -> PipeworkResult:
    found = next(result for result in evaluation.systems if result.id == system).pipework
    assert found is not None
    return found


def tube(evaluation: Evaluation, od_mm: float, system: str = "ground") -> TubeStrength:
    return next(one for one in pipework(evaluation, system).tubes if abs(one.od_m * 1000 - od_mm) < 0.1)


def wrap(evaluation: Evaluation, name: str, system: str = "ground") -> InsulationResult:
    return next(
        one for one in pipework(evaluation, system).insulation if one.check.subject == f"{system}/insulation:{name}"
    )


def move(evaluation: Evaluation, name: str, system: str = "ground") -> MoveResult:
    return next(one for one in pipework(evaluation, system).moves if one.subject == f"{system}/movement:{name}")
