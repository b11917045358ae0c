"""Designs that held and were broken: what is listed is proven, by the engine anew and by the oracle beside it."""

from __future__ import annotations

import json
from functools import cache

import pytest

from linewright.document.edits import edits_from_text
from linewright.document.edits_out import encode_edits
from linewright.document.encode import Style
from linewright.document.render import Form
from linewright.engine import Evaluation, Standing, evaluate
from linewright.engine.records import Check
from linewright.explore.remedies import Duty, MoveKind, Outcome, Remedy, Wanted, find
from linewright.explore.remedies.trials import SpentError
from linewright.model.edits import apply
from linewright.units import UnitSystem
from tests.explore.broken import Broken, broken
from tests.explore.exhaustive import cure_of_two
from tests.oracle.compare import differences
from tests.oracle.naive import answer

CASES, CHUNK = 40, 5
SOAK_CASES, SOAK_CHUNK = 500, 100
#: Evaluations of a search here, and of the one that leaves nothing out, which is only run where nothing was found.
BUDGET, EXHAUSTIVE, EXHAUSTIVE_SOAK = 160, 200, 8000
#: Share of the cases with a cure by at most two moves that has to be cured.
SHARE = 0.95
#: What holds, worked out here anew and not by the code that is tested.
HOLDS = (Standing.WITHIN, Standing.ON_CONDITIONS, Standing.NOT_APPLICABLE)
GRAVE = {Standing.UNSTATED: 1, Standing.TO_CONFIRM: 2, Standing.UNJUDGED: 3, Standing.OVER: 4}


@cache
def searched(seed: int) -> tuple[Broken, Outcome]:
    case = broken(seed)
    return case, find(case.design, case.library, Wanted(budget=BUDGET, most_listed=4))


def checks(evaluation: Evaluation) -> dict[tuple[str, str, str, str], Check]:
    found = {}
    for result in evaluation.systems:
        for check in (*result.limits, *result.checks):
            found[check.subject, check.kind.value, check.path or check.measure, check.sense.value] = check
    for room in evaluation.rooms:
        for check in room.checks:
            found[check.subject, check.kind.value, check.measure, check.sense.value] = check
    return found


def prove(case: Broken, outcome: Outcome, remedy: Remedy) -> None:
    """What a remedy says, against a fresh evaluation and the oracle; and that it can be undone."""
    applied = apply(case.design, remedy.edits)
    fresh = evaluate(applied.design, case.library)
    base = evaluate(case.design, case.library)
    check_ways(base, fresh, remedy)
    before, after = checks(base), checks(fresh)
    for key, check in before.items():
        if check.standing is Standing.OVER and key in after:
            assert after[key].standing in HOLDS, (case.seed, key, after[key].standing)
    for key, check in after.items():
        was = GRAVE.get(before[key].standing, 0) if key in before else 0
        assert GRAVE.get(check.standing, 0) <= was, (case.seed, key, check.standing)
    assert outcome.targets
    assert {effect.key.subject for effect in remedy.cured} >= {target.subject for target in outcome.targets}
    assert apply(applied.design, applied.inverse).design == case.design
    assert differences(fresh, answer(applied.design, {case.book.id: case.book})) == [], case.seed


#: Moves after which a unit may be nearer along the pipe than it was.
NEARER = (MoveKind.LENGTH, MoveKind.OUTDOOR_PLACE, MoveKind.MOVE_UNIT)


def check_ways(before: Evaluation, after: Evaluation, remedy: Remedy) -> None:
    """Where nothing is to be built shorter or measured again no unit is nearer: all ways are those that there were."""
    if Duty.MEASURE in remedy.duties or any(move.kind in NEARER for move in remedy.moves):
        return
    was, now = ways(before), ways(after)
    assert was.keys() == now.keys()
    for unit, length_m in now.items():
        assert length_m >= was[unit] - 1e-6, (unit, remedy.moves)


def ways(evaluation: Evaluation) -> dict[str, float]:
    """Length of the runs to every unit [m]; module pipes go with their group."""
    return {
        unit.id: sum(system.tree.runs[run].length_m or 0.0 for run in system.tree.path_to(system.tree.at[unit.id]))
        for system in evaluation.systems
        for unit in system.units
    }


def is_missed(case: Broken, outcome: Outcome, most: int) -> bool | None:
    """Whether nothing was found though two moves would do; unknown where not all of those were tried."""
    if outcome.remedies:
        return False
    try:
        return cure_of_two(case.design, case.library, most) is not None
    except SpentError:
        return None


@pytest.mark.parametrize("first", range(0, CASES, CHUNK))
def test_what_is_listed_is_proven_and_what_two_moves_cure_is_cured(first: int) -> None:
    for seed in range(first, first + CHUNK):
        case, outcome = searched(seed)
        for remedy in outcome.remedies:
            prove(case, outcome, remedy)
        assert not is_missed(case, outcome, EXHAUSTIVE), seed


def test_the_cases_are_of_every_cause_and_most_are_cured() -> None:
    """A search that found nothing would pass the test above where there is nothing to find."""
    searches = [searched(seed) for seed in range(CASES)]
    found = [(case.cause, bool(outcome.remedies)) for case, outcome in searches]
    assert len(found) == CASES == 40
    assert {cause for cause, _ in found} == {"loads", "levels", "length", "edition"}
    assert sum(cured for _, cured in found) >= 0.7 * CASES


@pytest.mark.parametrize("seed", [106, 325])
def test_where_two_units_are_as_far_beyond_a_bound_one_is_brought_back_after_the_other(seed: int) -> None:
    """Nothing that is done to one of them alone changes by how much the bound is passed."""
    case, outcome = searched(seed)
    (target,) = outcome.targets
    assert target.subject == "main/limit:level_between_indoor"
    assert outcome.remedies
    for remedy in outcome.remedies:
        prove(case, outcome, remedy)
        assert len(remedy.moves) > 1


@pytest.mark.parametrize("seed", range(0, CASES, 13))
def test_edits_go_through_a_file(seed: int) -> None:
    case, outcome = searched(seed)
    for remedy in outcome.remedies:
        text = json.dumps(json.loads(Form(as_json=True).flow(encode_edits(remedy.edits, Style(UnitSystem.SI)))))
        read = edits_from_text(text, "edits.json")
        again = evaluate(apply(case.design, read).design, case.library)
        over = [key for key, check in checks(again).items() if check.standing is Standing.OVER]
        assert over == [], (seed, text)


@pytest.mark.soak
@pytest.mark.parametrize("first", range(CASES, CASES + SOAK_CASES, SOAK_CHUNK))
def test_at_length(first: int) -> None:
    cured, missed = 0, []
    for seed in range(first, first + SOAK_CHUNK):
        case = broken(seed)
        outcome = find(case.design, case.library, Wanted(most_listed=4))
        for remedy in outcome.remedies:
            prove(case, outcome, remedy)
        cured += bool(outcome.remedies)
        missed += [seed] if is_missed(case, outcome, EXHAUSTIVE_SOAK) else []
    assert cured > SOAK_CHUNK / 2
    assert cured >= SHARE * (cured + len(missed)), missed
