"""The additional charge: every term that the book has, then floor, rounding and total."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import chain

from linewright.book.roles import line_rates
from linewright.book.schema import CoveredFrom, RoundAt
from linewright.engine.boxes import Box
from linewright.engine.figures import ChargeResult, ChargeTerm
from linewright.engine.formulas import charge_before_rounding, line_charge
from linewright.engine.frame import MOST_KNOWN, Frame
from linewright.engine.ground import Ground
from linewright.engine.sizing import Sized
from linewright.engine.still import Still
from linewright.engine.tubes import lengths_by_size, main_lengths, missing_lengths
from linewright.model.same import Same
from linewright.model.values import Role
from linewright.units import from_unit, round_half_up, same_tube, to_unit


def find_charge(ground: Ground, sized: Sized, free: Iterable[ChargeTerm] = ()) -> ChargeResult:
    """Sum the terms of the additional charge; one that cannot be computed leaves the sum unknown."""
    charge = ground.book.book.charge
    terms = tuple(_rounded_terms(ground, chain(_terms(ground, sized), free)))
    missing = tuple(term.missing for term in terms if term.missing)
    total = None if missing else sum((term.kg for term in terms if term.kg is not None), 0.0)
    multiplier = charge.multiplier
    unrounded = rounded = None
    if total is not None:
        floor = () if charge.min_kg is None else (charge.min_kg,)
        unrounded = charge_before_rounding(total, 1.0 if multiplier is None else multiplier, *floor)
        at_total = charge.round is not None and charge.round.at is RoundAt.TOTAL
        rounded = round_charge(ground, unrounded) if at_total else unrounded
    return ChargeResult(
        factory_kg=ground.factory_kg,
        terms=terms,
        sum_kg=total,
        multiplier=multiplier,
        unrounded_kg=unrounded,
        rounded_kg=rounded,
        total_kg=None if rounded is None else ground.factory_kg + rounded,
        missing=missing,
    )


def round_charge(ground: Ground, kg: float) -> float:
    """Round in the book's own unit and step [kg]."""
    rounding, step = ground.book.book.charge.round, ground.book.round_step
    if rounding is None or step is None:
        return kg
    return from_unit(round_half_up(to_unit(kg, step.unit), step.number, mode=rounding.mode.value), step.unit)


def _rounded_terms(ground: Ground, terms: Iterable[ChargeTerm]) -> Iterator[ChargeTerm]:
    rounding = ground.book.book.charge.round
    each = rounding is not None and rounding.at is RoundAt.TERM
    for term in terms:
        yield term._replace(kg=round_charge(ground, term.kg)) if each and term.kg is not None else term


def _terms(ground: Ground, sized: Sized) -> Iterator[ChargeTerm]:
    charge = ground.book.book.charge
    for role, rates in line_rates(charge):
        if rates:
            yield from _line_terms(ground, sized, role, rates)
    yield from _still_terms(Same(ground.still))


@lru_cache(maxsize=MOST_KNOWN)
def _still_terms(of: Same[Still]) -> tuple[ChargeTerm, ...]:
    """Terms that no length decides."""
    return tuple(_by_name(of.value.frame, of.value.boxes))


def _by_name(frame: Frame, boxes: Sequence[Box]) -> Iterator[ChargeTerm]:
    charge = frame.book.book.charge
    if charge.group:
        yield _named_term("group", charge.group, _group_names(frame), path="charge.group")
    if charge.module:
        yield from _module_terms(frame)
    if frame.book.ratio_charge is not None:
        yield _ratio_term(frame)
    yield from _unit_terms(frame)
    if charge.box:
        yield from _box_terms(boxes, charge.box)
    if charge.box_each_kg is not None:
        yield ChargeTerm("box_each", charge.box_each_kg * len(boxes), path="charge.box_each")
    if charge.constant_kg is not None:
        yield ChargeTerm("constant", charge.constant_kg, path="charge.constant")


def _unit_terms(frame: Frame) -> Iterator[ChargeTerm]:
    charge = frame.book.book.charge
    if charge.indoor:
        yield ChargeTerm("indoor", _indoor(frame, charge.indoor), path="charge.indoor")
    if charge.indoor_each_kg is not None:
        yield ChargeTerm("indoor_each", charge.indoor_each_kg * len(frame.models), path="charge.indoor_each")


