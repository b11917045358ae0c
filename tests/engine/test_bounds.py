"""Every limit exactly at, just under and just over its bound, reached by sums, in metres and in feet."""

from collections.abc import Iterator

import pytest

from linewright.book.measures import MeasureName
from linewright.engine import Standing
from linewright.engine.records import Check
from tests.engine.bounds_cases import INDEX_CASES, LENGTH_CASES, LENGTHS, MAX, Case, Nudge, Sketch, Way
from tests.engine.bounds_counts import COUNT_CASES
from tests.engine.builders import book, design, judge, run, system, the_limit, unit
from tests.recovery.bounds_boxes import BOX_COUNT_CASES, BOX_LENGTH_CASES

CASES = (*LENGTH_CASES, *INDEX_CASES, *COUNT_CASES, *BOX_LENGTH_CASES, *BOX_COUNT_CASES)


def all_of(nudges: tuple[Nudge, ...]) -> Iterator[tuple[Case, Way, str, Nudge]]:
    for case in CASES:
        for way in case.ways:
            for sense in case.senses:
                for nudge in nudges:
                    yield case, way, sense, nudge


def name_of(value: object) -> str:
    if isinstance(value, Case):
        return value.name or value.measure.value
    return value.name if isinstance(value, Way | Nudge) else str(value)


def judged(case: Case, sketch: Sketch, sense: str) -> Check:
    limit = {"measure": case.measure.value, sense: sketch.bound, **sketch.variant}
    found = judge(design([sketch.system]), book({**sketch.book, "limits": [limit]}))
    return the_limit(found, case.measure)


@pytest.mark.parametrize(("case", "way", "sense", "nudge"), list(all_of(tuple(Nudge))), ids=name_of)
def test_a_limit_at_its_bound_is_kept_and_just_beyond_it_is_not(case: Case, way: Way, sense: str, nudge: Nudge) -> None:
    beyond = Nudge.OVER if sense == MAX else Nudge.UNDER
    check = judged(case, case.build(way, nudge, sense), sense)
    assert check.standing is (Standing.OVER if nudge is beyond else Standing.WITHIN)
    assert check.value is not None
    assert check.bound is not None
    room = 1.0 if case in (*COUNT_CASES, *BOX_COUNT_CASES) else 2e-6
    sign = (nudge.value - 1) * (1 if sense == MAX else -1)
    assert check.margin == pytest.approx(-sign * abs(check.value - check.bound), abs=1e-12)
    assert (abs(check.value - check.bound) > 1e-8) is (nudge is not Nudge.AT)
    assert abs(check.value - check.bound) <= room


def test_every_measure_has_a_case() -> None:
    assert {case.measure for case in CASES} == set(MeasureName)


def test_every_measure_of_a_length_is_tried_in_metres_and_in_feet() -> None:
    for case in (*LENGTH_CASES, *BOX_LENGTH_CASES):
        assert {way.unit for way in case.ways} == {"m", "ft"}, case.measure


def test_the_sums_really_miss_their_round_figure_from_both_sides() -> None:
    """Else a plain comparison would do, and the tests above could not tell."""
    above: set[MeasureName] = set()
    below: set[MeasureName] = set()
    for case, way, sense, nudge in all_of((Nudge.AT,)):
        check = judged(case, case.build(way, nudge, sense), sense)
        assert check.value is not None
        assert check.bound is not None
        if sense == MAX and check.value > check.bound:
            above.add(case.measure)
        elif sense != MAX and check.value < check.bound:
            below.add(case.measure)
    assert len(above) >= 12, above
    assert len(below) >= 12, below


@pytest.mark.parametrize("way", LENGTHS, ids=name_of)
@pytest.mark.parametrize("nudge", Nudge)
def test_a_relaxed_bound_and_its_need_are_kept_at_their_edges_too(way: Way, nudge: Nudge) -> None:
    """The value is at the relaxed bound, and so is the measure that the relaxed bound needs."""
    bound = f"{way.bound:g} {way.unit}"
    runs = [run("outdoor", "J1", "7 m"), run("J1", "U1", "0 m")]
    nodes = ["J1", *(f"C{i}" for i in range(1, way.pieces)), "U2"]
    runs += [run(nodes[i], nodes[i + 1], piece) for i, piece in enumerate(way.texts(nudge))]
    needs = [{"measure": "last_joint_to_unit", "max": bound}]
    for relaxed, needed in ((bound, needs), ("10 m", needs), (bound, [])):
        limit = {"measure": "after_first_branch", "max": "0.01 m", "relaxed": [{"max": relaxed, "needs": needed}]}
        found = judge(design([system(runs, [unit("U1", 5), unit("U2", 5)])]), book({"limits": [limit]}))
        standing = the_limit(found, "after_first_branch").standing
        assert standing is (Standing.OVER if nudge is Nudge.OVER else Standing.ON_CONDITIONS)


@pytest.mark.parametrize("way", LENGTHS, ids=name_of)
@pytest.mark.parametrize("nudge", Nudge)
def test_a_condition_is_met_at_its_edge_as_its_words_say(way: Way, nudge: Nudge) -> None:
    """`over` and `under` leave the edge out, `at_least` and `at_most` hold it."""
    runs = LENGTH_CASES[0].build(way, nudge, MAX).system["runs"]
    bound = f"{way.bound:g} {way.unit}"
    met = {
        "over": nudge is Nudge.OVER,
        "under": nudge is Nudge.UNDER,
        "at_least": nudge is not Nudge.UNDER,
        "at_most": nudge is not Nudge.OVER,
    }
    for word, holds in met.items():
        when = {"measure": "farthest_actual", word: bound}
        limit = {"measure": "indoor_count", "max": "0", "when": when}
        found = judge(design([system(runs, [unit("U1", 5)])]), book({"limits": [limit]}))
        standing = the_limit(found, "indoor_count").standing
        assert standing is (Standing.OVER if holds else Standing.NOT_APPLICABLE), word
