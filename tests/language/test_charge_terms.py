"""Terms of the charge: what they are made of, what the factory charge covers, what an option adds; by hand."""

import math

import pytest

from linewright.engine import Evaluation
from linewright.engine.working import Step, replay, working
from linewright.errors import InputFaultsError
from tests.engine.builders import Doc, book, design, judge, run, system, the_check, the_system, two_units, unit

LIQUID = {"6.35 mm": "0.02 kg/m", "9.52 mm": "0.05 kg/m", "12.7 mm": "0.1 kg/m"}


def charged(charge: Doc, more: Doc | None = None, **what: object) -> Evaluation:
    made = system(*two_units("5 m", "20 m"), **what) | (more or {})  # type: ignore[arg-type]
    return judge(design([made]), book({"charge": charge}))


def kg(evaluation: Evaluation, name: str) -> float | None:
    return next(term.kg for term in the_system(evaluation).charge.terms if term.name == name)


def steps_of(evaluation: Evaluation) -> dict[str, Step]:
    """Steps of the charge by name; each replays."""
    found = working(evaluation, "main/charge").steps
    for step in found:
        assert isinstance(step.result, float)
        assert math.isclose(replay(step), step.result, abs_tol=1e-12), step
    return {step.name: step for step in found}


def test_a_term_shows_what_it_is_made_of() -> None:
    # Gas: the main 10 m of 22.22 mm, 25 m of 12.7 mm, at 0.01: 0.1 + 0.25. Units of 5: 0.2 each. Index 10 at 0.03.
    terms = [
        {"name": "gas", "per": "length", "lines": ["gas"], "rate": "0.01 kg/m"},
        {"name": "coils", "per": "unit", "each": {"wall": "0.2 kg"}},
        {"name": "points", "per": "index", "of": "outdoor", "add": "0.03 kg"},
    ]
    evaluation = charged({"terms": terms})
    assert kg(evaluation, "gas") == pytest.approx(0.35)
    assert kg(evaluation, "coils") == 0.4
    assert kg(evaluation, "points") == pytest.approx(0.3)
    steps = steps_of(evaluation)
    assert steps["gas, gas 22.22 mm"].result == pytest.approx(0.1)
    assert steps["gas, gas 12.7 mm"].result == pytest.approx(0.25)
    assert [(item.name, item.value, item.from_) for item in steps["coils"].inputs] == [
        ("U1", 0.2, "book:plain:charge.terms[1].each.wall"),
        ("U2", 0.2, "book:plain:charge.terms[1].each.wall"),
    ]
    assert [item.value for item in steps["points, outdoor index"].inputs] == [10, 0.03]


def test_a_model_goes_before_its_kind() -> None:
    terms = [{"name": "coils", "per": "unit", "each": {"wall": "0.2 kg", "unit 5": "0.5 kg"}}]
    assert kg(charged({"terms": terms}), "coils") == 1.0


def test_terms_may_be_less_than_nothing_and_the_charge_no_less_than_its_floor() -> None:
    # 1.0 of liquid (10 x 0.05 + 25 x 0.02) less 1.6; the floor is 0.
    terms = [{"name": "delivered", "add": "-1.6 kg"}]
    low = the_system(charged({"liquid": LIQUID, "terms": terms})).charge
    assert low.rounded_kg == pytest.approx(-0.6)
    assert the_system(charged({"liquid": LIQUID, "terms": terms, "min": "0 kg"})).charge.rounded_kg == 0.0


def test_the_factory_charge_covers_the_main_first() -> None:
    # A main of 4 m and 6 m of 9.52 mm, an overridden branch of 12.7 mm, 8 m: covered from the main, 12 m are all of the
    # main and 2 m of the largest: 6 x 0.1 + 25 x 0.02. From the largest: 8 m of 12.7 and 4 of 9.52 mm.
    runs = [run("outdoor", "C", "4 m"), run("C", "J1", "6 m"), run("J1", "J2", "8 m", liquid="12.7 mm")]
    runs += [run("J1", "U1", "5 m"), run("J2", "U2", "10 m"), run("J2", "U3", "10 m")]
    made = design([system(runs, [unit(name, 3) for name in ("U1", "U2", "U3")])])
    sums = {}
    for first in ("main", "largest"):
        charge = {"liquid": LIQUID, "covered": {"length": "12 m", "from": first}}
        sums[first] = the_system(judge(made, book({"charge": charge, "sizing.cap": "none"}))).charge.sum_kg
    assert sums["main"] == pytest.approx(6 * 0.1 + 25 * 0.02)
    assert sums["largest"] == pytest.approx(6 * 0.05 + 25 * 0.02)


def test_more_covered_than_there_is_leaves_nothing() -> None:
    for first in ("main", "largest", "smallest"):
        charge = {"liquid": LIQUID, "covered": {"length": "99 m", "from": first}}
        assert the_system(charged(charge)).charge.sum_kg == pytest.approx(0)


