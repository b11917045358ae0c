"""Where the engine and the naive evaluator differ on one case, line by line."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal

from linewright.book.compiled import compile_book
from linewright.book.measures import FACTS, MeasureName, Over
from linewright.engine import Library, evaluate
from linewright.engine.records import Check, CheckKind, Evaluation, MeasureResult, Standing, SystemResult
from tests.oracle.compare_parts import charge, fittings, runs, units
from tests.oracle.compare_values import RELATIVE, close, pairs
from tests.oracle.generate import Case, faultless
from tests.oracle.naive import MODES, Answer, SystemAnswer, answer
from tests.oracle.naive_limits import Verdict
from tests.oracle.naive_measures import measure
from tests.oracle.naive_series import Measured


def evaluated(case: Case) -> Evaluation:
    """The engine's evaluation."""
    return evaluate(case.design, Library.of({key: compile_book(book, faultless) for key, book in case.books.items()}))


def naively(case: Case) -> Answer:
    """The naive answer."""
    return answer(case.design, case.books)


def differences(evaluation: Evaluation, naive: Answer) -> list[str]:
    """Everything that differs, in words; empty when the two agree."""
    found: list[str] = []
    assert sorted(result.id for result in evaluation.systems) == sorted(naive.systems)
    for result in evaluation.systems:
        one = naive.systems[result.id]
        for part in (_limits, _measures, _actions, runs, fittings, units, charge):
            found += [f"{result.id}: {line}" for line in part(result, one)]
    return found + list(_rooms(evaluation, naive))


def _limits(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    if len(result.limits) != len(one.verdicts):
        yield f"{len(result.limits)} limits, naive {len(one.verdicts)}"
        return
    for check, verdict in zip(result.limits, one.verdicts, strict=True):
        if _is_more_cautious(check, verdict):
            continue
        for line in pairs(f"{check.path} {check.measure} {check.sense}", _limit_pairs(check, verdict)):
            yield f"{line} (standing {check.standing} / {verdict.standing})"


def more_cautious(evaluation: Evaluation, naive: Answer) -> int:
    """How many limits the engine leaves unjudged that the naive side judges."""
    judged = ((result.limits, naive.systems[result.id].verdicts) for result in evaluation.systems)
    return sum(_is_more_cautious(*both) for limits, verdicts in judged for both in zip(limits, verdicts, strict=True))


def _is_more_cautious(check: Check, verdict: Verdict) -> bool:
    """The engine may leave unjudged, and say what is missing, what the naive side reasons out; never the reverse."""
    return check.standing is Standing.UNJUDGED and bool(check.missing) and verdict.standing != "unjudged"


def _limit_pairs(check: Check, verdict: Verdict) -> Iterator[tuple[str, object, object]]:
    yield "measure", check.measure, str(verdict.measure)
    yield "sense", check.sense.value, verdict.sense.value
    yield "standing", check.standing.value, verdict.standing
    if verdict.standing in ("not applicable", "unstated"):
        return
    yield "bound", check.bound, verdict.shown
    yield "plain bound", check.plain_bound, verdict.plain if verdict.is_relaxed else None
    value = verdict.measured.value
    if check.standing is Standing.UNJUDGED and check.value is None:
        return
    if value is None:
        yield "value between", _is_between(check.value, verdict.measured), True
        return
    yield "value", check.value, value.value
    yield "governs", tuple(sorted(check.governs)), tuple(sorted(verdict.measured.governs))
    yield "margin", check.margin, verdict.margin
    yield "left", check.left, verdict.left


def _is_between(value: float | None, measured: Measured) -> bool:
    low, high = measured.low, measured.high
    inside = value is None or low is None or value >= float(low) - RELATIVE
    return inside and (value is None or high is None or value <= float(high) + RELATIVE)


def _measures(result: SystemResult, one: SystemAnswer) -> Iterator[str]:
    """The series of each limit's measure, found by the words that tell its variant."""
    by_words = {(found.name, found.variant): found for found in result.measures}
    if len(by_words) < len(result.measures):
        yield "measures: one variant twice"
    paths = {check.path: check for check in result.limits}
    for position, limit in enumerate(one.facts.book.limits):
        check = paths.get(f"limits[{position}]")
        if check is None:
            yield f"limits[{position}]: no check"
            continue
        found = by_words.get((check.measure, check.note))
        if found is None:
            yield f"{check.path}: no measure {check.measure!r} {check.note!r}"
            continue
        wanted = measure(one.facts, one.sizes, limit)
        yield from pairs(f"measure {found.key}", _measure_pairs(found, wanted))


def _measure_pairs(found: MeasureResult, wanted: Measured) -> Iterator[tuple[str, object, object]]:
    series = found.series
    yield "applicable", series.applicable, wanted.applicable
    if not wanted.applicable:
        return
    if wanted.value is not None:
        yield "value", series.value, wanted.value.value
        if not series.least:
            yield "complete", series.complete, wanted.value.whole
        yield "governs", tuple(sorted(series.governs)), tuple(sorted(wanted.governs))
    else:
        yield "complete", series.complete, False
        return
    if wanted.tie or FACTS[MeasureName(found.name)].over is Over.SYSTEM:
        return
    for subject, item in wanted.items.items():
        if series.values and item is not None and item.whole:
            yield f"of {subject}", series.values.get(subject), item.value


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
            checks = [check for check in room.checks if check.kind is CheckKind.ROOM and check.measure == mode]
            standings = [check.standing.value for check in checks]
            if standings != [naive.rooms[room.id, mode].standing]:
                yield f"room {room.id} {mode}: {standings}, naive {naive.rooms[room.id, mode].standing}"
            got: Decimal | None = naive.rooms[room.id, mode].delivered
            if not close(getattr(room, mode).delivered_w, got):
                yield f"room {room.id} {mode}: delivered {getattr(room, mode).delivered_w}, naive {got}"
