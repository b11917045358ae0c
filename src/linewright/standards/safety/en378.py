"""EN 378-1:2016+A1:2020 annex C, as [RSIF] IF-04 reproduces it, for systems with only coils and pipes inside.

Location II: compressors and receivers stand outside. Allowed is the lower of the toxicity and the flammability limit,
or, of a tight system, the alternative of C.3 with its measures.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import inf
from typing import NamedTuple

from linewright.model.safety import Access, Mounting
from linewright.standards.confidence import Confidence
from linewright.standards.refrigerants.blends import molar_mass
from linewright.standards.refrigerants.data import Basis, Datum, designation, published
from linewright.standards.safety import formulas as f
from linewright.standards.safety import table_c3
from linewright.standards.safety.case import Case, Given, Verdict
from linewright.standards.safety.terms import Terms, stated
from linewright.units import Dimension, over

TITLE = "EN 378-1"
#: What may be stated as read.
RULES = {"data": "values of the refrigerant that are repeated, remembered or disputed"}
HEIGHTS = {Mounting.FLOOR: 0.6, Mounting.WINDOW: 1.0, Mounting.WALL: 1.8, Mounting.CEILING: 2.2}
#: EN 378-1 C.3: the low opening ends no higher above the floor [m].
LOW_EDGE_M = 0.2
NO_LIMIT = (
    "access b or c has no toxicity limit on upper floors with emergency exits (column of table C.1 not read for sure)"
)


class Fluid(NamedTuple):
    """What this standard says of a refrigerant [kg/m3]; `lfl` only where it burns."""

    name: str
    group: str
    concentration: Datum
    lfl: Datum | None
    rcl: Datum
    qlmv: Datum
    qlav: Datum


def fluid(name: str) -> Fluid | None:
    """Values of a refrigerant; none where the standard's tables lack it."""
    known = designation(Basis.EN_378, name)
    if known is None:
        return None
    row = published(Basis.EN_378)[known]
    concentration = max(row["atel_odl"], row["practical_limit"], key=lambda datum: datum.value)
    lfl = row.get("lfl")
    rcl = row.get("rcl") or row["practical_limit"]._replace(quantity="rcl")
    worked = _worked(known, rcl, lfl)
    return Fluid(
        known,
        row["class"].text,
        concentration._replace(quantity="concentration"),
        lfl,
        rcl,
        row.get("qlmv") or worked[0],
        row.get("qlav") or worked[1],
    )


def _worked(name: str, rcl: Datum, lfl: Datum | None) -> tuple[Datum, Datum]:
    """QLMV and QLAV by the rule of C.3; as sure as what they are worked out from."""
    sure = rcl.is_sure and (lfl is None or lfl.is_sure)
    blank = rcl._replace(confidence=Confidence.COMPUTED if sure else Confidence.REPEATED, disputed=not sure)
    mass = molar_mass(name)
    most = table_c3.qlav(mass, None if lfl is None else lfl.value, is_carbon_dioxide=name == "R-744")
    least = table_c3.qlmv(rcl.value, mass, most)
    return (
        blank._replace(quantity="qlmv", text=repr(least), source="[RSIF] IF-04, rule of C.3"),
        blank._replace(quantity="qlav", text=repr(most), source="[RSIF] IF-04, rule of C.3"),
    )


def needs(case: Case) -> Iterator[str]:
    """What has to be stated before anything can be judged."""
    if case.area_m2 is None:
        yield "area"
    if case.volume_m3 is None:
        yield "height"
    if case.access is None:
        yield "access"


def judge(case: Case, of: Fluid) -> Verdict:
    """Judge a case in which all is stated."""
    terms = Terms()
    volume = stated("volume", case.volume_m3 or 0.0, Dimension.VOLUME, "volume_m3")
    bound = terms.add("toxicity limit", f.held, terms.datum("toxicity concentration", of.concentration), volume)
    flammable, clause, note = _flammable(case, of, terms), "C.1, toxicity", ""
    if flammable is not None:
        clause = "C.2, flammability" if flammable.value < bound.value else clause
        bound = terms.add("allowed", f.least, bound, flammable)
    if of.group in ("A1", "A2L"):
        note = "C.3 may allow more where the pipe is made tight"
    if case.tight and note:
        tight, note = _tight(case, of, volume, terms=terms)
        clause = "C.3" if tight.value > bound.value else clause
        bound = terms.add("allowed by either way", f.most, bound, tight)
    charge = case.charge_kg
    passes = not over(charge, bound.value)
    doubtful = case.access is not Access.GENERAL and (flammable is None or not over(charge, flammable.value))
    if not passes and doubtful:
        return Verdict(None, charge, bound.value, clause, note, tuple(terms.unsure), (NO_LIMIT,), tuple(terms.terms))
    return Verdict(passes, charge, bound.value, clause, note, tuple(terms.unsure), (), tuple(terms.terms))


