"""Additional and total charge, term by term."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal

from linewright.book.schema import RoundAt, Rounding
from linewright.model.values import Role
from tests.oracle.naive_numbers import ONE, ZERO, exact, find_band, over, round_to_step, same_tube
from tests.oracle.naive_pipes import pipe_size
from tests.oracle.naive_sizes import Sizes
from tests.oracle.naive_tree import Facts


@dataclass
class Charge:
    """Terms [kg] by name; a term of `None` leaves the charge unknown."""

    factory: Decimal
    terms: dict[str, Decimal | None] = field(default_factory=dict)
    unrounded: Decimal | None = None
    additional: Decimal | None = None

    @property
    def total(self) -> Decimal | None:
        return None if self.additional is None else self.factory + self.additional


def charge_of(facts: Facts, sizes: Sizes) -> Charge:
    charge = Charge(_factory(facts))
    rules = facts.book.charge
    _lines(facts, sizes, charge, role=Role.LIQUID, table=rules.liquid)
    _lines(facts, sizes, charge, role=Role.GAS, table=rules.gas)
    if rules.group:
        charge.terms["group"] = _listed(rules.group, facts.group_key())
    if rules.module:
        each = [_listed(rules.module, module.model) for module in facts.modules()]
        charge.terms["module"] = None if None in each else sum((m for m in each if m is not None), ZERO)
    if rules.connection_ratio:
        row = find_band(rules.connection_ratio, facts.indoor_index() / exact(facts.group.index))
        charge.terms["connection_ratio"] = exact(row.add_kg) if row is not None else None
    if rules.indoor:
        charge.terms["indoor"] = sum((_indoor(facts, unit) for unit in facts.unit), ZERO)
    if rules.indoor_each_kg is not None:
        charge.terms["indoor_each"] = exact(rules.indoor_each_kg) * len(facts.unit)
    if rules.constant_kg is not None:
        charge.terms["constant"] = exact(rules.constant_kg)
    _finish(facts, charge)
    return charge


def is_over_cap(facts: Facts, charge: Charge) -> bool:
    """Whether the additional charge is over the most that the book allows."""
    cap = facts.book.charge.max_kg
    return cap is not None and charge.additional is not None and over(charge.additional, exact(cap))


def _finish(facts: Facts, charge: Charge) -> None:
    rules = facts.book.charge
    each_term = rules.round is not None and rules.round.at is RoundAt.TERM
    if each_term:
        charge.terms = {name: None if kg is None else _rounded(kg, rules.round) for name, kg in charge.terms.items()}
    known = [kg for kg in charge.terms.values() if kg is not None]
    if len(known) < len(charge.terms):
        return
    charge.unrounded = sum(known, ZERO) * (exact(rules.multiplier) if rules.multiplier is not None else ONE)
    if rules.min_kg is not None:
        charge.unrounded = max(charge.unrounded, exact(rules.min_kg))
    charge.additional = charge.unrounded if each_term else _rounded(charge.unrounded, rules.round)


def _rounded(kg: Decimal, rounding: Rounding | None) -> Decimal:
    return kg if rounding is None else round_to_step(kg, rounding.step, rounding.mode)


def _factory(facts: Facts) -> Decimal:
    if facts.group.factory_charge_kg is not None:
        return exact(facts.group.factory_charge_kg)
    return sum((exact(module.factory_charge_kg) for module in facts.modules()), ZERO)


def _listed(table: Mapping[str, float], name: str) -> Decimal | None:
    return exact(table[name]) if name in table else None


def _indoor(facts: Facts, unit: str) -> Decimal:
    """By model, else by kind; a unit that is not listed adds nothing."""
    model, table = facts.model(unit), facts.book.charge.indoor
    return exact(table.get(model.model, table.get(model.kind, 0.0)))


def _lines(facts: Facts, sizes: Sizes, charge: Charge, *, role: Role, table: Mapping[float, float]) -> None:
    if not table:
        return
    for od, length in _pieces(facts, sizes, role):
        if length is not None and not length:
            continue
        key = next((size for size in table if od is not None and same_tube(exact(size), od)), None)
        name = f"{role} {float(key):.5f}" if key is not None else f"{role} unlisted"
        if length is None or key is None or charge.terms.get(name, ZERO) is None:
            charge.terms[name] = None
        else:
            before = charge.terms.get(name) or ZERO
            charge.terms[name] = before + length * exact(table[key])


def _pieces(facts: Facts, sizes: Sizes, role: Role) -> list[tuple[Decimal | None, Decimal | None]]:
    """Diameter and actual length of every run and module pipe, as built where stated."""
    pieces = []
    for node, run in facts.run.items():
        length = run.length_m if run.as_built_m is None else run.as_built_m
        pieces.append((sizes.od(node, role), None if length is None else exact(length)))
    for pipe in facts.system.outdoor.pipes:
        length = pipe.length_m if pipe.as_built_m is None else pipe.as_built_m
        pieces.append((pipe_size(facts, pipe, role), None if length is None else exact(length)))
    return pieces
