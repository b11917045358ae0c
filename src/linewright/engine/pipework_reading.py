"""Whether a pressure test holds, by what the gauge showed at its start and shows now."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from linewright.engine.formulas import difference
from linewright.engine.formulas_pipework import DEFAULTS
from linewright.standards.pipework import formulas as known
from linewright.standards.pipework.nitrogen import gauge_of_nitrogen
from linewright.standards.pipework.terms import Given, Term, Terms
from linewright.units import Dimension, over

D = Dimension
ENTERED = "entered"


class Tightness(StrEnum):
    """What a reading says of the pipe. What cannot be told is never a pass."""

    HOLDS = "holds"
    FALLS = "falls"
    UNTOLD = "cannot be told"


class Reading(NamedTuple):
    """What the gauge shows [Pa] and how warm the pipe is [degC]; `None` where that was not written down."""

    pressure_pa: float | None
    pipe_degc: float | None


class Allowed(NamedTuple):
    """How well is read, and how long is waited.

    pressure_pa : what both readings together may be off by [Pa]; `None` leaves it untold
    temperature_k : what the temperature of the pipe may be off by [K]
    altitude_m : of the site [m]; `None` takes the default, sea level
    asked_s, held_s : how long the stage has to be held by the book, and how long it was [s]
    """

    pressure_pa: float | None
    temperature_k: float = 0.0
    altitude_m: float | None = None
    asked_s: float | None = None
    held_s: float | None = None


class ReadingResult(NamedTuple):
    """The verdict on a reading, with its working. Pressures are gauge [Pa].

    expected_pa : what the gauge would show by the gas law; nitrogen_pa : by nitrogen as it is
    difference_pa : reading less `nitrogen_pa`; below nought it is lower
    unseen_pa : a fall up to this would not be seen
    why : what the verdict rests on, or what is missing for one
    """

    tightness: Tightness
    start: Reading
    now: Reading
    allowed: Allowed
    expected_pa: float | None
    nitrogen_pa: float | None
    difference_pa: float | None
    unseen_pa: float | None
    why: tuple[str, ...]
    terms: tuple[Term, ...]


class _Expected(NamedTuple):
    """What a tight pipe would show: by the gas law, by nitrogen as it is, and its change for each kelvin."""

    gas: float
    nitrogen: float
    per_kelvin: float


def judge_reading(start: Reading, now: Reading, allowed: Allowed) -> ReadingResult:
    """Judge a reading of the gauge against that at the start of the test.

    Nothing is raised: what is missing, or beyond a formula's range, leaves it untold and is named.
    """
    terms = Terms()
    blank = ReadingResult(Tightness.UNTOLD, start, now, allowed, None, None, None, None, (), ())
    missing = tuple(_missing(start, now, allowed))
    if None in (*start, *now):
        return blank._replace(why=missing)
    try:
        expected = _expected(terms, start, now, allowed)
    except known.BeyondError as error:
        return blank._replace(why=(*missing, f"beyond the formula: {error}"), terms=tuple(terms.terms))
    read = Given("gauge now", now.pressure_pa or 0.0, D.PRESSURE, ENTERED)
    should = Given("nitrogen", expected.nitrogen, D.PRESSURE, ENTERED)
    apart = terms.add("reading less what a tight pipe shows", difference, read, should, dimension=D.PRESSURE).number
    found = blank._replace(
        expected_pa=expected.gas, nitrogen_pa=expected.nitrogen, difference_pa=apart, terms=tuple(terms.terms)
    )
    if missing:
        return found._replace(why=missing)
    return _judged(found, expected)


def _missing(start: Reading, now: Reading, allowed: Allowed) -> list[str]:
    found = []
    for when, reading in (("at the start", start), ("now", now)):
        if reading.pressure_pa is None:
            found.append(f"the gauge {when} is not known")
        if reading.pipe_degc is None:
            found.append(f"the temperature of the pipe {when} is not known")
    if start.pressure_pa is not None and start.pressure_pa <= 0.0:
        found.append("there was no pressure at the start")
    if allowed.pressure_pa is None:
        found.append("how far the readings may be off is not stated")
    elif allowed.pressure_pa < 0.0 or allowed.temperature_k < 0.0:
        found.append("what the readings may be off by is below nought")
    return found


def _expected(terms: Terms, start: Reading, now: Reading, allowed: Allowed) -> _Expected:
    gauge = Given("gauge at the start", start.pressure_pa or 0.0, D.PRESSURE, ENTERED)
    first = Given("pipe at the start", start.pipe_degc or 0.0, D.TEMPERATURE, ENTERED)
    then = Given("pipe now", now.pipe_degc or 0.0, D.TEMPERATURE, ENTERED)
    if allowed.altitude_m is None:
        height = terms.add("altitude", DEFAULTS["altitude"], dimension=D.LENGTH)
    else:
        height = Given("altitude", allowed.altitude_m, D.LENGTH, ENTERED)
    air = terms.add("pressure of the air", known.air_pressure, height, dimension=D.PRESSURE)
    if (now.pressure_pa or 0.0) <= -air.number:
        raise known.BeyondError("a gauge that shows less than a vacuum")
    gas = terms.add("tight, by the gas law", known.gauge_at, gauge, air, first, then, dimension=D.PRESSURE)
    nitrogen = terms.add("tight, nitrogen as it is", gauge_of_nitrogen, gauge, air, first, then, dimension=D.PRESSURE)
    each = terms.add("change for each kelvin", known.gauge_per_kelvin, gauge, air, first, dimension=D.PRESSURE)
    return _Expected(gas.number, nitrogen.number, each.number)


def _judged(found: ReadingResult, expected: _Expected) -> ReadingResult:
    """Weigh the reading: by nitrogen as it is to hold, below both to fall; what lies between is not told."""
    allowed, shown = found.allowed, found.now.pressure_pa or 0.0
    within = allowed.pressure_pa or 0.0
    doubt = within + expected.per_kelvin * allowed.temperature_k
    # The two formulas differ by a tenth of the change: a pipe that is tight by one of them has not been shown to leak.
    low, high = min(expected.gas, expected.nitrogen), max(expected.gas, expected.nitrogen)
    found = found._replace(unseen_pa=doubt)
    if over(doubt, low):
        return found._replace(why=("the readings may be off by more than the pressure that is tested",))
    if over(low - doubt, shown):
        return found._replace(tightness=Tightness.FALLS, why=("lower than the temperature explains",))
    if over(shown, high + doubt):
        why = "higher than the temperature explains: pipe is not as warm as was read, or the gauge is off; wait"
        return found._replace(why=(why,))
    if over(expected.nitrogen - within, shown) or over(shown, high + within):
        return found._replace(why=("off by more than is allowed, by less than temperature may explain: wait",))
    early = _early(allowed)
    if early:
        return found._replace(why=(early,))
    return found._replace(tightness=Tightness.HOLDS, why=("as the temperature explains",))


def _early(allowed: Allowed) -> str:
    if allowed.asked_s is None:
        return ""
    if allowed.held_s is None:
        return "how long it was held is not known; the book asks for a time"
    return "not held as long as the book asks" if over(allowed.asked_s, allowed.held_s) else ""
