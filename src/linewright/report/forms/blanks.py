"""Every blank of the records of a design: what is asked, in which unit, what is expected."""

from __future__ import annotations

from collections.abc import Iterator
from enum import StrEnum
from typing import NamedTuple

from linewright.engine.records import Evaluation, SystemResult
from linewright.engine.site_targets import StartUp, Vacuum, stages_of, start_up_of, vacuum_of
from linewright.standards.pipework.formulas import air_pressure
from linewright.units import Dimension, UnitSystem, show, show_in

D = Dimension


class Form(StrEnum):
    """A record."""

    TEST = "pressure test"
    VACUUM = "evacuation"
    CHARGE = "charge"
    JOINTS = "joints"
    BUILT = "as built"
    START = "start-up"


class Key(NamedTuple):
    """Where a blank stands."""

    system: str
    form: str
    item: str
    field: str


class Blank(NamedTuple):
    """A blank: where it stands, what it measures (`None` is a text), what is expected, the unit of bare numbers."""

    key: Key
    dimension: Dimension | None
    expected: str
    unit: str = ""


#: Units on site, where gauges do not show the units of calculations.
_UNITS = {
    UnitSystem.SI: {D.PRESSURE: "bar", D.TEMPERATURE: "degC", D.TEMPERATURE_DIFFERENCE: "K", D.TIME: "min"}
    | {D.MASS: "kg", D.LENGTH: "m"},
    UnitSystem.IP: {D.PRESSURE: "psi", D.TEMPERATURE: "degF", D.TEMPERATURE_DIFFERENCE: "Fdeg", D.TIME: "min"}
    | {D.MASS: "lb", D.LENGTH: "ft"},
}
_PLACES = {"bar": 2, "psi": 0, "Pa": 1, "micron": 0}


def blanks_of(evaluation: Evaluation, units: UnitSystem) -> tuple[Blank, ...]:
    """All blanks, system by system, in the order of the work."""
    altitude = evaluation.design.site.altitude_m
    air = air_pressure(0.0 if altitude is None else altitude)
    return tuple(blank for result in evaluation.systems for blank in _Maker(result, units, air).all())


