"""The verdict on a gauge reading: for people, and as JSON."""

from __future__ import annotations

from typing import Any

from linewright.engine.pipework_reading import ReadingResult, Tightness
from linewright.report.page import Page
from linewright.report.reasons import UNKNOWN
from linewright.report.why_text import COLUMNS, value
from linewright.standards.pipework.terms import Given, Term
from linewright.units import Dimension, UnitSystem, show

SCHEMA = "linewright/reading/1"
D = Dimension
#: Said under every verdict on a test with gas under pressure.
CAUTIONS = (
    "Gas under pressure throws what breaks: keep people away, tighten nothing under pressure, never test with oxygen.",
    "This tells of one reading. Whether the test is passed decide the book, the code in force and who has to sign.",
)


def reading_text(found: ReadingResult, notes: tuple[str, ...], *, system: UnitSystem, colour: bool) -> str:
    """Write the verdict, what it rests on and its working."""
    page = Page(colour=colour)
    page.title(f"The reading {found.tightness}" if found.tightness is not Tightness.UNTOLD else "It cannot be told")
    for why in (*found.why, *notes):
        page.text(why)
    page.blank()
    for name, pressure in _figures(found):
        shown = UNKNOWN if pressure is None else show(pressure, D.PRESSURE, system, places=_places(system))
        page.text(f"{name}: {shown}")
    for number, term in enumerate(found.terms, start=1):
        page.blank()
        page.text(f"{number}. {term.name} = {value(term.value, term.dimension, system)}")
        page.text(_formula(term), indent=3)
        page.table(COLUMNS, [_input(item, system) for item in term.inputs])
    page.blank()
    for caution in CAUTIONS:
        page.text(caution)
    return str(page)


def _figures(found: ReadingResult) -> tuple[tuple[str, float | None], ...]:
    return (
        ("gauge at the start", found.start.pressure_pa),
        ("a tight pipe shows now, by the gas law", found.expected_pa),
        ("a tight pipe shows now, nitrogen as it is", found.nitrogen_pa),
        ("gauge now", found.now.pressure_pa),
        ("reading less nitrogen as it is", found.difference_pa),
        ("a fall up to this would not be seen", found.unseen_pa),
    )


def _places(system: UnitSystem) -> int:
    return 3 if system is UnitSystem.SI else 1


def _formula(term: Term) -> str:
    from linewright.engine.formulas import FORMULAS  # noqa: PLC0415 - kept by name in terms

    return FORMULAS[term.formula].text


def _input(item: Given, system: UnitSystem) -> list[str]:
    return [item.name, value(item.value, item.dimension, system), item.source]


def reading_json(found: ReadingResult) -> dict[str, Any]:
    """Give the verdict and its working as plain values in SI."""
    return {
        "verdict": found.tightness.value,
        "why": list(found.why),
        "start": {"pressure_pa": found.start.pressure_pa, "pipe_degc": found.start.pipe_degc},
        "now": {"pressure_pa": found.now.pressure_pa, "pipe_degc": found.now.pipe_degc},
        "tolerance_pa": found.allowed.pressure_pa,
        "tolerance_k": found.allowed.temperature_k,
        "altitude_m": found.allowed.altitude_m,
        "asked_s": found.allowed.asked_s,
        "held_s": found.allowed.held_s,
        "expected_pa": found.expected_pa,
        "nitrogen_pa": found.nitrogen_pa,
        "difference_pa": found.difference_pa,
        "unseen_pa": found.unseen_pa,
        "steps": [_step(term) for term in found.terms],
        "cautions": list(CAUTIONS),
    }


def _step(term: Term) -> dict[str, Any]:
    return {
        "name": term.name,
        "formula": term.formula,
        "inputs": [
            {"name": item.name, "value": item.value, "unit": item.dimension.si, "from": item.source}
            for item in term.inputs
        ],
        "result": term.value,
        "unit": term.dimension.si,
    }
