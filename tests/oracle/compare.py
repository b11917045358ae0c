"""Where the engine and the naive evaluator differ on one case, line by line."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from decimal import Decimal

from linewright.book.compiled import compile_book
from linewright.engine import Library, evaluate
from linewright.engine.records import (
    Check,
    CheckKind,
    Evaluation,
    Standing,
    SystemResult,
)
from linewright.model.values import NodeKind, Role
from tests.oracle.generate import Case, faultless
from tests.oracle.naive import MODES, Answer, SystemAnswer, answer
from tests.oracle.naive_limits import Verdict
from tests.oracle.naive_numbers import exact, same_tube

RELATIVE = 1e-9


def differences(case: Case) -> list[str]:
    """Everything that differs, in words; empty when the two agree."""
    library = Library.of({key: compile_book(book, faultless) for key, book in case.books.items()})
    evaluation = evaluate(case.design, library)
    naive = answer(case.design, case.books)
    found: list[str] = []
    for result in evaluation.systems:
        one = naive.systems[result.id]
        for part in (_limits, _sizes, _fittings, _units, _charge, _actions):
            found += [f"{result.id}: {line}" for line in part(result, one)]
    return found + list(_rooms(evaluation, naive))


def close(value: float | None, naive: Decimal | None) -> bool:
    if value is None or naive is None:
        return value is None and naive is None
    return abs(value - float(naive)) <= RELATIVE * max(1.0, abs(value))


def _limits(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    if len(result.limits) != len(one.verdicts):
        yield f"{len(result.limits)} limits, naive {len(one.verdicts)}"
        return
    for check, verdict in zip(result.limits, one.verdicts, strict=True):
        if _more_cautious(check, verdict):
            continue
        name = f"{check.path or 'limit'} {check.measure} {check.sense}"
        for what, got, want in _limit_pairs(check, verdict):
            agree = close(got, want) if isinstance(want, Decimal) or want is None else got == want  # type: ignore[arg-type]
            if not agree:
                yield f"{name}: {what} {got}, naive {want} (standing {check.standing} / {verdict.standing})"


def _more_cautious(check: Check, verdict: Verdict) -> bool:
    """The engine may leave unjudged, and say what is missing, what the naive side reasons out; never the reverse."""
    return check.standing is Standing.UNJUDGED and bool(check.missing) and verdict.standing != "unjudged"


def _limit_pairs(check: Check, verdict: Verdict) -> Iterator[tuple[str, object, object]]:
    yield "measure", check.measure, str(verdict.measure)
    yield "sense", check.sense.value, verdict.sense.value
    yield "standing", check.standing.value, verdict.standing
    if verdict.standing in ("not applicable", "unstated"):
        return
    if check.standing is Standing.UNJUDGED and check.value is None:
        return
    yield "bound", check.bound, verdict.shown
    value = verdict.measured.value
    if value is None:
        yield "value between", _is_between(check.value, verdict), True
        return
    yield "value", check.value, value.value
    yield "governs", tuple(sorted(check.governs)), tuple(sorted(verdict.measured.governs))
    yield "margin", check.margin, verdict.margin


def _is_between(value: float | None, verdict: Verdict) -> bool:
    low, high = verdict.measured.low, verdict.measured.high
    inside = value is None or low is None or value >= float(low) - RELATIVE
    return inside and (value is None or high is None or value <= float(high) + RELATIVE)


def _sizes(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    for run in result.runs:
        for role in (Role.GAS, Role.LIQUID):
            got, want = run.tubes[role].od_m, one.sizes.od(run.id, role)
            both = got is not None and want is not None
            if not (same_tube(exact(got), want) if both else got is None and want is None):  # type: ignore[arg-type]
                yield f"run {run.id} {role}: {got}, naive {want}"
        equivalent = one.equivalents[run.id]
        if not close(run.equivalent_m, equivalent.value if equivalent.whole else None):
            yield f"run {run.id} equivalent: {run.equivalent_m}, naive {equivalent}"


def _fittings(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    got = {f.id: f.model for f in result.fittings if f.kind in (NodeKind.JOINT, NodeKind.HEADER)}
    if got != one.fittings:
        yield f"fittings {sorted(set(got.items()) ^ set(one.fittings.items()))}"


def _units(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    for unit in result.units:
        for mode in MODES:
            got = getattr(unit, mode)
            if not close(got.delivered_w, one.delivered(unit.id, mode)):
                yield f"{unit.id} {mode} delivered: {got.delivered_w}, naive {one.delivered(unit.id, mode)}"
        for mode in ("cooling", "heating"):
            got = getattr(unit, mode)
            want = one.coincident.get((unit.id, mode))
            if not close(got.coincident_w, want):
                yield f"{unit.id} {mode} coincident: {got.coincident_w}, naive {want}"


def _charge(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    charge, naive = result.charge, one.charge
    for what, got, want in (
        ("additional", charge.rounded_kg, naive.additional),
        ("total", charge.total_kg, naive.total),
        ("factory", charge.factory_kg, naive.factory),
    ):
        if not close(got, want):
            yield f"charge {what}: {got}, naive {want}"
    if naive.additional is not None:
        got_terms, want_terms = _by_kind({t.name: t.kg for t in charge.terms}), _by_kind(naive.terms)
        if got_terms.keys() != want_terms.keys():
            yield f"charge terms {sorted(got_terms)}, naive {sorted(want_terms)}"
        elif any(abs(got_terms[name] - want_terms[name]) > RELATIVE for name in want_terms):
            yield f"charge terms {got_terms}, naive {want_terms}"


def _by_kind(terms: Mapping[str, Decimal | float | None]) -> dict[str, float]:
    """Sum of each kind of term, whatever tube or model it stands for."""
    sums: dict[str, float] = {}
    for name, kg in terms.items():
        kind = name.split()[0]
        sums[kind] = sums.get(kind, 0.0) + float(kg or 0)
    return {kind: kg for kind, kg in sums.items() if kg}


def _actions(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    chosen = tuple(sorted(action.id for action in result.actions if action.chosen and not action.mandatory))
    if chosen != tuple(sorted(one.chosen)):
        yield f"chosen {chosen}, naive {one.chosen}"
    for action in result.actions:
        acts = action.chosen or (action.mandatory and action.due)
        if acts != (action.id in one.sizes.carried):
            yield f"{action.id} acts: {acts}, naive {action.id in one.sizes.carried}"
        elif acts and action.carried_out != one.sizes.carried[action.id]:
            yield f"{action.id} carried out: {action.carried_out} {action.why_not}, naive the other way"


def _rooms(evaluation: Evaluation, naive: Answer) -> Iterator[str]:
    for room in evaluation.rooms:
        for mode in MODES:
            standings = [c.standing.value for c in room.checks if c.kind is CheckKind.ROOM and c.measure == mode]
            want = naive.rooms[room.id, mode]
            if standings != [want]:
                yield f"room {room.id} {mode}: {standings}, naive {want}"
