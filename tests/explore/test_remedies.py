"""Remedies of small designs, one kind of move at a time; locks, unknowns, budgets, what is said where nothing helps."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from linewright.document.files import design_from_text, link, load_book
from linewright.engine import Evaluation, Library, Standing, evaluate
from linewright.engine.records import Check, CheckKind, Sense
from linewright.errors import UnknownSubjectError
from linewright.explore.remedies import (
    BUDGET,
    Key,
    MoveKind,
    Outcome,
    OutdoorPlace,
    Progress,
    Wanted,
    find,
)
from linewright.explore.remedies.checks import Against, against
from linewright.model.design import Design
from linewright.model.edits import Lock, Set, apply
from linewright.model.edits.values import Kind
from linewright.units import Dimension, UnitSystem
from tests.explore.loft import ROOT, SIX, SOUND
from tests.explore.test_broken_designs import check_ways

BOOK = load_book(ROOT / "books" / "tidewater-r32.book.yaml").compiled
LIBRARY = Library.of({BOOK.book.id: BOOK})


def design(text: str) -> Design:
    loaded = design_from_text(text, "loft.design.yaml")
    link(loaded, {BOOK.book.id: BOOK})
    return loaded.design


def changed(*changes: tuple[str, str]) -> Design:
    text = SOUND
    for old, new in changes:
        assert text.count(old) == 1, old
        text = text.replace(old, new)
    return design(text)


def words(outcome: Outcome, system: UnitSystem = UnitSystem.SI) -> list[str]:
    return ["; ".join(move.words.say(system) for move in remedy.moves) for remedy in outcome.remedies]


def kinds(outcome: Outcome) -> set[MoveKind]:
    """Kinds of the moves that cure alone."""
    return {remedy.moves[0].kind for remedy in outcome.remedies if len(remedy.moves) == 1}


def failures(found: Evaluation) -> int:
    checks = (*found.systems[0].limits, *found.systems[0].checks)
    return sum(one.standing is Standing.OVER for one in checks)


def holds(made: Design) -> bool:
    return evaluate(made, LIBRARY).standing in (Standing.WITHIN, Standing.ON_CONDITIONS)


def test_what_holds_has_nothing_to_cure() -> None:
    assert holds(design(SOUND))
    outcome = find(design(SOUND), LIBRARY)
    assert outcome.targets == ()
    assert outcome.remedies == ()
    assert outcome.evaluations == 1


LONG = ("{from: J4, to: U6, length: 8 m, bends: 2}", "{from: J4, to: U6, length: 27 m, bends: 2}")
LONGER = (LONG[0], "{from: J4, to: U6, length: 52 m, bends: 2}")
DEAD = (
    "{from: J4, to: X9, length: 2 m}\n      - {from: X9, to: U6, length: 6 m}\n      - {from: X9, to: X10, length: 1 m}"
)
FORBIDDEN = ("elevation: 3 m}\n", "elevation: 3 m}\n    forbidden_actions: [long-unit-run]\n")
SHORT = "{from: J2, to: J3, length: 1 m}"
NARROW = (SHORT, "{from: J2, to: J3, length: 1 m, override: {gas: 12.7 mm}}")
CLOSE = (SHORT, "{from: J2, to: J3, length: 0.3 m}")
STORE = ("cooling: 2.4 kW, sensible: 1.6 kW", "cooling: 3.1 kW, sensible: 2.2 kW")
OFFICE = ("cooling: 1.8 kW, sensible: 1.2 kW", "cooling: 1.8 kW, sensible: 1.62 kW")
LARGE = ("model: cassette 5.6, room: cutting", "model: cassette 11.2, room: cutting")
#: What is changed, what is over then, a kind of move that is part of a cure.
ALONE = [
    ((LONG, FORBIDDEN), "action:", "ACTION"),
    ((NARROW,), "run:", "OVERRIDE_OFF"),
    ((CLOSE,), "joint_spacing", "SHIFT"),
    ((CLOSE,), "joint_spacing", "REHANG"),
    (((LONG[0], DEAD),), "fitting:", "FITTING"),
    ((STORE,), "room:store", "UNIT_SIZE"),
    ((OFFICE,), "room:office", "UNIT_KIND"),
    ((LARGE,), "room:", "GROUP"),
    ((LONGER,), "last_joint", "LENGTH"),
]


@pytest.mark.parametrize(("changes", "subject", "kind"), ALONE)
def test_a_move_cures(changes: tuple[tuple[str, str], ...], subject: str, kind: str) -> None:
    broken = changed(*changes)
    outcome = find(broken, LIBRARY, Wanted(most_listed=30, budget=600))
    assert any(subject in target.subject for target in outcome.targets), outcome.targets
    assert MoveKind[kind] in {move.kind for remedy in outcome.remedies for move in remedy.moves}, words(outcome)
    for remedy in outcome.remedies:
        assert holds(apply(broken, remedy.edits).design)


def test_the_outdoor_group_moves_only_to_a_place_that_is_offered() -> None:
    far = changed(
        ("{from: outdoor, to: J1, length: 15 m, bends: 2}", "{from: outdoor, to: J1, length: 130 m, bends: 2}")
    )
    subject = "loft/limit:main_length"
    without = find(far, LIBRARY, Wanted(subject=subject))
    assert MoveKind.OUTDOOR_PLACE not in kinds(without)
    place = OutdoorPlace(main_m=60.0, elevation_m=9.0)
    outcome = find(far, LIBRARY, Wanted(subject=subject, outdoor_place=place))
    offered = [remedy for remedy in outcome.remedies if remedy.moves[0].kind is MoveKind.OUTDOOR_PLACE]
    assert offered[0].moves[0].words.say(UnitSystem.SI) == (
        "outdoor group of loft at the offered place: main 60.0 m, elevation 9.0 m"
    )
    made = apply(far, offered[0].edits).design.systems[0]
    assert made.outdoor.elevation_m == 9.0
    assert made.runs[0].length_m == 60.0


def test_a_length_is_the_largest_that_does() -> None:
    far = changed(("{from: J4, to: U6, length: 8 m, bends: 2}", "{from: J4, to: U6, length: 52 m, bends: 2}"))
    outcome = find(far, LIBRARY, Wanted(subject="loft/limit:last_joint_to_unit", most_listed=30))
    found = [one for one in outcome.remedies if [move.kind for move in one.moves] == [MoveKind.LENGTH]]
    assert found
    stated = found[0].moves[0].stands_for
    assert stated is not None
    assert stated.metres <= 50.0
    longer = Set(kind=Kind.RUN, id="U6", system="loft", values={"length_m": stated.metres + 0.1})
    after = evaluate(apply(far, longer).design, LIBRARY)
    before = evaluate(apply(far, found[0].edits).design, LIBRARY)
    over = [
        sum(c.standing is Standing.OVER for c in (*one.systems[0].limits, *one.systems[0].checks))
        for one in (before, after)
    ]
    assert over[0] < over[1]


def test_six_faults_are_cured_together() -> None:
    broken = design(SIX)
    outcome = find(broken, LIBRARY)
    subjects = {target.subject for target in outcome.targets}
    assert {"loft/fitting:J2", "loft/fitting:X9", "loft/run:J3.gas", "loft/action:long-unit-run"} <= subjects
    assert {"room:store.cooling", "loft/limit:after_first_branch"} <= subjects
    assert outcome.remedies
    for remedy in outcome.remedies:
        applied = apply(broken, remedy.edits)
        assert holds(applied.design)
        assert apply(applied.design, applied.inverse).design == broken


def test_a_way_that_an_earlier_move_shortened_is_not_kept_without_it() -> None:
    """A branch hung elsewhere states a length that follows from the runs before it: leave none of them out."""
    library = Library.of({"minimal": load_book(ROOT / "books" / "minimal.book.yaml").compiled})
    text = (ROOT / "examples" / "boat-house" / "boat-house.design.yaml").read_text(encoding="utf-8")
    loaded = design_from_text(text.replace("to: J2, length: 6 m", "to: J2, length: 60 m"), "boat.design.yaml")
    link(loaded, library.books)
    outcome = find(loaded.design, library, Wanted(subject="main/limit:after_first_branch", budget=400))
    assert outcome.remedies
    for remedy in (*outcome.remedies, *outcome.trades):
        after = evaluate(apply(loaded.design, remedy.edits).design, library)
        check_ways(evaluate(loaded.design, library), after, remedy)


def test_words_are_said_in_both_systems() -> None:
    broken = changed(("{from: J2, to: J3, length: 1 m}", "{from: J2, to: J3, length: 0.3 m}"))
    outcome = find(broken, LIBRARY)
    assert "joint J3 0.2 m further along run J6; the pipe to U2 goes back along it" in words(outcome)
    assert any("0.7 ft further" in text or '7 7/8" further' in text for text in words(outcome, UnitSystem.IP)), words(
        outcome, UnitSystem.IP
    )


def test_locks_are_kept_and_named() -> None:
    broken = changed(("cooling: 2.4 kW, sensible: 1.6 kW", "cooling: 3.1 kW, sensible: 2.2 kW"))
    free = find(broken, LIBRARY)
    assert any("unit U5" in text for text in words(free))
    unit = find(apply(broken, Lock(subject="loft/unit:U5.model")).design, LIBRARY)
    assert not any("unit U5" in text or ", U5" in text for text in words(unit))
    whole = find(apply(broken, Lock(subject="loft")).design, LIBRARY)
    assert whole.remedies == ()
    assert whole.trades == ()
    assert whole.locks == ("loft",)
    assert whole.refused > 0
    assert whole.reached is not None
    assert whole.reached.moves == ()


KEY = Key("loft/limit:a", CheckKind.LIMIT.value, "limits[0]", Sense.MAX)
OTHER = Key("loft/fitting:b", CheckKind.FITTING.value, "fitting", Sense.MAX)
ROOM = Key("room:c.cooling", CheckKind.ROOM.value, "cooling", Sense.MIN)


def check(key: Key, standing: Standing) -> Check:
    return Check(key.subject, CheckKind(key.kind), key.at, Dimension.LENGTH, key.sense, standing)


@pytest.mark.parametrize("standing", [Standing.UNJUDGED, Standing.TO_CONFIRM, Standing.UNSTATED, Standing.OVER])
def test_an_unknown_is_no_cure(standing: Standing) -> None:
    before = {KEY: check(KEY, Standing.OVER)}
    assert against(before, {KEY: check(KEY, standing)}, (KEY,)).unmet == (KEY,)


def test_a_check_that_is_gone_is_a_cure_only_where_it_says_nothing_of_what_holds() -> None:
    before = {key: check(key, Standing.OVER) for key in (KEY, OTHER, ROOM)}
    assert against(before, {}, (KEY, OTHER, ROOM)) == Against((KEY, ROOM), (), 2.0)


@pytest.mark.parametrize("standing", [Standing.UNJUDGED, Standing.TO_CONFIRM, Standing.OVER])
def test_what_stands_worse_is_told(standing: Standing) -> None:
    found = against({KEY: check(KEY, Standing.WITHIN)}, {KEY: check(KEY, standing), OTHER: check(OTHER, standing)}, ())
    assert found.worse == (OTHER, KEY)


def test_an_unknown_length_does_not_become_a_cure() -> None:
    """With a length unknown nothing that waits for it may be listed as met."""
    text = SOUND.replace("{from: J3, to: J6, length: 7 m}", "{from: J3, to: J6, length: unknown}")
    broken = design(text.replace("cooling: 2.4 kW, sensible: 1.6 kW", "cooling: 3.1 kW, sensible: 2.2 kW"))
    outcome = find(broken, LIBRARY)
    standings = {effect.after.standing for one in outcome.remedies for effect in one.cured if effect.after is not None}
    assert standings <= {Standing.WITHIN, Standing.ON_CONDITIONS, Standing.NOT_APPLICABLE}


def test_the_same_budget_gives_the_same_list_in_any_process() -> None:
    program = (
        "from tests.explore.test_remedies import SIX, LIBRARY, design, words, find\n"
        "outcome = find(design(SIX), LIBRARY)\n"
        "print([[one.cost, repr(one.edits)] for one in (*outcome.remedies, *outcome.trades)], outcome.tried)"
    )
    shown = [
        subprocess.run(
            [sys.executable, "-c", program],
            env={**os.environ, "PYTHONHASHSEED": seed, "PYTHONPATH": str(ROOT)},
            cwd=ROOT,
            capture_output=True,
            check=True,
            encoding="utf-8",
        ).stdout
        for seed in ("1", "2")
    ]
    assert shown[0] == shown[1]
    assert "Batch" in shown[0]


@pytest.mark.parametrize("budget", [2, 7, 40])
def test_no_more_is_judged_than_the_budget_allows(budget: int) -> None:
    outcome = find(design(SIX), LIBRARY, Wanted(budget=budget))
    assert outcome.evaluations <= budget
    assert not outcome.stopped
    if not outcome.remedies:
        assert outcome.reached is not None


def test_where_nobody_says_how_much_more_is_tried_as_long_as_nothing_was_found() -> None:
    """The boat house with a load that no model and no group of its book has."""
    load = "cooling: 2.4 kW, sensible: 1.6 kW"
    hopeless = design(SOUND.replace(load, "cooling: 99 kW, sensible: 80 kW"))
    found, stated = find(hopeless, LIBRARY), find(hopeless, LIBRARY, Wanted(budget=20))
    assert not found.remedies
    assert not stated.remedies
    assert (found.budget, stated.budget) == (3 * BUDGET, 20)
    assert BUDGET < found.evaluations <= found.budget
    assert find(design(SIX), LIBRARY).budget == BUDGET


def test_a_search_can_be_stopped() -> None:
    seen: list[Progress] = []

    def go_on(progress: Progress) -> bool:
        seen.append(progress)
        return len(seen) < 5

    outcome = find(design(SIX), LIBRARY, go_on=go_on)
    assert outcome.stopped
    assert len(seen) == 5
    assert outcome.evaluations < 20


def test_one_subject_is_cured_without_the_others() -> None:
    outcome = find(design(SIX), LIBRARY, Wanted(subject="room:store"))
    assert {target.subject for target in outcome.targets} == {"room:store.cooling", "room:store.sensible"}
    assert "unit U5 cassette 3.6 instead of cassette 2.8" in words(outcome)


def test_a_subject_that_is_none_is_refused_with_the_nearest() -> None:
    with pytest.raises(UnknownSubjectError, match="loft/limit:after_first_branch"):
        find(design(SIX), LIBRARY, Wanted(subject="loft/limit:after_first_brunch"))
    with pytest.raises(UnknownSubjectError, match="loft"):
        find(design(SIX), LIBRARY, Wanted(system="loo"))
