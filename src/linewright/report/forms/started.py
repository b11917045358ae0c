"""Readings at start-up: saturation, superheat and subcooling worked out of them, noted beside what physics leads to."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.records import SystemResult
from linewright.engine.site_verdicts import Found, Outcome
from linewright.physics.properties import Fluid, fluid
from linewright.report.forms.blanks import Form
from linewright.report.forms.reading import Filled
from linewright.report.forms.verdicts import Figure, Judged
from linewright.standards.pipework.formulas import air_pressure
from linewright.units import Dimension, over

D = Dimension
_NOTED = "from first principles, for conditions that are assumed: beside the readings, judged by nothing"


def started(result: SystemResult, filled: Filled, altitude_m: float | None) -> Iterator[Judged]:
    """Both modes; gauge pressures are made absolute with the air at the altitude of the site, else at sea level."""
    name = result.state.ground.book.book.refrigerant
    air = air_pressure(0.0 if altitude_m is None else altitude_m)
    for mode in ("cooling", "heating"):
        read = {
            key.field: number
            for key, number in filled.numbers.items()
            if (key.system, key.form, key.item) == (result.id, Form.START.value, mode)
        }
        known = fluid(name)
        figures: tuple[Figure, ...] = ()
        if not read:
            found = Found(Outcome.NOT_JUDGED, ("nothing is filled in",))
        elif known is None:
            found = Found(Outcome.NOT_JUDGED, (f"no properties of {name} are known here",))
        else:
            figures = tuple(_figures(known, read, air))
            found = _looked_at(figures)
        yield Judged(result.id, Form.START, mode, found, figures)


def _figures(known: Fluid, read: dict[str, float], air_pa: float) -> Iterator[Figure]:
    for line, saturation, above in (
        ("suction", "dew", "superheat"),
        ("discharge", "dew", "superheat"),
        ("liquid", "bubble", "subcooling"),
    ):
        gauge, pipe = read.get(f"{line} gauge"), read.get(f"{line} pipe")
        if gauge is None:
            continue
        boils = _saturation(known, gauge + air_pa, saturation)
        yield Figure(f"{line} saturation", boils, D.TEMPERATURE)
        if pipe is not None and boils is not None:
            apart = pipe - boils if above == "superheat" else boils - pipe
            yield Figure(f"{line} {above}", apart, D.TEMPERATURE_DIFFERENCE)


def _saturation(known: Fluid, absolute_pa: float, of: str) -> float | None:
    low, high = (float(known.dew_pressure(t)) for t in (known.low_degc, known.high_degc))
    if not low < absolute_pa < high:
        return None
    found = known.dew_temperature(absolute_pa) if of == "dew" else known.bubble_temperature(absolute_pa)
    return float(found)


def _looked_at(figures: tuple[Figure, ...]) -> Found:
    """Note what no plant that runs well shows: no superheat before the compressor, no subcooling in the liquid."""
    wet = [one.name for one in figures if one.name != "discharge superheat" and _is_none(one)]
    beyond = [one.name for one in figures if one.value is None]
    if wet:
        words = "liquid may reach the compressor" if "suction superheat" in wet else "the liquid line may hold vapour"
        return Found(Outcome.NOT_JUDGED, (f"{', '.join(wet)} is nought or below: {words}; look before it runs on",))
    if beyond:
        return Found(Outcome.NOT_JUDGED, (f"{', '.join(beyond)}: beyond the tables of the refrigerant",))
    return Found(Outcome.NOTED, (_NOTED,))


def _is_none(one: Figure) -> bool:
    return one.dimension is D.TEMPERATURE_DIFFERENCE and one.value is not None and not over(one.value, 0.0)
