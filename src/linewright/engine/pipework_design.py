"""The design pressures of a system: of the high side, by which tube is judged, and of the low side."""

from __future__ import annotations

from collections.abc import Callable

from linewright.engine.formulas import stated
from linewright.engine.formulas_pipework import saturation_gauge
from linewright.engine.pipework_job import Job
from linewright.engine.pipework_records import DesignPressure
from linewright.standards.pipework import formulas as known
from linewright.standards.pipework.terms import Given, Terms
from linewright.units import Dimension

D = Dimension
_NONE = "neither the book nor the design states one"


def design_pressure(job: Job) -> DesignPressure:
    """The nameplate's high side, else what the design states, else EN 378-2 by the ambient."""
    pressures = job.ground.book.book.pressures
    if pressures is not None and pressures.high_pa is not None:
        item = Given("high side of the nameplate", pressures.high_pa, D.PRESSURE, "book:pressures.high")
        return _as_stated(item, "the nameplate in the book")
    if job.stated.design_pressure_pa is not None:
        item = Given("design pressure", job.stated.design_pressure_pa, D.PRESSURE, "design:pipework.design_pressure")
        return _as_stated(item, "the design")
    return _by_ambient(job, "high side by EN 378-2", known.high_side_temperature, missing=f"design pressure: {_NONE}")


def low_side(job: Job) -> DesignPressure:
    """The nameplate's low side, else EN 378-2 by the ambient; no tube is judged by it."""
    pressures = job.ground.book.book.pressures
    if pressures is not None and pressures.low_pa is not None:
        item = Given("low side of the nameplate", pressures.low_pa, D.PRESSURE, "book:pressures.low")
        return _as_stated(item, "the nameplate in the book")
    missing = "low side: the book states none, and the design no ambient"
    return _by_ambient(job, "low side by EN 378-2", known.low_side_temperature, missing=missing)


def _as_stated(item: Given, by: str) -> DesignPressure:
    terms = Terms()
    terms.add("design pressure", stated, item, dimension=D.PRESSURE)
    return DesignPressure(item.number, by, tuple(terms.terms))


def _by_ambient(job: Job, name: str, temperature: Callable[[float], float], *, missing: str) -> DesignPressure:
    """Saturation at the design temperature of EN 378-2, which is from memory."""
    terms, ambient = Terms(), _ambient(job)
    if ambient is None:
        return DesignPressure(None, "", (), missing=missing)
    try:
        t = terms.add(name, temperature, ambient, dimension=D.TEMPERATURE)
        refrigerant = Given("refrigerant", job.ground.book.book.refrigerant, D.NUMBER, "book:refrigerant")
        found = terms.add("design pressure", saturation_gauge, refrigerant, t, dimension=D.PRESSURE)
    except known.BeyondError as error:
        return DesignPressure(None, "", tuple(terms.terms), missing=str(error))
    return DesignPressure(found.number, "EN 378-2 by the ambient", tuple(terms.terms), ("EN 378-2",))


def _ambient(job: Job) -> Given | None:
    if job.stated.ambient_degc is not None:
        return Given("ambient", job.stated.ambient_degc, D.TEMPERATURE, "design:pipework.ambient")
    cooling = job.design.site.cooling
    if cooling is None:
        return None
    return Given("outdoor air of cooling", cooling.outdoor_db_degc, D.TEMPERATURE, "design:site.cooling.outdoor_db")
