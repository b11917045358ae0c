"""Whether tube holds the design pressure on the basis that the design states, and which tube to order."""

from __future__ import annotations

from typing import NamedTuple

from linewright.book.walls import wall_of
from linewright.engine.formulas import difference, stated, total
from linewright.engine.formulas_pipework import STRESSES
from linewright.engine.pipework_job import Job, is_sure, size_text
from linewright.engine.pipework_records import DesignPressure, Line, Order, TubeStrength
from linewright.engine.records import Check, Standing
from linewright.model.pipework import Basis, StrengthCode, TubeForm
from linewright.standards.pipework import formulas as known
from linewright.standards.pipework.data import sold_walls, standard_tube, stresses
from linewright.standards.pipework.terms import Given, Terms
from linewright.standards.tube import StandardTube
from linewright.units import Dimension, over, same_tube

D = Dimension
TEMPERS = {
    "annealed": ("annealed", "soft", "o", "r220"),
    "half-hard": ("half-hard", "half hard", "1/2h", "r250"),
    "drawn": ("drawn", "hard", "hard drawn", "h", "r290"),
}
DESIGN_PRESSURE = "design-pressure"
NO_BASIS = "the basis on which tube is rated (pipework.basis)"


class _Rated(NamedTuple):
    """What a tube may hold, with the wall that would be enough and what could not be worked out."""

    allowed: Given | None
    needed: Given | None = None
    missing: str = ""


class _Tube(NamedTuple):
    """One size of tube; `wall` and `temper` are none where nobody states them."""

    od: Given
    wall: Given | None
    temper: str
    unknown_temper: str


def strength(job: Job, pressure: DesignPressure, lines: tuple[Line, ...]) -> TubeStrength:
    """Judge one size of tube. On which basis is never assumed: without one every basis is shown and none judged."""
    terms, od_m = Terms(), min(line.od_m for line in lines if line.od_m is not None)
    first = next(line for line in lines if line.od_m == od_m)
    tube = _tube(job, terms, Given("outside diameter", od_m, D.TUBE, first.od_from))
    shown = (job.stated.basis,) if job.stated.basis is not None else (Basis.ANNEALED, Basis.DRAWN)
    rated = {basis: _rated(job, terms, pressure, tube=tube, basis=basis) for basis in shown}
    found = rated[shown[0]]
    return TubeStrength(
        _check(job, pressure, tube, rated=found, terms=terms),
        od_m,
        None if tube.wall is None else tube.wall.number,
        tube.temper,
        {basis.value: one.allowed.number for basis, one in rated.items() if one.allowed is not None},
        found.needed.number if found.needed is not None and job.stated.basis is not None else None,
        _order(job, pressure, tube, found),
        tuple(dict.fromkeys(line.run for line in lines)),
        tuple(terms.terms),
    )


def _tube(job: Job, terms: Terms, od: Given) -> _Tube:
    """Wall and temper: those of the book, else of the form of ASTM B280 that the design names."""
    book, form = job.ground.book.book, job.stated.tube
    wall_m = wall_of(book, od.number)
    wall = None if wall_m is None else Given("wall", wall_m, D.TUBE, "book:tubes.wall")
    if wall is None and form is not None:
        named = Given("form of the tube", form.value, D.NUMBER, "design:pipework.tube")
        try:
            wall = terms.add("wall", known.b280_wall, named, od, dimension=D.TUBE)
        except known.BeyondError:
            wall = None
    said = next((temper for size, temper in book.tubes.temper.items() if same_tube(size, od.number)), "")
    if not said and form is not None:
        said = "drawn" if form is TubeForm.STRAIGHT else "annealed"
    temper = next((name for name, words in TEMPERS.items() if said.lower() in words), "")
    return _Tube(od, wall, temper, "" if temper else said)


