"""How pipe moves between anchors at the ends of each run, what takes that up, and its supports."""

from __future__ import annotations

from linewright.engine.formulas import smallest, stated
from linewright.engine.formulas_pipework import SPACINGS
from linewright.engine.pipework_insulation import line_temperature
from linewright.engine.pipework_job import Job, by_default
from linewright.engine.pipework_records import Line, MoveResult
from linewright.engine.records import Check, Standing
from linewright.model.values import Role
from linewright.standards.pipework import formulas as known
from linewright.standards.pipework.data import spacing_of
from linewright.standards.pipework.terms import Given, Terms
from linewright.units import Dimension

D = Dimension
MOVEMENT = "movement"
#: A run that rises more than this share of its length is a riser.
_MOSTLY = 0.5


def moves(job: Job, line: Line) -> MoveResult:
    """Movement and supports of one tube of one run; a loop on it divides it."""
    terms = Terms()
    subject = f"{job.ground.system.id}/{MOVEMENT}:{line.run}.{line.role}"
    missing = []
    if line.length_m is None:
        missing.append(f"length of run {line.run}")
    if line.od_m is None:
        missing.append(f"{line.role} size of run {line.run}")
    blank = MoveResult(subject, line.run, line.role, line.od_m, None, None, None, None, None, (), tuple(missing), ())
    if line.length_m is None or line.od_m is None:
        return blank
    length = Given("length", line.length_m, D.LENGTH, line.length_from)
    od = Given("outside diameter", line.od_m, D.TUBE, line.od_from)
    found = blank
    try:
        found = _moved(job, terms, line, ends=(length, od), found=found)
    except known.BeyondError as error:
        found = found._replace(missing=(str(error),))
    found = _supported(job, terms, line, ends=(length, od), found=found)
    return found._replace(terms=tuple(terms.terms))


def _moved(job: Job, terms: Terms, line: Line, *, ends: tuple[Given, Given], found: MoveResult) -> MoveResult:
    """Expansion from the coldest to the hottest, and the offset that takes it up."""
    length, od = ends
    loops = Given("loops on the run", float(line.loops), D.NUMBER, line.length_from.rpartition(".")[0])
    free = terms.add("between anchors", known.between_anchors, length, loops, dimension=D.LENGTH)
    hot, cold = _hottest(job, terms, line.role), _coldest(job, terms, line)
    grown = terms.add("expansion", known.expansion, free, hot, cold, dimension=D.TUBE)
    offset = terms.add("offset or loop", known.offset_length, od, grown, dimension=D.LENGTH)
    ring = terms.add("radius of a ring", known.coil_radius, offset, dimension=D.LENGTH)
    return found._replace(expansion_m=grown.number, offset_m=offset.number, radius_m=ring.number)


def _hottest(job: Job, terms: Terms, role: Role) -> Given:
    field = "hottest_liquid_degc" if role is Role.LIQUID else "hottest_gas_degc"
    return job.given(terms, field, D.TEMPERATURE)


def _coldest(job: Job, terms: Terms, line: Line) -> Given:
    """The cold line, or the winter where it is not said to lie indoors."""
    cold, heating = line_temperature(job, terms, line.role), job.design.site.heating
    if line.place == "indoors" or heating is None:
        return cold
    field, t = ("outdoor_wb", heating.outdoor_wb_degc)
    if heating.outdoor_db_degc is not None:
        field, t = "outdoor_db", heating.outdoor_db_degc
    winter = Given("outdoor air of heating", t, D.TEMPERATURE, f"design:site.heating.{field}")
    return terms.add("coldest", smallest, cold, winter, dimension=D.TEMPERATURE)


def _supported(job: Job, terms: Terms, line: Line, *, ends: tuple[Given, Given], found: MoveResult) -> MoveResult:
    """Spacing and count of supports: of a riser each floor, else stated, else by the table."""
    length, od = ends
    doubts: tuple[str, ...] = ()
    if line.rise_m is not None and abs(line.rise_m) > _MOSTLY * length.number:
        spacing = by_default(terms, "spacing of a riser", "riser_spacing", D.LENGTH)
    elif job.stated.support_spacing_m is not None:
        item = Given("spacing", job.stated.support_spacing_m, D.LENGTH, "design:pipework.support_spacing")
        spacing = terms.add("spacing", stated, item, dimension=D.LENGTH)
    else:
        table = job.stated.supports
        listed = spacing_of(table, od.number)
        if listed is None:
            return found._replace(missing=(*found.missing, f"spacing of {od.number * 1000:g} mm tube by {table}"))
        if not listed.confidence.is_sure:
            doubts = (table.value,)
        spacing = terms.add("spacing", SPACINGS[table], od, dimension=D.LENGTH)
    bends = Given("bends", float(line.bends), D.NUMBER, line.length_from.rpartition(".")[0])
    count = terms.add("supports", known.support_count, length, spacing, bends, dimension=D.NUMBER)
    return found._replace(spacing_m=spacing.number, supports=int(count.number), doubts=doubts)


def movement_check(job: Job, found: tuple[MoveResult, ...]) -> Check:
    """Whether what takes up the movement is stated as provided."""
    check = job.check(MOVEMENT, MOVEMENT, D.TUBE)
    known_ = [one for one in found if one.expansion_m is not None]
    missing = tuple(dict.fromkeys(name for one in found if one.expansion_m is None for name in one.missing))
    if not known_:
        return check._replace(missing=missing)
    most = max(known_, key=lambda one: one.expansion_m or 0.0)
    check = check._replace(value=most.expansion_m, governs=(most.run,), missing=missing)
    if missing:
        return check
    if job.stated.movement:
        return check._replace(standing=Standing.ON_CONDITIONS, note="offsets, loops and anchors stated as provided")
    note = "offsets, loops and anchors as listed; then state movement: yes"
    return check._replace(standing=Standing.TO_CONFIRM, note=note)
