"""Runs, fittings, units and charge of one system, by the engine and by the naive evaluator."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal

from linewright.engine.capacity_records import SystemCapacity
from linewright.engine.records import RunResult, SystemResult, UnitResult
from linewright.model.values import Role
from tests.oracle.compare_values import RELATIVE, close, pairs
from tests.oracle.naive import MODES, SystemAnswer
from tests.oracle.naive_checks import (
    Judged,
    action_checks,
    capacity_check,
    charge_check,
    fitting_checks,
    size_checks,
)
from tests.oracle.naive_lengths import actual
from tests.oracle.naive_numbers import exact, same_tube
from tests.oracle.naive_sizes import ROLES
from tests.oracle.naive_tree import rise_of

Triples = Iterator[tuple[str, object, object]]


def runs(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    if sorted(run.id for run in result.runs) != sorted(one.facts.run):
        yield "runs are not those of the design"
        return
    for run in result.runs:
        yield from pairs(f"run {run.id}", _run(run, one))
        for role in ROLES:
            yield from pairs(f"run {run.id} {role}", _tube(run, one, role))


def _run(run: RunResult, one: SystemAnswer) -> Triples:
    facts, length = one.facts, actual(one.facts.run[run.id])
    yield "from", run.from_, facts.run[run.id].from_
    yield "length", run.length_m, length.value if length.whole else None
    equivalent = one.equivalents[run.id]
    yield "equivalent", run.equivalent_m, equivalent.value if equivalent.whole else None
    yield "index", run.downstream_index, facts.index(run.id)
    yield "main", run.is_main, run.id in facts.main()
    yield "rise", run.rise_m, rise_of(facts, run.id)


def _tube(run: RunResult, one: SystemAnswer, role: Role) -> Triples:
    tube, naive = run.tubes[role], one.sizes.tubes[run.id, role]
    for what, got, want in (
        ("table", tube.table_m, naive.table),
        ("override", tube.override_m, naive.override),
        ("size", tube.od_m, naive.od),
    ):
        same = got is not None and want is not None and same_tube(exact(got), want)
        yield what, float(want) if same and want is not None else got, want


def fittings(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    facts = one.facts
    if sorted(found.id for found in result.fittings) != sorted(set(facts.run) - set(facts.unit)):
        yield "fittings are not those of the design"
        return
    for found in result.fittings:
        yield from pairs(
            f"fitting {found.id}",
            [
                ("kind", found.kind, facts.kind[found.id]),
                ("model", found.model, one.fittings.get(found.id, "")),
                ("elevation", found.elevation_m, facts.level.get(found.id)),
                ("assumed", found.assumed_elevation, found.id in facts.assumed),
            ],
        )


def units(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    if sorted(unit.id for unit in result.units) != sorted(one.facts.unit):
        yield "units are not those of the design"
        return
    for unit in result.units:
        yield from pairs(f"unit {unit.id}", _unit(unit, one))
        for mode in MODES:
            yield from pairs(f"unit {unit.id} {mode}", _figures(unit, one, mode))
    for mode in ("cooling", "heating"):
        found: SystemCapacity | None = getattr(result, mode)
        if (found is None) != (mode not in one.modes):
            yield f"{mode}: {found}, naive {one.modes.get(mode)}"
        elif found is not None:
            yield from pairs(f"capacity {mode}", _capacity(found, one))


def _unit(unit: UnitResult, one: SystemAnswer) -> Triples:
    yield "index", unit.index, exact(one.facts.model(unit.id).index)
    yield "elevation", unit.elevation_m, one.facts.level.get(unit.id)


def _figures(unit: UnitResult, one: SystemAnswer, mode: str) -> Triples:
    got = getattr(unit, mode)
    yield "needed", got.needed_w, one.needs.get((unit.id, mode))
    yield "delivered", got.delivered_w, one.delivered(unit.id, mode)
    if mode != "sensible":
        yield "coincident", got.coincident_w, one.coincident.get((unit.id, mode))
    found = one.modes.get("heating" if mode == "heating" else "cooling")
    if found is not None:
        yield "rating", got.rating_w, (found.sensible_rating if mode == "sensible" else found.rating)[unit.id]


def _capacity(found: SystemCapacity, one: SystemAnswer) -> Triples:
    mode = one.modes[found.mode]
    factors = {factor.name: factor.value for factor in found.factors}
    yield "factors", sorted(factors), sorted(name if name != "ratio" else "connection_ratio" for name in mode.factors)
    for name, factor in mode.factors.items():
        yield f"factor {name}", factors.get(name if name != "ratio" else "connection_ratio"), factor
    for unit, factor in mode.unit_length.items():
        got = found.unit_length_factors.get(unit)
        yield f"length factor of {unit}", None if got is None else got.value, factor
    yield "capacity", found.capacity_w, mode.whole_capacity
    yield "delivered", found.delivered_w, _whole(mode.delivered)
    yield "block", found.block_w, one.block[found.mode]
    yield "coincident", found.coincident_w, _whole({u: one.coincident[u, found.mode] for u in one.facts.unit})


def _whole(parts: Mapping[str, Decimal | None]) -> Decimal | None:
    known = [part for part in parts.values() if part is not None]
    return sum(known, Decimal(0)) if len(known) == len(parts) else None


def charge(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    found, naive = result.charge, one.charge
    yield from pairs(
        "charge",
        [
            ("factory", found.factory_kg, naive.factory),
            ("unrounded", found.unrounded_kg, naive.unrounded),
            ("additional", found.rounded_kg, naive.additional),
            ("total", found.total_kg, naive.total),
        ],
    )
    got, want = _by_kind({t.name: t.kg for t in found.terms}), _by_kind(naive.terms)
    for kind in sorted(got.keys() | want.keys()):
        if kind in got and kind in want:
            agree = close(got[kind], None if want[kind] is None else exact(want[kind] or 0.0))
        else:
            agree = abs(got.get(kind, want.get(kind)) or 0.0) <= RELATIVE
        if not agree:
            yield f"charge of {kind}: {got.get(kind)}, naive {want.get(kind)}"


def checks(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    """Every verdict beside the limits, by what it is on."""
    wanted = [
        *size_checks(one.facts, one.sizes),
        *action_checks(one.facts, one.sizes),
        *fitting_checks(one.facts, one.fittings),
        *charge_check(one.facts, one.charge),
        *(capacity_check(mode, one.block[name]) for name, mode in one.modes.items()),
    ]
    found = [
        Judged(check.subject.removeprefix(f"{result.id}/"), check.measure, check.standing.value)
        for check in result.checks
    ]
    for check in sorted(set(found) ^ set(wanted)):
        yield f"check of {'the engine' if check in found else 'the naive side'} alone: {check}"
    if len(found) != len(wanted):
        yield f"{len(found)} checks, naive {len(wanted)}"


def _by_kind(terms: Mapping[str, Decimal | float | None]) -> dict[str, float | None]:
    """Sum of each kind of term, whatever tube or model it stands for; none with an unknown one."""
    sums: dict[str, float | None] = {}
    for name, kg in terms.items():
        kind = name.split()[0]
        before = sums.get(kind, 0.0)
        sums[kind] = None if kg is None or before is None else before + float(kg)
    return sums