def _flammable(case: Case, of: Fluid, terms: Terms) -> Given | None:
    """The limit of C.2; none for what does not burn."""
    if of.lfl is None:
        return None
    lfl = terms.datum("LFL", of.lfl)
    height = HEIGHTS[case.mounting or Mounting.FLOOR]
    inputs = (
        lfl,
        stated("h0", height, Dimension.LENGTH, "mounting"),
        stated("area", case.area_m2 or 0.0, Dimension.AREA, "area_m2"),
    )
    by_height = terms.add("charge by height and area", f.charge_by_height, *inputs)
    weak = of.group == "A2L"
    most = {"A2L": f.most_charge, "A2": f.most_charge_flammable}.get(of.group, f.most_charge_explosive)
    capped = terms.add("no more than", f.least, by_height, terms.add("cap of C.2", most, lfl))
    free = terms.add("charge without a check", f.free_charge if weak else f.free_charge_flammable, lfl)
    return terms.add("flammability limit", f.most, capped, free)


def _tight(case: Case, of: Fluid, whole: Given, *, terms: Terms) -> tuple[Given, str]:
    """The alternative of C.3 with the measures that count, and which those are."""
    area = stated("area", case.area_m2 or 0.0, Dimension.AREA, "area_m2")
    volume = terms.add("volume that counts", f.tight_volume, area, whole, dimension=Dimension.VOLUME)
    if of.lfl is None:
        cap = terms.add("cap of C.3", f.most_tight_charge)
    else:
        cap = terms.add("cap of C.3", f.most_tight_charge_flammable, terms.datum("LFL", of.lfl))
    found = _measures(case, of, volume, terms=terms)
    densities = (of.rcl, of.qlmv, of.qlav) if case.underground else (of.qlmv, of.qlav, None)
    best, counted = _with(terms, densities[0], (), volume=volume, cap=cap), 0
    for count in range(1, min(len(found) + 1, len(densities))):
        limit = _with(terms, densities[count], found[:count], volume=volume, cap=cap)
        if limit.value > best.value:
            best, counted = limit, count
    words = ", ".join(measure.name for measure in found[:counted])
    return best, f"measures counted: {words or 'none'}"


class Measure(NamedTuple):
    """A measure of C.3; `most` is the charge for which it is large enough, none where any."""

    name: str
    most: Given | None

    @property
    def most_kg(self) -> float:
        """The same as a number [kg]."""
        return inf if self.most is None else self.most.value


def _with(terms: Terms, density: Datum | None, measures: Sequence[Measure], *, volume: Given, cap: Given) -> Given:
    """The limit with so many measures: by density, by what each measure is large enough for, by the cap."""
    parts = [cap]
    if density is not None:
        name = density.quantity.upper()
        parts.append(terms.add(f"charge at {name}", f.held, terms.datum(name, density), volume))
    parts += [measure.most for measure in measures if measure.most is not None]
    return terms.add(f"allowed with {len(measures)} measures", f.least, *parts)


def _measures(case: Case, of: Fluid, volume: Given, *, terms: Terms) -> list[Measure]:
    """Measures of C.3 that the case has, those that are large enough for most first, the alarm last."""
    found = list(_ventilation(case, of, volume, terms=terms))
    released = of.rcl if case.underground else of.qlmv
    if case.releasable_kg is not None and not over(case.releasable_kg, released.value * volume.value):
        found.append(Measure("shut-off valves", None))
    found.sort(key=lambda measure: -measure.most_kg)
    if case.alarm and (found or not case.restricted):
        found.append(Measure("alarm", found[0].most if case.restricted else None))
    return sorted(found, key=lambda measure: -measure.most_kg)


def _ventilation(case: Case, of: Fluid, volume: Given, *, terms: Terms) -> Iterator[Measure]:
    """Natural or mechanical ventilation, which is one measure: by the one that is large enough for more."""
    by: list[Measure] = []
    if case.opening_m2 and case.opening_edge_m is not None and not over(case.opening_edge_m, LOW_EDGE_M):
        opening = stated("opening", case.opening_m2, Dimension.AREA, "opening_m2")
        qlmv = terms.datum("QLMV", of.qlmv)
        by.append(Measure("openings", terms.add("charge by opening", f.charge_by_opening, opening, qlmv, volume)))
    if case.exhaust_m3_s:
        exhaust = stated("exhaust", case.exhaust_m3_s, Dimension.FLOW, "exhaust_m3_s")
        rcl = terms.datum("RCL", of.rcl)
        if f.charge_by_exhaust(exhaust.value, rcl.value, volume.value) == inf:
            by.append(Measure("fan", None))
        else:
            by.append(Measure("fan", terms.add("charge by fan", f.charge_by_exhaust, exhaust, rcl, volume)))
    if by:
        yield max(by, key=lambda measure: measure.most_kg)