def _rated(job: Job, terms: Terms, pressure: DesignPressure, *, tube: _Tube, basis: Basis) -> _Rated:
    """What one size may hold on one basis."""
    if basis is Basis.LISTED:
        return _listed(job, terms)
    size = f"{size_text(tube.od.number)} mm tube"
    temper = "annealed" if basis is Basis.ANNEALED else tube.temper
    if tube.wall is None:
        return _Rated(None, missing=f"wall of {size}")
    if not temper:
        unknown = f": {tube.unknown_temper!r} is not known" if tube.unknown_temper else ""
        return _Rated(None, missing=f"temper of {size}{unknown}")
    try:
        return _formula(job, terms, pressure, tube=tube, rated=_AsRated(basis, temper, tube.wall))
    except known.BeyondError as error:
        return _Rated(None, missing=f"{error}, for {size}")


def _listed(job: Job, terms: Terms) -> _Rated:
    """What the tube was tested to, else the nameplate where the book lists the tube."""
    pressures = job.ground.book.book.pressures
    if job.stated.listed_pa is not None:
        item = Given("listed pressure", job.stated.listed_pa, D.PRESSURE, "design:pipework.listed")
    elif pressures is not None and pressures.tube_listing and pressures.high_pa is not None:
        item = Given("nameplate of what lists the tube", pressures.high_pa, D.PRESSURE, "book:pressures.high")
    else:
        return _Rated(None, missing="pressure to which the tube is listed or tested (pipework.listed)")
    return _Rated(terms.add("allowed, listed", stated, item, dimension=D.PRESSURE))


class _AsRated(NamedTuple):
    """On which basis a tube is rated, as what temper, with what wall."""

    basis: Basis
    temper: str
    wall: Given


def _formula(job: Job, terms: Terms, pressure: DesignPressure, *, tube: _Tube, rated: _AsRated) -> _Rated:
    """What the code's formula allows, and the wall that it asks for."""
    code, wall, od = job.stated.code, rated.wall, tube.od
    stress = _stress(job, terms, rated.temper)
    if code is StrengthCode.ASME:
        wall, od = _thinnest(job, terms, tube, wall=wall)
    by = known.en_pressure if code is StrengthCode.EN else known.b31_5_pressure
    allowed = terms.add(f"allowed, {rated.basis}", by, stress, wall, od, dimension=D.PRESSURE)
    if pressure.pressure_pa is None:
        return _Rated(allowed)
    wanted = Given("design pressure", pressure.pressure_pa, D.PRESSURE, f"subject:{DESIGN_PRESSURE}")
    inverse = known.en_wall if code is StrengthCode.EN else known.b31_5_wall
    return _Rated(
        allowed, terms.add(f"least wall needed, {rated.basis}", inverse, wanted, stress, od, dimension=D.TUBE)
    )


def _stress(job: Job, terms: Terms, temper: str) -> Given:
    """Allowable stress that the design states, else that of the code's table."""
    if job.stated.stress_pa is not None:
        return Given("stress", job.stated.stress_pa, D.PRESSURE, "design:pipework.stress")
    code = job.stated.code
    if (code, temper) not in STRESSES:
        raise known.BeyondError(f"allowable stress of {temper} copper by {code} (pipework.stress)")
    at = "tube_temperature_asme" if code is StrengthCode.ASME else "tube_temperature"
    t = job.given(terms, "tube_temperature_degc", D.TEMPERATURE, default=at)
    if not stresses()[code, temper].confidence.is_sure:
        terms.rest_on(f"the stress by {code}")
    return terms.add(f"stress, {temper}", STRESSES[code, temper], t, dimension=D.PRESSURE)


def _thinnest(job: Job, terms: Terms, tube: _Tube, *, wall: Given) -> tuple[Given, Given]:
    """Least wall and largest diameter that the tolerances allow: stated, of ASTM B280, or the default."""
    listed = standard_tube(tube.od.number, wall.number, tube.temper)
    if job.stated.wall_tolerance is None and listed is not None:
        return _by_standard(terms, tube.od, wall, listed=listed)
    share = job.given(terms, "wall_tolerance", D.RATIO)
    if job.stated.wall_tolerance is None and not is_sure("wall_tolerance"):
        terms.rest_on("the tolerance on the wall")
    return terms.add("least wall", known.least_wall, wall, share, dimension=D.TUBE), tube.od


