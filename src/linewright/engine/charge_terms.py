"""Terms of the charge of any shape: per length, unit, module, group, index or system, or by bands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import NamedTuple

from linewright.book.schema import IndexOf, Per, Term
from linewright.engine.boxes import Box
from linewright.engine.conditions import condition_holds, lacking_of
from linewright.engine.figures import ChargeBandRow, ChargePart, ChargeTerm
from linewright.engine.formulas import excess, line_charge, product
from linewright.engine.ground import Ground
from linewright.engine.measures import PLAIN_USES, measure
from linewright.engine.state import State
from linewright.engine.tubes import lengths_by_size, missing_lengths
from linewright.units import same_tube


def free_terms(state: State) -> Iterator[ChargeTerm]:
    """Every term that the book states in a shape of its own, where its conditions hold; options' charges last."""
    book = state.ground.book.book
    for i, term in enumerate(book.charge.terms):
        held = [condition_holds(state, condition) for condition in term.when]
        path = f"charge.terms[{i}]"
        if False in held:
            continue
        if None in held:
            lacking = [
                name
                for condition, known in zip(term.when, held, strict=True)
                if known is None
                for name in lacking_of(state, condition)
            ]
            yield ChargeTerm(term.name, None, path=path, missing=", ".join(lacking))
        else:
            yield _term(state, term, i, path=path)
    for i, option in enumerate(book.options):
        if option.id in state.ground.system.options and option.charge_kg is not None:
            yield ChargeTerm(f"option {option.id}", option.charge_kg, path=f"options[{i}].charge")


def _term(state: State, term: Term, at: int, *, path: str) -> ChargeTerm:
    if term.by is not None:
        return _by_measure(state, term, at, path=path)
    if term.per is Per.LENGTH:
        return _per_length(state, term, path)
    ground = state.ground
    if term.per is Per.INDEX:
        rate, indoor = term.add_kg or 0.0, term.of is IndexOf.INDOOR
        index = ground.index_sum if indoor else ground.group.index
        part = ChargePart(f"{term.of} index", product(rate, index), f"{path}.add", index, rate)
        return ChargeTerm(term.name, part.kg, path=path, parts=(part,))
    return _each(state, term, at, list(_things(ground, term.per)), path=path)


class Thing(NamedTuple):
    """What a term is counted over: its id, the names by which the book may call it, its capacity index."""

    id: str
    names: tuple[str, ...]
    points: float


def _things(ground: Ground, per: Per) -> Iterator[Thing]:
    if per is Per.UNIT:
        for unit, model in zip(ground.system.units, ground.models, strict=True):
            yield Thing(unit.id, (model.model, model.kind), model.index)
    elif per is Per.MODULE:
        for module in ground.modules:
            yield Thing(module.id, (module.data.model,), module.data.index)
    elif per is Per.BOX:
        for box in ground.boxes:
            yield Thing(box.id, (_name_of(box),), box.own_index)
    else:
        yield Thing(ground.group_id if per is Per.GROUP else ground.system.id, (ground.group_id,), ground.group.index)


def _name_of(box: Box) -> str:
    """What a term calls a box: its model, or where nobody knows that, the box itself."""
    return f"the model of {box.id}" if box.model is None else box.model.model


def _each(state: State, term: Term, at: int, things: Sequence[Thing], *, path: str) -> ChargeTerm:
    """One mass for each thing: the same for all, by name, or by its index; a unit that is not named adds nothing."""
    parts: list[ChargePart] = []
    for thing in things:
        if term.rows:
            found = state.ground.book.term_bands[at].find(thing.points)
            if found is None:
                missing = f"a row of {term.name} for the index {thing.points:g}"
                return ChargeTerm(term.name, None, path=path, missing=missing)
            parts.append(ChargePart(thing.id, found.row.add_kg, f"{path}.rows[{found.position}]"))
        elif term.each:
            name = next((name for name in thing.names if name in term.each), None)
            if name is not None:
                parts.append(ChargePart(thing.id, term.each[name], f"{path}.each.{name}"))
            elif term.per is not Per.UNIT:
                return ChargeTerm(term.name, None, path=path, missing=f"charge of {thing.names[0]}")
        else:
            parts.append(ChargePart(thing.id, term.add_kg or 0.0, f"{path}.add"))
    return ChargeTerm(term.name, sum(part.kg for part in parts), path=path, parts=tuple(parts))


def _by_measure(state: State, term: Term, at: int, *, path: str) -> ChargeTerm:
    if term.by is None:
        return ChargeTerm(term.name, None, path=path, missing="a measure")
    series = measure(state, PLAIN_USES[term.by])
    if series.value is None or not series.complete:
        return ChargeTerm(term.name, None, path=path, missing=f"the measure {term.by}")
    found = state.ground.book.term_bands[at].find(series.value)
    if found is None:
        return ChargeTerm(term.name, None, path=path, missing=f"a row of {term.name} for {series.value:g}")
    band = ChargeBandRow(term.by, series.value, found.upper.value)
    return ChargeTerm(term.name, found.row.add_kg, path=f"{path}.rows[{found.position}]", band=band)


def _per_length(state: State, term: Term, path: str) -> ChargeTerm:
    ground, parts = state.ground, list[ChargePart]()
    for role in term.lines:
        lacking = missing_lengths(ground, state.sized, role)
        if lacking:
            return ChargeTerm(term.name, None, path=path, missing=lacking[0])
        for size, run_m in sorted(lengths_by_size(ground, state.sized, role).items()):
            rate = _rate(term, size)
            name = f"{role.word} {size * 1000:.6g} mm"
            if rate is None:
                return ChargeTerm(term.name, None, path=path, missing=f"kg/m of {name}")
            parts.append(ChargePart(name, line_charge(run_m, rate), f"{path}.rate", run_m, rate))
    length = sum(part.amount or 0.0 for part in parts)
    if term.beyond_m is None:
        return ChargeTerm(term.name, sum(part.kg for part in parts), length, path=path, parts=tuple(parts))
    beyond = excess(length, term.beyond_m)
    rate = term.rate_kg_m if isinstance(term.rate_kg_m, float | int) else 0.0
    return ChargeTerm(term.name, line_charge(beyond, rate), beyond, rate, path=path)


def _rate(term: Term, size_m: float) -> float | None:
    if not isinstance(term.rate_kg_m, Mapping):
        return term.rate_kg_m
    return next((rate for size, rate in term.rate_kg_m.items() if same_tube(size, size_m)), None)
