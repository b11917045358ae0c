"""The stages of the pressure test, and what the gauge shows when the pipe has become warmer or colder."""

from __future__ import annotations

from linewright.engine.pipework_job import Job, by_default
from linewright.engine.pipework_records import DesignPressure, TestStage
from linewright.engine.records import Check, Standing
from linewright.standards.pipework import formulas as known
from linewright.standards.pipework.terms import Given, Terms
from linewright.units import Dimension, over

D = Dimension
NO_STAGES = "stages of the test: the book states none (pressures.test)"


def stages(job: Job) -> tuple[TestStage, ...]:
    """Every stage of the book with its corrected reading; the reading only where the design states a temperature."""
    pressures = job.ground.book.book.pressures
    if pressures is None:
        return ()
    return tuple(
        _stage(job, number, stage.pressure_pa, hold_s=stage.hold_s)
        for number, stage in enumerate(pressures.test, start=1)
    )


def _stage(job: Job, number: int, pressure_pa: float, *, hold_s: float | None) -> TestStage:
    terms = Terms()
    gauge = Given(f"pressure of stage {number}", pressure_pa, D.PRESSURE, f"book:pressures.test[{number - 1}].pressure")
    blank = TestStage(number, pressure_pa, hold_s, None, None, ())
    try:
        altitude = job.design.site.altitude_m
        height = (
            Given("altitude", altitude, D.LENGTH, "design:site.altitude")
            if altitude is not None
            else by_default(terms, "altitude", "altitude", D.LENGTH)
        )
        air = terms.add("pressure of the air", known.air_pressure, height, dimension=D.PRESSURE)
        filled = job.given(terms, "filled_degc", D.TEMPERATURE)
        each = terms.add("change for each kelvin", known.gauge_per_kelvin, gauge, air, filled, dimension=D.PRESSURE)
        if job.stated.read_degc is None:
            return blank._replace(per_kelvin_pa=each.number, terms=tuple(terms.terms))
        read = Given("read at", job.stated.read_degc, D.TEMPERATURE, "design:pipework.read")
        shown = terms.add("reading", known.gauge_at, gauge, air, filled, read, dimension=D.PRESSURE)
    except known.BeyondError as error:
        return blank._replace(terms=tuple(terms.terms), missing=str(error))
    return blank._replace(per_kelvin_pa=each.number, reading_pa=shown.number, terms=tuple(terms.terms))


def stage_check(job: Job, pressure: DesignPressure, found: tuple[TestStage, ...]) -> Check:
    """Whether the last stage stays at the design pressure or below it."""
    check = job.check("pressure-test", "pressure_test", D.PRESSURE)
    if not found:
        return check._replace(missing=(NO_STAGES,))
    highest = max(stage.pressure_pa for stage in found)
    check = check._replace(value=highest)
    if pressure.pressure_pa is None:
        return check._replace(missing=(pressure.missing,))
    above = over(highest, pressure.pressure_pa)
    words = ["above the design pressure: only for a strength test that a code asks for"] if above else []
    if over(pressure.pressure_pa, highest):
        words = ["below the design pressure: it looks for leaks, and does not show strength"]
    standing = Standing.OVER if above else Standing.TO_CONFIRM if pressure.doubts else Standing.WITHIN
    bound = pressure.pressure_pa
    return check._replace(standing=standing, bound=bound, margin=bound - highest, note="; ".join(words))
