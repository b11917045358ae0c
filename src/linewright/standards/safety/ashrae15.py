"""ASHRAE 15 with 34: dispersal volume and charge limit of a space, and the rule for class A2L for human comfort.

The form of the check is from memory, and so is much of ASHRAE 34: nothing passes here by itself. Read were a summary of
the addendum that brought it [ASHRAE15-G] and older limits [IMC-1103].
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from linewright.model.safety import Mounting, Occupancy
from linewright.standards.refrigerants.data import Basis, Datum, designation, published
from linewright.standards.safety import formulas as f
from linewright.standards.safety.case import Case, Given, Verdict
from linewright.standards.safety.terms import Terms, stated
from linewright.units import Dimension, over

TITLE = "ANSI/ASHRAE 15"
RULES = {
    "data": "values of ASHRAE 34 that are remembered or disputed",
    "edvc": "7.2 and 7.3: RCL x effective dispersal volume x 0.5 where institutional",
    "a2l": "7.6: class A2L for human comfort",
    "releasable": "7.3: the charge that shut-off valves leave to be released",
}
HEIGHTS = {Mounting.FLOOR: 0.6, Mounting.WINDOW: 1.0, Mounting.WALL: 1.8, Mounting.CEILING: 2.2}
NO_RULE = "a rule of the standard for class {} in rooms: none is worked out here"


class Fluid(NamedTuple):
    """What ASHRAE 34 says of a refrigerant [kg/m3]; `lfl` only where it burns."""

    name: str
    group: str
    rcl: Datum
    lfl: Datum | None


def fluid(name: str) -> Fluid | None:
    """Values of a refrigerant; none where they are lacking."""
    known = designation(Basis.ASHRAE_34, name)
    if known is None:
        return None
    row = published(Basis.ASHRAE_34)[known]
    return Fluid(known, row["class"].text, row["rcl"], row.get("lfl"))


def needs(case: Case) -> Iterator[str]:
    """What has to be stated before anything can be judged."""
    if case.area_m2 is None:
        yield "area"
    if case.volume_m3 is None:
        yield "height"
    if case.occupancy is None:
        yield "occupancy"


def judge(case: Case, of: Fluid) -> Verdict:
    """Judge a case in which all is stated."""
    terms = Terms()
    terms.rest_on("edvc")
    charge = case.charge_kg
    if case.releasable_kg is not None:
        charge = min(charge, case.releasable_kg)
        terms.rest_on("releasable")
    institutional = stated(
        "institutional", float(case.occupancy is Occupancy.INSTITUTIONAL), Dimension.NUMBER, "occupancy"
    )
    factor = terms.add("occupancy factor", f.occupancy_factor, institutional, dimension=Dimension.NUMBER)
    volume = stated("volume", case.volume_m3 or 0.0, Dimension.VOLUME, "volume_m3")
    dispersal = terms.add("EDVC", f.edvc, terms.datum("RCL", of.rcl), volume, factor)
    if of.lfl is None:
        bound, clause, note = dispersal, "7.3, EDVC", ""
    elif of.group == "A2L":
        bound, clause, note = _a2l(case, of.lfl, dispersal, factor, terms=terms)
    else:
        return Verdict(None, charge, None, "7", needs=(NO_RULE.format(of.group),), terms=tuple(terms.terms))
    passes = not over(charge, bound.value)
    return Verdict(passes, charge, bound.value, clause, note, tuple(terms.unsure), (), tuple(terms.terms))


def _a2l(case: Case, lfl: Datum, dispersal: Given, factor: Given, *, terms: Terms) -> tuple[Given, str, str]:
    """The rule of 7.6: no check up to m1; half of LFL where air is kept moving; else the lower of EDVC and GG.2."""
    terms.rest_on("a2l")
    known = terms.datum("LFL", lfl)
    free = terms.add("charge without a check", f.free_charge_a2l, known)
    still = f.unstirred_charge
    height = stated("h0", HEIGHTS[case.mounting or Mounting.FLOOR], Dimension.LENGTH, "mounting")
    area = stated("area", case.area_m2 or 0.0, Dimension.AREA, "area_m2")
    unstirred = terms.add("charge by height and area", still, known, height, area)
    by_use = terms.add("the same by occupancy", f.by_occupancy, unstirred, factor)
    bound = terms.add("without circulation", f.least, dispersal, by_use)
    note, clause = "a circulation of air started by a detector may allow more", "7.6, without circulation"
    if case.circulation_m3_s:
        low = stated("volume up to 2.2 m", case.low_volume_m3 or 0.0, Dimension.VOLUME, "low_volume_m3")
        stirred = terms.add("charge at half of the LFL", f.stirred_charge, known, low, factor)
        flow = stated("circulation", case.circulation_m3_s, Dimension.FLOW, "circulation_m3_s")
        carried = terms.add("charge by circulation", f.charge_by_circulation, flow, known)
        capped = terms.add("with circulation", f.least, stirred, carried)
        if capped.value > bound.value:
            note, clause = "with circulation of air, started by a detector", "7.6, with circulation"
        bound = terms.add("with or without circulation", f.most, bound, capped)
    if over(case.charge_kg, free.value):
        note += "; above m1 a detector is asked for where ducted, residential or institutional"
    if free.value > bound.value:
        clause = "7.6, charge without a check"
    return terms.add("allowed", f.most, free, bound), clause, note
