"""Terms of the charge of any shape: per length, unit, module, group, index or system, or by bands."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from linewright.book.schema import IndexOf, Per, Term
from linewright.engine.boxes import Box
from linewright.engine.conditions import condition_holds, lacking_of
from linewright.engine.figures import ChargeTerm
from linewright.engine.formulas import line_charge
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
        index = ground.index_sum if term.of is IndexOf.INDOOR else ground.group.index
        return ChargeTerm(term.name, (term.add_kg or 0.0) * index, path=path)
    if term.per is Per.UNIT:
        units = [((model.model, model.kind), model.index) for model in ground.models]
        return _each(state, term, at, units, path=path)
    if term.per is Per.MODULE:
        modules = [((module.data.model,), module.data.index) for module in ground.modules]
        return _each(state, term, at, modules, path=path)
    if term.per is Per.BOX:
        boxes = [((_name_of(box),), box.own_index) for box in ground.boxes]
        return _each(state, term, at, boxes, path=path)
    names = [((ground.group_id,), ground.group.index)] if term.per is Per.GROUP else [((), 0.0)]
    return _each(state, term, at, names, path=path)


def _name_of(box: Box) -> str:
    """What a term calls a box: its model, or where nobody knows that, the box itself."""
    return f"the model of {box.id}" if box.model is None else box.model.model


def _each(
    state: State, term: Term, at: int, things: Sequence[tuple[tuple[str, ...], float]], *, path: str
) -> ChargeTerm:
    """One mass for each thing: the same for all, by name, or by its index; a unit that is not named adds nothing."""
    total = 0.0
    for names, index in things:
        if term.rows:
            found = state.ground.book.term_bands[at].find(index)
            if found is None:
                return ChargeTerm(term.name, None, path=path, missing=f"a row of {term.name} for the index {index:g}")
            total += found.row.add_kg
        elif term.each:
            listed = next((term.each[name] for name in names if name in term.each), None)
            if listed is None and term.per is not Per.UNIT:
                return ChargeTerm(term.name, None, path=path, missing=f"charge of {names[0]}")
            total += listed or 0.0
        else:
            total += term.add_kg or 0.0
    return ChargeTerm(term.name, total, path=path)


def _by_measure(state: State, term: Term, at: int, *, path: str) -> ChargeTerm:
    if term.by is None:
        return ChargeTerm(term.name, None, path=path, missing="a measure")
    series = measure(state, PLAIN_USES[term.by])
    if series.value is None or not series.complete:
        return ChargeTerm(term.name, None, path=path, missing=f"the measure {term.by}")
    found = state.ground.book.term_bands[at].find(series.value)
    if found is None:
        return ChargeTerm(term.name, None, path=path, missing=f"a row of {term.name} for {series.value:g}")
    return ChargeTerm(term.name, found.row.add_kg, path=f"{path}.rows[{found.position}]")


def _per_length(state: State, term: Term, path: str) -> ChargeTerm:
    ground, sized, total, length = state.ground, state.sized, 0.0, 0.0
    for role in term.lines:
        lacking = missing_lengths(ground, sized, role)
        if lacking:
            return ChargeTerm(term.name, None, path=path, missing=lacking[0])
        for size, run_m in lengths_by_size(ground, sized, role).items():
            rate = _rate(term, size)
            if rate is None:
                return ChargeTerm(term.name, None, path=path, missing=f"kg/m of {role} {size * 1000:.6g} mm")
            length += run_m
            total += line_charge(run_m, rate)
    if term.beyond_m is None:
        return ChargeTerm(term.name, total, length, path=path)
    beyond = max(length - term.beyond_m, 0.0)
    rate = term.rate_kg_m if isinstance(term.rate_kg_m, float | int) else 0.0
    return ChargeTerm(term.name, line_charge(beyond, rate), beyond, rate, path=path)


def _rate(term: Term, size_m: float) -> float | None:
    if not isinstance(term.rate_kg_m, Mapping):
        return term.rate_kg_m
    return next((rate for size, rate in term.rate_kg_m.items() if same_tube(size, size_m)), None)