class _Maker:
    """Makes the blanks of one system."""

    def __init__(self, result: SystemResult, units: UnitSystem, air_pa: float) -> None:
        """Keep what they are of; air_pa : by which gauge pressures differ from absolute ones [Pa]."""
        self._result, self._units, self._air = result, units, air_pa

    def all(self) -> Iterator[Blank]:
        """Every blank of the system."""
        yield from self._test()
        yield from self._vacuum(vacuum_of(self._result))
        yield from self._charge()
        yield from self._built()
        yield from self._start(start_up_of(self._result.hydraulics))
        yield from self._joints()

    def _one(
        self,
        form: Form,
        item: str,
        field: str,
        *,
        dimension: Dimension | None = None,
        expected: str = "",
        unit: str = "",
    ) -> Blank:
        usual = "" if dimension is None else _UNITS[self._units][dimension]
        return Blank(Key(self._result.id, form.value, item, field), dimension, expected, unit or usual)

    def _pressure(self, pa: float) -> str:
        unit = _UNITS[self._units][D.PRESSURE]
        return show_in(pa, unit, places=_PLACES[unit])

    def _gauge(self, pa: float) -> str:
        return self._pressure(pa - self._air)

    def _test(self) -> Iterator[Blank]:
        off = "as the gauge's papers say, both readings together"
        yield self._one(Form.TEST, "gauge", "readings may be off by", dimension=D.PRESSURE, expected=off)
        yield self._one(Form.TEST, "gauge", "temperature may be off by", dimension=D.TEMPERATURE_DIFFERENCE)
        stages = stages_of(self._result)
        for number in range(1, max(len(stages), 1) + 1):
            stage = stages[number - 1] if stages else None
            asked = "the book states no stage" if stage is None else f"{self._pressure(stage.pressure_pa)} gauge"
            hold = (
                "" if stage is None or stage.hold_s is None else f"at least {show(stage.hold_s, D.TIME, self._units)}"
            )
            item = f"stage {number}"
            yield self._one(Form.TEST, item, "gauge at start", dimension=D.PRESSURE, expected=asked)
            yield self._one(Form.TEST, item, "pipe at start", dimension=D.TEMPERATURE)
            yield self._one(Form.TEST, item, "gauge at end", dimension=D.PRESSURE, expected="as temperature explains")
            yield self._one(Form.TEST, item, "pipe at end", dimension=D.TEMPERATURE)
            yield self._one(Form.TEST, item, "held", dimension=D.TIME, expected=hold)
            yield self._one(Form.TEST, item, "by, date", expected="")

    def _vacuum(self, target: Vacuum) -> Iterator[Blank]:
        unit = "Pa" if self._units is UnitSystem.SI else "micron"

        def low(pa: float) -> str:
            return f"{show_in(pa, unit, places=_PLACES[unit])} absolute or less"

        reach = f"{low(target.reach_pa)} ({target.source})"
        after = f"{low(target.after_pa)} ({target.after_source})"
        hold = f"at least {_time(target.hold_s)}"
        warm = f"{show((35 - 32) / 1.8, D.TEMPERATURE, self._units)} or more ([UFGS-15182])"
        yield self._one(Form.VACUUM, "vacuum", "reached", dimension=D.PRESSURE, expected=reach, unit=unit)
        yield self._one(Form.VACUUM, "vacuum", "after the hold", dimension=D.PRESSURE, expected=after, unit=unit)
        yield self._one(Form.VACUUM, "vacuum", "closed for", dimension=D.TIME, expected=hold)
        yield self._one(Form.VACUUM, "vacuum", "coldest pipe", dimension=D.TEMPERATURE, expected=warm)
        yield self._one(Form.VACUUM, "vacuum", "by, date")

    def _charge(self) -> Iterator[Blank]:
        kg = self._result.charge.rounded_kg
        wanted = "not known: see the worksheet" if kg is None else show(kg, D.MASS, self._units)
        yield self._one(Form.CHARGE, "charge", "weighed in", dimension=D.MASS, expected=wanted)
        yield self._one(Form.CHARGE, "charge", "scale may be off by", dimension=D.MASS)
        yield self._one(Form.CHARGE, "charge", "new, recycled or reclaimed; cylinders")
        yield self._one(Form.CHARGE, "charge", "by, firm, certificate, date")

    def _built(self) -> Iterator[Blank]:
        for pipe in self._result.outdoor.pipes:
            yield self._length(pipe.id, pipe.length_m)
        for run in sorted(self._result.runs, key=lambda run: self._result.tree.at[run.id]):
            yield self._length(run.id, run.length_m)

    def _length(self, name: str, length_m: float | None) -> Blank:
        said = "?" if length_m is None else show(length_m, D.LENGTH, self._units, places=2)
        return self._one(Form.BUILT, name, "length", dimension=D.LENGTH, expected=f"design: {said}")

    def _start(self, known: StartUp | None) -> Iterator[Blank]:
        for mode, fields in (("cooling", _COOLING), ("heating", _HEATING)):
            expected = dict.fromkeys(fields, "") if known is None else self._expected(known, mode)
            for field in fields:
                dimension = D.PRESSURE if field.endswith("gauge") else D.TEMPERATURE
                yield self._one(Form.START, mode, field, dimension=dimension, expected=expected.get(field, ""))

    def _expected(self, known: StartUp, mode: str) -> dict[str, str]:
        def degrees(t_degc: float) -> str:
            return show(t_degc, D.TEMPERATURE, self._units)

        if mode == "heating":
            return {
                "discharge gauge": f"{self._gauge(known.heating_pa)}, saturation {degrees(known.heating_degc)}",
                "discharge pipe": f"{degrees(known.heating_discharge_degc)} assumed",
            }
        (little, full), (little_pa, full_pa) = known.suction_degc, known.suction_pa
        warmer = show(known.superheat_k, D.TEMPERATURE_DIFFERENCE, self._units)
        return {
            "suction gauge": f"{self._gauge(full_pa)} to {self._gauge(little_pa)}, saturation {degrees(full)} to "
            f"{degrees(little)}: full load to nearly none",
            "suction pipe": f"{warmer} above saturation",
            "discharge gauge": f"{self._gauge(known.discharge_pa)}, saturation {degrees(known.discharge_degc)}",
            "liquid gauge": self._gauge(known.liquid_pa),
            "liquid pipe": degrees(known.liquid_degc),
        }

    def _joints(self) -> Iterator[Blank]:
        names = [*(joint.id for joint in self._result.outdoor.joints), *(item.id for item in self._result.fittings)]
        for name in names:
            for field in ("brazed by", "nitrogen flowed", "leak checked"):
                yield self._one(Form.JOINTS, name, field)


_AIR = ("outdoor air", "indoor air")
_COOLING = (*_AIR, "suction gauge", "suction pipe", "discharge gauge", "discharge pipe", "liquid gauge", "liquid pipe")
_HEATING = (*_AIR, "discharge gauge", "discharge pipe")


def _time(seconds: float) -> str:
    """A time as people say it: in hours where it is whole hours."""
    hours = seconds / 3600.0
    return f"{hours:g} h" if hours >= 1.0 and hours == round(hours) else f"{seconds / 60.0:g} min"
