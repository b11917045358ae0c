"""Insulation of tubes that are alike: dry on its surface, by the book, by the energy code; the heat that it lets in."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from linewright.engine.formulas import difference, largest
from linewright.engine.formulas_pipework import DEFAULTS
from linewright.engine.pipework_job import Job, by_default, size_text
from linewright.engine.pipework_records import InsulationResult, Line
from linewright.engine.records import Check, Standing
from linewright.model.values import Role, key_of
from linewright.standards.pipework import formulas as known
from linewright.standards.pipework.terms import Given, Terms
from linewright.units import Dimension, same_tube

D = Dimension
#: Tubes that carry cold gas in one mode or another; `high` never does, and a liquid line as cold as its liquid.
COLD = (Role.GAS, Role.SUCTION, Role.LOW, Role.HIGH_LOW)


BARRIER = "vapour-barrier"


class _Wrapped(NamedTuple):
    """The line with its insulation: what is the same in any air."""

    od: Given
    line: Given
    k: Given
    h: Given


class _Dry(NamedTuple):
    """What one air asks for."""

    air: Given
    dew: Given
    thickness: Given


def insulation(job: Job, lines: tuple[Line, ...]) -> InsulationResult:
    """Work out the insulation of lines that are alike."""
    first, terms = lines[0], Terms()
    od_m = first.od_m or 0.0
    subject = f"insulation:{first.role}_{size_text(od_m)}_{first.place}"
    wrapped = _Wrapped(
        Given("outside diameter", od_m, D.TUBE, first.od_from),
        line_temperature(job, terms, first.role),
        _stated(job, terms, "conductivity", D.CONDUCTIVITY),
        job.given(terms, "surface", D.SURFACE),
    )
    blank = InsulationResult(
        check=job.check(subject, "insulation", D.TUBE),
        role=first.role,
        od_m=od_m,
        place=first.place,
        dew_degc=None,
        line_degc=wrapped.line.number,
        dry_m=None,
        book_m=None,
        code_m=None,
        order_m=None,
        heat_w_m=None,
        runs=tuple(dict.fromkeys(line.run for line in lines)),
        terms=(),
    )
    try:
        found = _found(job, terms, wrapped, blank=blank)
    except known.BeyondError as error:
        found = blank._replace(check=blank.check._replace(missing=(str(error),)))
    return found._replace(terms=tuple(terms.terms))


def _found(job: Job, terms: Terms, wrapped: _Wrapped, *, blank: InsulationResult) -> InsulationResult:
    places = ("outdoor_air", "indoor_air") if blank.place == "either" else (f"{blank.place[:-1]}_air",)
    dries = [_dry(job, terms, wrapped, place=place) for place in places]
    worst = max(dries, key=lambda dry: dry.thickness.number)
    book, code = _of_book(job, wrapped), _of_code(job, terms, wrapped, role=blank.role)
    counted = [dry.thickness for dry in dries] + ([book] if book is not None else [])
    counted += [code] if job.stated.code_minimum and code is not None else []
    needed = terms.add("needed", largest, *counted, dimension=D.TUBE)
    found = blank._replace(
        dew_degc=worst.dew.number,
        dry_m=worst.thickness.number,
        book_m=None if book is None else book.number,
        code_m=None if code is None else code.number,
    )
    if not needed.number:
        check = _stands(terms, blank.check._replace(value=0.0), "nothing asks for insulation of it")
        return found._replace(check=check, order_m=0.0)
    stock = _stock(job, terms)
    most = max(item.number for item in stock)
    check = blank.check._replace(value=needed.number, bound=most, margin=most - needed.number)
    try:
        order = terms.add("thickness to order", known.stocked, needed, *stock, dimension=D.TUBE)
    except known.BeyondError:
        return found._replace(check=check._replace(standing=Standing.OVER))
    taken = terms.add("warmer around", difference, worst.air, wrapped.line, dimension=D.TEMPERATURE_DIFFERENCE)
    heat = terms.add(
        "heat gain of each metre",
        known.heat_gain,
        wrapped.k,
        wrapped.h,
        wrapped.od,
        order,
        taken,
        dimension=D.LINEAR_POWER,
    )
    return found._replace(check=_stands(terms, check, ""), order_m=order.number, heat_w_m=heat.number)


def _stands(terms: Terms, check: Check, note: str) -> Check:
    """Within on what is stated; to confirm where defaults stand in for that."""
    words = [note] if note else []
    if terms.unsure:
        words.append(f"rests on defaults: {', '.join(terms.unsure)}")
    standing = Standing.TO_CONFIRM if terms.unsure else Standing.WITHIN
    return check._replace(standing=standing, note="; ".join(words))


def line_temperature(job: Job, terms: Terms, role: Role) -> Given:
    """How cold a line may be: gas at its coldest, liquid less the subcooling that the book states."""
    if role in COLD:
        return _stated(job, terms, "gas_line_degc", D.TEMPERATURE)
    if role is Role.HIGH:
        return job.given(terms, "hottest_gas_degc", D.TEMPERATURE)
    operation = job.ground.book.book.operation
    leaving = None if operation is None else operation.leaving_subcooling_k
    if job.stated.liquid_line_degc is None and leaving is not None:
        hot = by_default(terms, "condensing", "hottest_liquid", D.TEMPERATURE)
        terms.rest_on("condensing")
        less = Given("leaving subcooling", leaving, D.TEMPERATURE_DIFFERENCE, "book:operation.leaving_subcooling")
        return terms.add("liquid line", difference, hot, less, dimension=D.TEMPERATURE)
    return _stated(job, terms, "liquid_line_degc", D.TEMPERATURE)


def _stated(job: Job, terms: Terms, field: str, dimension: Dimension) -> Given:
    """Give what the design states; a default stands in for it, and then the verdict rests on that."""
    if getattr(job.stated, field) is None:
        terms.rest_on(key_of(field).replace("_", " "))
    return job.given(terms, field, dimension)


def _dry(job: Job, terms: Terms, wrapped: _Wrapped, *, place: str) -> _Dry:
    """Thickness that keeps the surface at the dew point of one air."""
    word = "outdoors" if place == "outdoor_air" else "indoors"
    t, humidity = _air(job, terms, place=place)
    dew = terms.add(f"dew point {word}", known.dew_point, t, humidity, dimension=D.TEMPERATURE)
    flat = terms.add(f"flat {word}", known.flat_thickness, wrapped.k, wrapped.h, wrapped.line, dew, t, dimension=D.TUBE)
    around = terms.add(f"around the tube {word}", known.round_thickness, flat, wrapped.od, dimension=D.TUBE)
    return _Dry(t, dew, around)


def _air(job: Job, terms: Terms, *, place: str) -> tuple[Given, Given]:
    """Temperature and humidity: as stated; indoors as outdoors where nothing is; else the defaults."""
    named = place if getattr(job.stated, place) is not None else "outdoor_air"
    if named != place:
        terms.rest_on("indoor air as outdoors")
    air = getattr(job.stated, named)
    word = named.replace("_", " ")
    items = []
    for field, key, dimension in (
        ("temperature_degc", "temperature", D.TEMPERATURE),
        ("humidity", "humidity", D.RATIO),
    ):
        value = None if air is None else getattr(air, field)
        if value is not None:
            items.append(Given(f"{key} of {word}", value, dimension, f"design:pipework.{named}.{key}"))
        else:
            items.append(by_default(terms, f"{key} of {word}", f"outdoor_{key}", dimension))
            terms.rest_on(f"{key} of {word}")
    return items[0], items[1]


def _of_book(job: Job, wrapped: _Wrapped) -> Given | None:
    """Least insulation that the book states for a size."""
    pressures = job.ground.book.book.pressures
    if pressures is None:
        return None
    found = next((m for size, m in pressures.insulation_m.items() if same_tube(size, wrapped.od.number)), None)
    return None if found is None else Given("least by the book", found, D.TUBE, "book:pressures.insulation")


def _of_code(job: Job, terms: Terms, wrapped: _Wrapped, *, role: Role) -> Given | None:
    """Least insulation by the energy code; beyond its table none, where it is only told and does not count."""
    try:
        return _by_energy_code(job, terms, wrapped, role=role)
    except known.BeyondError:
        if job.stated.code_minimum:
            raise
        return None


def _by_energy_code(job: Job, terms: Terms, wrapped: _Wrapped, *, role: Role) -> Given:
    """Of the cold line, and of a gas line when its gas is hot."""
    cold = terms.add("energy code, cold", known.code_minimum, wrapped.line, wrapped.od, wrapped.k, dimension=D.TUBE)
    if role not in COLD:
        return cold
    hottest = job.given(terms, "hottest_gas_degc", D.TEMPERATURE)
    hot = terms.add("energy code, hot", known.code_minimum, hottest, wrapped.od, wrapped.k, dimension=D.TUBE)
    return terms.add("energy code", largest, cold, hot, dimension=D.TUBE)


def barrier_check(job: Job, found: tuple[InsulationResult, ...]) -> Iterator[Check]:
    """Whether the vapour barrier over cold lines is stated as provided; none where no line is below its dew point."""
    cold = [item for item in found if item.dry_m is None or item.dry_m > 0.0]
    if not cold:
        return
    runs = tuple(dict.fromkeys(run for item in cold for run in item.runs))
    check = job.check(BARRIER, "vapour_barrier", D.NUMBER)._replace(governs=runs)
    if job.stated.vapour_barrier:
        yield check._replace(standing=Standing.ON_CONDITIONS, note="a barrier without a break is stated as provided")
        return
    note = "0.05 perm or less, sealed at seams, ends and supports; then state vapour_barrier: yes"
    yield check._replace(standing=Standing.TO_CONFIRM, note=note)


def _stock(job: Job, terms: Terms) -> list[Given]:
    if job.stated.stock_m:
        return [
            Given("in stock", thickness, D.TUBE, f"design:pipework.stock[{i}]")
            for i, thickness in enumerate(job.stated.stock_m)
        ]
    terms.rest_on("stock")
    return [by_default(terms, "in stock", key, D.TUBE) for key in DEFAULTS if key.startswith("stock_")]