def test_an_option_adds_terms_under_its_own_conditions() -> None:
    kit = {
        "id": "kit",
        "text": "Oil kit.",
        "page": 9,
        "when": {"measure": "indoor_count", "at_least": 2},
        "terms": [{"name": "kit", "per": "module", "add": "0.3 kg"}],
    }
    used = book({"options": [kit], "charge": {"terms": [{"name": "own", "add": "1 kg"}]}})
    made = system(*two_units("5 m", "5 m")) | {"options": ["kit"]}
    evaluation = judge(design([made]), used)
    assert (kg(evaluation, "own"), kg(evaluation, "kit")) == (1, 0.3)
    assert steps_of(evaluation)["kit"].inputs[0].from_ == "book:plain:options[0].terms[0].add"
    assert the_check(evaluation, "option:kit").standing == "within"
    alone = system([run("outdoor", "U1", "5 m")], [unit("U1", 5)]) | {"options": ["kit"]}
    check = the_check(judge(design([alone]), used), "option:kit")
    assert (check.standing, check.page, check.note) == ("over", 9, "not allowed here: Oil kit.")
    off = judge(design([system(*two_units("5 m", "5 m"))]), used)
    assert [term.name for term in the_system(off).charge.terms] == ["own"]


def test_an_option_on_a_site_that_says_nothing_is_unjudged() -> None:
    kit = {"id": "kit", "text": "Kit.", "when": {"site": "altitude", "over": "500 m"}}
    made = system(*two_units("5 m", "5 m")) | {"options": ["kit"]}
    check = the_check(judge(design([made]), book({"options": [kit]})), "option:kit")
    assert (check.standing, check.missing) == ("unjudged", ("altitude of the site",))


def test_a_largest_charge_of_the_group_goes_before_that_of_the_book() -> None:
    group = {"modules": ["outdoor 10"], "index": 10, "largest_charge": "0.8 kg"}
    charge = {"liquid": LIQUID, "max": "5 kg"}
    evaluation = judge(design([system(*two_units("5 m", "20 m"))]), book({"outdoor.groups": [group], "charge": charge}))
    check = the_check(evaluation, "charge")
    assert (check.bound, check.standing) == (0.8, "over")


def test_bands_of_a_measure_show_the_measure() -> None:
    # 10 + 5 + 20 = 35 m of pipe, in the band to 60 m.
    rows = [{"upto": "30 m", "add": "0 kg"}, {"upto": "60 m", "add": "0.7 kg"}]
    evaluation = charged({"terms": [{"name": "long", "by": "total_length", "rows": rows}]})
    inputs = steps_of(evaluation)["long"].inputs
    assert [(item.value, item.from_) for item in inputs] == [
        (35, "main/measure:total_length"),
        (60, "book:plain:charge.terms[0].rows[1]"),
        (0.7, "book:plain:charge.terms[0].rows[1].add"),
    ]


ROWS = [{"upto": "99 m", "add": "1 kg"}]


@pytest.mark.parametrize(
    ("term", "said"),
    [
        ({"per": "unit", "add": "1 kg", "lines": ["gas"]}, "a term per unit has no lines"),
        ({"per": "length", "rate": "1 g/m", "lines": ["gas", "gas"]}, "a line stands twice"),
        ({"per": "length", "rate": "-1 g/m", "lines": ["gas"]}, "no tube holds less than nothing"),
        ({"per": "unit", "add": "1 kg", "of": "outdoor"}, "a term per unit is not of an index"),
        ({"add": "1 kg", "by": "total_length"}, "a measure is named and no bands of it"),
        (
            {"per": "unit", "by": "total_length", "rows": ROWS},
            "bands of a measure are of the whole system, not of a unit",
        ),
    ],
)
def test_a_term_that_says_what_would_not_count_is_a_fault(term: Doc, said: str) -> None:
    with pytest.raises(InputFaultsError) as error:
        charged({"terms": [{"name": "x"} | term]})
    assert [fault.message for fault in error.value.faults] == [said]
    with pytest.raises(InputFaultsError) as error:
        judge(
            design([system(*two_units("5 m", "5 m"))]),
            book({"options": [{"id": "kit", "text": "Kit.", "terms": [{"name": "x"} | term]}]}),
        )
    assert [(fault.path.partition(".")[0], fault.message) for fault in error.value.faults] == [("options[0]", said)]


def test_a_covered_length_of_nothing_is_a_fault() -> None:
    with pytest.raises(InputFaultsError) as error:
        charged({"covered": {"length": "9 m"}, "terms": [{"name": "x", "add": "1 kg"}]})
    said = "nothing is charged by liquid, of which it would be taken off"
    assert [fault.message for fault in error.value.faults] == [said]


def test_a_term_whose_condition_nobody_knows_leaves_the_charge_unknown() -> None:
    terms = [{"name": "thin air", "add": "0.2 kg", "when": {"site": "altitude", "over": "1000 m"}}]
    charge = the_system(charged({"liquid": LIQUID, "terms": terms, "max": "9 kg"})).charge
    assert (charge.rounded_kg, charge.missing) == (None, ("altitude of the site",))
    evaluation = charged({"liquid": LIQUID, "terms": terms, "max": "9 kg"})
    assert the_check(evaluation, "charge").standing == "unjudged"


def test_bands_of_a_measure_that_nobody_knows_leave_the_charge_unknown() -> None:
    made = design([system(*two_units("unknown", "20 m"))])
    term = {"name": "long", "by": "total_length", "rows": [{"upto": "90 m", "add": "1 kg"}]}
    charge = the_system(judge(made, book({"charge": {"terms": [term]}}))).charge
    assert (charge.rounded_kg, charge.missing) == (None, ("the measure total_length",))
