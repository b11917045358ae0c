"""IEC 60335-2-40 annex GG: areas for what burns, with air kept moving, enhanced tightness, valves, openings.

From memory, as far as [IEC-2022] and [GG-QUOTED] do not repeat it: nothing passes here by itself. Refrigerants that do
not burn have no area rule in this annex, so that another profile has to judge them.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from linewright.model.safety import Mounting
from linewright.standards.refrigerants.blends import molar_mass
from linewright.standards.refrigerants.data import Basis, Datum, designation, published
from linewright.standards.safety import formulas as f
from linewright.standards.safety.case import Case, Given, Verdict
from linewright.standards.safety.terms import Terms, stated
from linewright.units import Dimension, over

TITLE = "IEC 60335-2-40"
RULES = {
    "data": "flammability limits as they are remembered",
    "area": "GG.2: charge by height and area, and the charge below which no room is asked for",
    "circulation": "circulation airflow: flow and half of the LFL",
    "tightness": "enhanced tightness: a quarter or a half of the LFL, measures counted",
    "releasable": "edition 7: the charge that safety shut-off valves leave to be released",
    "opening": "opening to the next room",
}
HEIGHTS = {Mounting.FLOOR: 0.6, Mounting.WINDOW: 1.0, Mounting.WALL: 1.8, Mounting.CEILING: 2.2}
NOT_FLAMMABLE = "a profile for a refrigerant that does not burn: annex GG has no area rule for it"
#: Edition 7 brought the releasable charge and the lower circulation.
NEW = "2022"


class Fluid(NamedTuple):
    """What this standard says of a refrigerant [kg/m3]; `lfl` only where it burns."""

    name: str
    group: str
    lfl: Datum | None


def fluid(name: str) -> Fluid | None:
    """Values of a refrigerant; none where they are lacking."""
    known = designation(Basis.IEC_60335, name)
    if known is None:
        return None
    row = published(Basis.IEC_60335)[known]
    return Fluid(known, row["class"].text, row.get("lfl"))


def needs(case: Case) -> Iterator[str]:
    """What has to be stated before anything can be judged."""
    if case.area_m2 is None:
        yield "area"


def judge(case: Case, of: Fluid, *, edition: str = NEW) -> Verdict:
    """Judge a case in which all is stated."""
    terms = Terms()
    if of.lfl is None:
        return Verdict(None, case.charge_kg, None, "annex GG", needs=(NOT_FLAMMABLE,))
    terms.rest_on("area")
    charge = case.charge_kg
    if case.releasable_kg is not None and edition == NEW:
        charge = min(charge, case.releasable_kg)
        terms.rest_on("releasable")
    lfl, weak = terms.datum("LFL", of.lfl), of.group == "A2L"
    free = terms.add("m1, charge without a check", f.free_charge_a2l if weak else f.free_charge_flammable, lfl)
    cap = terms.add("m2", f.most_charge_a2l if weak else f.most_charge_flammable, lfl)
    ways = [("GG.2, area", _still(case, of, lfl, terms=terms))]
    if case.circulation_m3_s:
        ways.append(("circulation airflow", _stirred(case, lfl, terms=terms, edition=edition)))
    best = terms.add("by room, no more than m2", f.least, cap, terms.add("by room", f.most, *(way for _, way in ways)))
    clause = max(ways, key=lambda way: way[1].value)[0]
    if weak and case.tight:
        tight = _tight(case, lfl, terms=terms, edition=edition)
        clause = "enhanced tightness" if tight.value > best.value else clause
        best = terms.add("by room or tightness", f.most, best, tight)
    clause = "m1, charge without a check" if free.value > best.value else clause
    bound = terms.add("allowed", f.most, free, best)
    passes = not over(charge, bound.value)
    return Verdict(passes, charge, bound.value, f"annex GG, {clause}", "", tuple(terms.unsure), (), tuple(terms.terms))


def _still(case: Case, of: Fluid, lfl: Given, *, terms: Terms) -> Given:
    """GG.2; over several rooms only as far as the opening between them is large enough."""
    height = stated("h0", HEIGHTS[case.mounting or Mounting.FLOOR], Dimension.LENGTH, "mounting")
    area = stated("area", case.area_m2 or 0.0, Dimension.AREA, "area_m2")
    joined = terms.add("charge by height and area", f.unstirred_charge, lfl, height, area)
    if case.join_m2 is None:
        return joined
    terms.rest_on("opening")
    own = stated("area of the room", case.own_area_m2 or 0.0, Dimension.AREA, "own_area_m2")
    alone = terms.add("charge of the room alone", f.unstirred_charge, lfl, height, own)
    opening = stated("opening between the rooms", case.join_m2, Dimension.AREA, "join_m2")
    mass = stated("molar mass", molar_mass(of.name), Dimension.NUMBER, "molar_mass")
    through = terms.add("charge by the opening", f.charge_by_join, opening, lfl, own, alone, mass)
    return terms.add("charge of the rooms together", f.least, joined, through)


def _stirred(case: Case, lfl: Given, *, terms: Terms, edition: str) -> Given:
    terms.rest_on("circulation")
    stirred = terms.add("charge at half of the LFL", f.half_of_lfl, lfl, _mixed(case, terms))
    return terms.add("with circulation", f.least, stirred, _carried(case, lfl, terms=terms, edition=edition))


def _mixed(case: Case, terms: Terms) -> Given:
    """Volume up to 2.2 m: of the room alone where others are joined by openings, of all that a duct serves."""
    alone = case.join_m2 is not None
    name, area_m2 = ("own_area_m2", case.own_area_m2) if alone else ("area_m2", case.area_m2)
    area = stated("area that counts", area_m2 or 0.0, Dimension.AREA, name)
    return terms.add("volume up to 2.2 m", f.mixed_volume, area, dimension=Dimension.VOLUME)


def _carried(case: Case, lfl: Given, *, terms: Terms, edition: str) -> Given:
    flow = stated("circulation", case.circulation_m3_s, Dimension.FLOW, "circulation_m3_s")
    by_flow = f.charge_by_circulation if edition == NEW else f.charge_by_circulation_2018
    return terms.add("charge by circulation", by_flow, flow, lfl)


def _tight(case: Case, lfl: Given, *, terms: Terms, edition: str) -> Given:
    """Enhanced tightness: a quarter of LFL, a half with one measure, m3 with two.

    Measures are shut-off valves, an alarm, and a circulation as far as it is large enough.
    """
    terms.rest_on("tightness")
    cap = terms.add("m3", f.most_tight_charge_a2l, lfl)
    count = (case.releasable_kg is not None) + case.alarm
    best = _with(case, lfl, cap, terms=terms, count=count)
    if case.circulation_m3_s:
        terms.rest_on("circulation")
        more = _with(case, lfl, cap, terms=terms, count=count + 1)
        carried = _carried(case, lfl, terms=terms, edition=edition)
        best = terms.add("by tightness", f.most, best, terms.add("as far as circulated", f.least, more, carried))
    return best


def _with(case: Case, lfl: Given, cap: Given, *, terms: Terms, count: int) -> Given:
    if count > 1:
        return cap
    part = f.half_of_lfl if count else f.quarter_of_lfl
    by_share = terms.add("share of the LFL", part, lfl, _mixed(case, terms))
    return terms.add(f"with {count} measures", f.least, cap, by_share)
