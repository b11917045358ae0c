"""Risers and sheets of the cases that the tests of the picture have too, and of the clinic."""

from __future__ import annotations

from functools import cache

from linewright.draw.paper import PAPERS, Drawing
from linewright.draw.paper.facts import Facts, Revision
from linewright.draw.paper.sheets import sheet_drawings
from linewright.draw.riser import riser_drawings
from linewright.units import UnitSystem
from tests.draw import cases

REVISIONS = (Revision("A", "2026-11-02", "for comment"), Revision("B", "2026-11-20", "for tender"))
FACTS = Facts(
    project="Harbour clinic",
    design="harbour-clinic.design.yaml",
    sha256="8a25eadbe9dd" + "0" * 52,
    books=("book Tidewater R-32 demonstration family, edition 1",),
    demonstration=True,
    caution="Not for construction before a licensed engineer has signed it; the maker's data and the codes decide.",
    version="0.1",
    revisions=REVISIONS,
)


@cache
def risers(name: str, paper: str = "A3", units: UnitSystem = UnitSystem.SI) -> tuple[Drawing, ...]:
    case = cases.drawn(name)
    return tuple(riser_drawings(case.evaluation, case.result, FACTS, PAPERS[paper], system=units))


@cache
def sheets(name: str, paper: str = "A3", units: UnitSystem = UnitSystem.SI) -> tuple[Drawing, ...]:
    return tuple(sheet_drawings(cases.drawn(name).sheet, FACTS, PAPERS[paper], units))