def _line_terms(ground: Ground, sized: Sized, role: Role, table: Mapping[float, float]) -> Iterator[ChargeTerm]:
    lengths = lengths_by_size(ground, sized, role)
    covered = _covered(ground, sized, lengths) if role is Role.LIQUID else {}
    for size in sorted(lengths):
        yield _line_term(role, size, lengths[size], table, covered_m=covered.get(size, 0.0))
    for name in missing_lengths(ground, sized, role):
        yield ChargeTerm(f"{role.word} unknown", None, path=f"charge.{role}", missing=name)


def _covered(ground: Ground, sized: Sized, lengths: Mapping[float, float]) -> dict[float, float]:
    """Length of each size that the factory charge covers [m]; what the main leaves is taken off the largest tubes."""
    covered = ground.book.book.charge.covered
    if covered is None:
        return {}
    left, found = covered.length_m, dict.fromkeys(lengths, 0.0)
    first = main_lengths(ground, sized, Role.LIQUID) if covered.from_ is CoveredFrom.MAIN else {}
    for part in (first, lengths):
        for size in sorted(part, reverse=covered.from_ is not CoveredFrom.SMALLEST):
            listed = next(other for other in lengths if same_tube(other, size))
            taken = min(left, part[size], lengths[listed] - found[listed])
            found[listed] += taken
            left -= taken
    return found


def _line_term(role: Role, size: float, length: float, table: Mapping[float, float], *, covered_m: float) -> ChargeTerm:
    listed = next((entry for entry in table if same_tube(entry, size)), None)
    name = f"{role.word} {(listed or size) * 1000:.6g} mm"
    if listed is None:
        return ChargeTerm(name, None, length, path=f"charge.{role}", missing=f"kg/m of {name}", od_m=size)
    rate, counted = table[listed], length - covered_m
    path = f"charge.{role}"
    return ChargeTerm(name, line_charge(counted, rate), counted, rate, path=path, od_m=listed, covered_m=covered_m)


def _group_names(frame: Frame) -> tuple[str, ...]:
    modules = frame.group.modules
    return (frame.group_id, *modules) if len(modules) == 1 else (frame.group_id,)


def _named_term(term: str, table: Mapping[str, float], names: tuple[str, ...], *, path: str) -> ChargeTerm:
    for name in names:
        if name in table:
            return ChargeTerm(term, table[name], path=f"{path}.{name}")
    return ChargeTerm(term, None, path=path, missing=f"charge of {names[0]}")


def _module_terms(frame: Frame) -> Iterator[ChargeTerm]:
    table = frame.book.book.charge.module
    found = [_named_term("module", table, (module.data.model,), path="charge.module") for module in frame.pipes.modules]
    missing = next((term for term in found if term.missing), None)
    yield missing or ChargeTerm("module", sum(term.kg or 0.0 for term in found), path="charge.module")


def _box_terms(boxes: Sequence[Box], table: Mapping[str, float]) -> Iterator[ChargeTerm]:
    """Mode boxes by model; of one whose model is not known the charge is not known either."""
    names = [box.model.model if box.model is not None else "" for box in boxes]
    lacking = [box.id for box, name in zip(boxes, names, strict=True) if name not in table]
    if lacking:
        yield ChargeTerm("box", None, path="charge.box", missing=f"charge of {', '.join(sorted(lacking))}")
    else:
        yield ChargeTerm("box", sum(table[name] for name in names), path="charge.box")


def _ratio_term(frame: Frame) -> ChargeTerm:
    bands = frame.book.ratio_charge
    found = bands.find(frame.index_sum / frame.group.index) if bands is not None else None
    if bands is None or found is None:
        return ChargeTerm(
            "connection_ratio",
            None,
            path="charge.connection_ratio",
            missing="charge band of the connection ratio",
        )
    return ChargeTerm("connection_ratio", found.row.add_kg, path=f"{bands.path}[{found.position}]")


def _indoor(frame: Frame, table: Mapping[str, float]) -> float:
    return sum(table.get(model.model, table.get(model.kind, 0.0)) for model in frame.models)