def _by_standard(terms: Terms, od: Given, wall: Given, *, listed: StandardTube) -> tuple[Given, Given]:
    """The same by the tolerances of ASTM B280: those of straight tube are read, those of coils remembered."""
    straight = listed.wall_tolerance
    if straight is None:
        less = terms.add("tolerance on the wall", known.coil_wall_tolerance, od, dimension=D.LENGTH)
        plus = terms.add("tolerance on the diameter", known.coil_od_tolerance, od, dimension=D.LENGTH)
    else:
        less = terms.add("tolerance on the wall", known.b280_wall_tolerance, od, wall, dimension=D.LENGTH)
        plus = terms.add("tolerance on the diameter", known.b280_od_tolerance, od, wall, dimension=D.LENGTH)
    if straight is None or not straight.confidence.is_sure:
        terms.rest_on("the tolerance on the wall")
    least = terms.add("least wall", difference, wall, less, dimension=D.TUBE)
    return least, terms.add("largest diameter", total, od, plus, dimension=D.TUBE)


def _order(job: Job, pressure: DesignPressure, tube: _Tube, found: _Rated) -> Order | None:
    """The tube itself where it is enough, else the thinnest wall that is sold and is."""
    basis, wanted = job.stated.basis, pressure.pressure_pa
    if basis is None or wanted is None:
        return None
    if found.allowed is not None and not over(wanted, found.allowed.number) and tube.wall is not None:
        return Order(tube.wall.number, tube.temper, "as it is")
    if basis is Basis.LISTED:
        return None
    enough = []
    for sold in sold_walls():
        if not same_tube(sold.od_m, tube.od.number):
            continue
        other = tube._replace(wall=Given("wall", sold.wall_m, D.TUBE, "own"), temper=sold.temper, unknown_temper="")
        rated = _rated(job, Terms(), pressure, tube=other, basis=basis)
        if rated.allowed is not None and not over(wanted, rated.allowed.number):
            enough.append(Order(sold.wall_m, sold.temper, f"{sold.source}; {sold.confidence}"))
    return min(enough, key=lambda order: order.wall_m, default=None)


def _check(job: Job, pressure: DesignPressure, tube: _Tube, *, rated: _Rated, terms: Terms) -> Check:
    """What a size stands at: unjudged without a basis, a pressure or a figure; to confirm on what is remembered."""
    basis, wanted = job.stated.basis, pressure.pressure_pa
    pressures = job.ground.book.book.pressures
    listing = pressures.tube_listing if pressures is not None else ""
    check = job.check(f"strength:{size_text(tube.od.number)}", "strength", D.PRESSURE)
    check = check._replace(value=wanted, note=f"the book lists: {listing}" if listing else "")
    if basis is None:
        return check._replace(missing=(NO_BASIS,))
    missing = tuple(filter(None, (pressure.missing, rated.missing)))
    if wanted is None or rated.allowed is None:
        return check._replace(missing=missing)
    allowed = rated.allowed.number
    doubts = (*pressure.doubts, *terms.unsure)
    standing = Standing.WITHIN
    if over(wanted, allowed):
        standing = Standing.OVER
    elif doubts:
        standing = Standing.TO_CONFIRM
    elif basis is Basis.LISTED:
        standing = Standing.ON_CONDITIONS
    words = [f"{job.stated.code}, {basis}" if basis is not Basis.LISTED else "as listed or tested"]
    words += [f"rests on memory: {', '.join(doubts)}"] if doubts else []
    words += [check.note] if check.note else []
    return check._replace(standing=standing, bound=allowed, margin=allowed - wanted, note="; ".join(words))
