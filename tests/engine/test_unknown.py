"""An unknown is never a pass: lengths, elevations and allowances that are not stated."""

import pytest

from linewright.engine import Evaluation, Standing
from linewright.report.check_json import check_json
from tests.engine.builders import (
    SITE,
    Doc,
    book,
    design,
    judge,
    one_unit,
    room,
    room_checks,
    run,
    system,
    the_check,
    the_limit,
    the_run,
    the_system,
    the_unit,
    unit,
)


def limited(*limits: Doc, lengths: tuple[str, str, str] = ("30 m", "unknown", "25 m")) -> Evaluation:
    """Outdoor - J1 - U1 and U2 by these lengths; by default the run to U1 is unknown."""
    main, first, second = lengths
    runs = [run("outdoor", "J1", main), run("J1", "U1", first), run("J1", "U2", second)]
    return judge(design([system(runs, [unit("U1", 5), unit("U2", 5)])]), book({"limits": list(limits)}))


def farthest(bound: str, sense: str = "max") -> Doc:
    return {"measure": "farthest_actual", sense: bound}


def test_a_limit_that_the_known_parts_already_break_is_over() -> None:
    """U1 is at least 30 m away, U2 55 m."""
    assert the_limit(limited(farthest("54 m")), "farthest_actual").standing is Standing.OVER
    unknown_main = limited(farthest("24 m"), lengths=("unknown", "20 m", "25 m"))
    assert the_limit(unknown_main, "farthest_actual").standing is Standing.OVER


def test_a_limit_that_the_known_parts_keep_is_unjudged_with_the_metres_left() -> None:
    """55 m are known (U2), of 70 m allowed. The way to U1 is 30 m up to its own run: 40 m are left for that."""
    found = limited(farthest("70 m"))
    limit = the_limit(found, "farthest_actual")
    assert limit.standing is Standing.UNJUDGED
    assert limit.missing == ("length of run U1",)
    assert (limit.value, limit.margin) == pytest.approx((55, 15))
    shown = check_json(found)["systems"][0]["limits"][0]
    assert shown["left"] == pytest.approx(40)
    assert found.standing is Standing.UNJUDGED


def test_a_known_zero_is_not_an_unknown() -> None:
    limit = the_limit(limited(farthest("70 m"), lengths=("30 m", "0 m", "25 m")), "farthest_actual")
    assert (limit.standing, limit.missing) == (Standing.WITHIN, ())


def test_totals_are_lower_bounds() -> None:
    """30 + 25 m are known."""
    assert the_limit(limited({"measure": "total_length", "max": "54 m"}), "total_length").standing is Standing.OVER
    kept = the_limit(limited({"measure": "total_length", "max": "100 m"}), "total_length")
    assert kept.standing is Standing.UNJUDGED
    assert kept.margin == pytest.approx(45)


def test_a_unit_whose_way_is_known_is_judged_alone_where_the_limit_is_on_its_kind() -> None:
    """Only U2 is looked at, and its way is known."""
    found = limited(farthest("55 m") | {"where": {"model": ["unit 4"]}})
    assert the_limit(found, "farthest_actual").standing is Standing.NOT_APPLICABLE
    runs = [run("outdoor", "J1", "30 m"), run("J1", "U1", "unknown"), run("J1", "U2", "25 m")]
    limit = farthest("55 m") | {"where": {"model": ["unit 4"]}}
    found = judge(design([system(runs, [unit("U1", 5), unit("U2", 4)])]), book({"limits": [limit]}))
    assert the_limit(found, "farthest_actual").standing is Standing.WITHIN


@pytest.mark.parametrize("bound", ["1 m", "1000 m"])
@pytest.mark.parametrize("sense", ["max", "min"])
def test_a_difference_that_needs_an_unknown_length_has_no_value(bound: str, sense: str) -> None:
    limit = the_limit(limited({"measure": "nearest_farthest_difference", sense: bound}), "nearest_farthest_difference")
    assert (limit.standing, limit.value) == (Standing.UNJUDGED, None)


@pytest.mark.parametrize(
    ("bound", "standing"),
    [("30 m", Standing.WITHIN), ("31 m", Standing.UNJUDGED), ("56 m", Standing.OVER)],
    ids=["both are that far", "U1 may or may not be", "U2 is known to be nearer"],
)
def test_under_a_least_bound_a_lower_bound_proves_only_what_is_known(bound: str, standing: Standing) -> None:
    """U1 is 30 m or more away, U2 55 m."""
    assert the_limit(limited(farthest(bound, "min")), "farthest_actual").standing is standing


def test_a_relaxed_bound_whose_need_is_unknown_leaves_the_limit_unjudged() -> None:
    """U2 is 55 m away, over 50; the relaxed 60 m needs every unit within 30 m of its joint, and U1 is not known."""
    relaxed = [{"max": "60 m", "needs": [{"measure": "last_joint_to_unit", "max": "30 m"}]}]
    limit = the_limit(limited(farthest("50 m") | {"relaxed": relaxed}), "farthest_actual")
    assert limit.standing is Standing.UNJUDGED
    assert "length of run U1" in limit.missing
    # Where the value is beyond the relaxed bound as well, nothing unknown can help.
    relaxed[0]["max"] = "54 m"
    limit = the_limit(limited(farthest("50 m") | {"relaxed": relaxed}), "farthest_actual")
    assert limit.standing is Standing.OVER


def test_a_mandatory_action_that_an_unknown_length_may_make_due_is_unjudged() -> None:
    action = {
        "id": "up", "runs": "main", "lines": ["gas"], "when": {"measure": "farthest_actual", "over": "60 m"},
    }  # fmt: skip
    runs = [run("outdoor", "J1", "30 m"), run("J1", "U1", "unknown"), run("J1", "U2", "25 m")]
    laid_out = system(runs, [unit("U1", 5), unit("U2", 5)])
    found = judge(design([laid_out]), book({"sizing.actions": [action]}))
    assert the_check(found, "action:up").standing is Standing.UNJUDGED
    action["when"] = {"measure": "farthest_actual", "over": "50 m"}
    found = judge(design([laid_out]), book({"sizing.actions": [action]}))
    assert the_check(found, "action:up").standing is Standing.WITHIN


def test_a_limit_whose_condition_cannot_be_known_is_unjudged() -> None:
    when = {"measure": "farthest_actual", "over": "60 m"}
    limit = the_limit(limited({"measure": "indoor_count", "max": 9, "when": when}), "indoor_count")
    assert limit.standing is Standing.UNJUDGED
    assert "length of run U1" in limit.missing


def test_charge_and_capacity_need_every_length() -> None:
    used = book(
        {
            "charge": {"liquid": {"6.35 mm": "0.02 kg/m", "9.52 mm": "0.05 kg/m"}},
            "capacity.cooling": {"length": {"equivalent": ["1 m", "100 m"], "factor": [[1.0], [0.8]]}},
        }
    )
    runs = [run("outdoor", "J1", "30 m"), run("J1", "U1", "unknown"), run("J1", "U2", "25 m")]
    laid_out = system(runs, [unit("U1", 5, room="hall"), unit("U2", 5)])
    found = judge(design([laid_out], rooms=[room("hall", "1 kW")], site=SITE), used)
    charge = the_system(found).charge
    assert (charge.unrounded_kg, charge.rounded_kg, charge.total_kg) == (None, None, None)
    assert charge.missing == ("length of run U1",)
    assert the_check(found, "charge").standing is Standing.UNJUDGED
    assert the_check(found, "capacity.cooling").standing is Standing.UNJUDGED
    assert room_checks(found, "hall")["cooling"].standing is Standing.UNJUDGED
    assert the_unit(found, "U1").reach_m is None
    assert the_unit(found, "U2").reach_m == pytest.approx(55)


def test_an_as_built_length_serves_the_charge_of_a_run_whose_length_is_not_stated() -> None:
    used = book({"charge": {"liquid": {"9.52 mm": "0.05 kg/m"}}})
    runs = [run("outdoor", "U1", "unknown", as_built="40 m")]
    charge = the_system(judge(design([system(runs, [unit("U1", 5)])]), used)).charge
    assert charge.rounded_kg == pytest.approx(2)


@pytest.mark.parametrize("what", ["bend", "valve", "joint"])
def test_a_fitting_without_an_allowance_leaves_equivalent_lengths_unjudged_and_actual_ones_judged(what: str) -> None:
    allowances = {name: "1 m" for name in ("bend", "valve", "joint") if name != what}
    limits = [{"measure": "farthest_equivalent", "max": "90 m"}, farthest("90 m")]
    runs = [run("outdoor", "J1", "30 m", bends=1, items=[{"kind": "valve", "count": 1}])]
    runs += [run("J1", "U1", "20 m"), run("J1", "U2", "25 m")]
    laid_out = system(runs, [unit("U1", 5), unit("U2", 5)])
    found = judge(design([laid_out]), book({"fittings.allowance": allowances, "limits": limits}))
    assert the_limit(found, "farthest_equivalent").standing is Standing.UNJUDGED
    assert the_run(found, "J1").equivalent_m is None
    assert the_limit(found, "farthest_actual").standing is Standing.WITHIN


def test_an_allowance_table_that_does_not_list_the_diameter_gives_none() -> None:
    """The main is 22.22; 7/8 in is the same size, 19.05 is not."""
    runs, units = [run("outdoor", "U1", "30 m", bends=2)], [unit("U1", 5)]
    listed = book({"fittings.allowance": {"bend": {"7/8 in": "0.4 m"}}})
    assert the_run(judge(design([system(runs, units)]), listed), "U1").equivalent_m == pytest.approx(30.8)
    unlisted = book({"fittings.allowance": {"bend": {"19.05 mm": "0.4 m"}}})
    assert the_run(judge(design([system(runs, units)]), unlisted), "U1").equivalent_m is None


@pytest.mark.parametrize("measure", ["level_outdoor_above", "level_outdoor_below"])
def test_a_level_difference_needs_both_elevations(measure: str) -> None:
    runs, units = one_unit()
    used = book({"limits": [{"measure": measure, "max": "50 m"}]})
    nowhere = system(runs, units, elevation="")
    assert the_limit(judge(design([nowhere]), used), measure).standing is Standing.UNJUDGED
    hanging = system(runs, [unit("U1", 5, elevation="")])
    assert the_limit(judge(design([hanging]), used), measure).standing is Standing.UNJUDGED
    assert the_limit(judge(design([system(runs, units)]), used), measure).standing is Standing.WITHIN


@pytest.mark.parametrize(
    ("sense", "bound", "standing"),
    [
        ("max", "5.9 m", Standing.OVER),  # the first run alone rises by 6 m
        ("max", "10 m", Standing.UNJUDGED),  # 6 + ? + 5 m; the middle may as well fall by 6 m and more
        ("min", "6.1 m", Standing.OVER),  # the first run rises by 6 m and no more
        ("min", "6 m", Standing.UNJUDGED),  # up to U1 it is 5 m, and perhaps more
    ],
)
def test_beyond_an_unknown_rise_only_what_was_climbed_since_is_known(
    sense: str, bound: str, standing: Standing
) -> None:
    runs = [run("outdoor", "C1", "8 m", rise="6 m"), run("C1", "C2", "8 m"), run("C2", "U1", "8 m", rise="5 m")]
    laid_out = system(runs, [unit("U1", 5, elevation="")], elevation="")
    limits = [{"measure": "rise_without_trap", sense: bound}]
    limit = the_limit(judge(design([laid_out]), book({"limits": limits})), "rise_without_trap")
    assert limit.standing is standing
    assert limit.left is None
    assert limit.missing == (("rise of run C2",) if standing is Standing.UNJUDGED else ())


@pytest.mark.parametrize(
    ("sense", "bound", "standing"),
    [("max", "1 m", Standing.OVER), ("max", "9 m", Standing.UNJUDGED), ("min", "9 m", Standing.UNJUDGED)],
)
def test_a_difference_known_along_one_of_two_lines_is_a_lower_bound(sense: str, bound: str, standing: Standing) -> None:
    """Gas: 5 + 1 and 8 m, 2 m apart; a bend of the liquid line has no allowance at its diameter."""
    runs = [run("outdoor", "J1", "30 m"), run("J1", "U1", "5 m", bends=1), run("J1", "U2", "8 m")]
    limit = {"measure": "nearest_farthest_difference", sense: bound, "lengths": "equivalent"}
    allowances = {"joint": "0 m", "bend": {"12.7 mm": "1 m"}}
    changes = {"fittings.allowance": allowances, "fittings.allowance_line": "both", "limits": [limit]}
    found = judge(design([system(runs, [unit("U1", 5), unit("U2", 5)])]), book(changes))
    assert the_limit(found, "nearest_farthest_difference").standing is standing


@pytest.mark.parametrize(
    ("condition", "standing"),
    [
        ({"under": "9 m"}, Standing.OVER),  # J1 to J2 is 8 m: what J2 to J3 is does not matter
        ({"over": "4 m"}, Standing.OVER),  # neither is 4 m or less
        ({"over": "5 m"}, Standing.UNJUDGED),  # J2 to J3 is 5 m or more
        ({"over": "8 m"}, Standing.NOT_APPLICABLE),
        ({"at_most": "5 m"}, Standing.UNJUDGED),
    ],
)
def test_a_condition_on_a_smallest_value_is_decided_by_what_is_known(condition: Doc, standing: Standing) -> None:
    """J1 to J2 is 8 m, J2 to J3 5 m and an unknown length; the limit itself is over."""
    runs = [run("outdoor", "J1", "10 m"), run("J1", "U1", "5 m"), run("J1", "J2", "8 m"), run("J2", "U2", "5 m")]
    runs += [run("J2", "C1", "5 m"), run("C1", "J3", "unknown"), run("J3", "U3", "5 m"), run("J3", "U4", "5 m")]
    limits = [{"measure": "indoor_count", "max": "3", "when": [{"measure": "joint_spacing", **condition}]}]
    laid_out = system(runs, [unit(f"U{i}", 2) for i in (1, 2, 3, 4)])
    assert the_limit(judge(design([laid_out]), book({"limits": limits})), "indoor_count").standing is standing


def test_a_run_of_no_length_charges_nothing_whatever_its_size() -> None:
    """20 m of 9.52 are charged; J2 stands at J1 and its index of 8 is beyond the table."""
    changes: Doc = {"charge": {"liquid": {"9.52 mm": "0.05 kg/m"}}}
    changes["sizing.branch"] = {"rows": [{"upto": 5, "gas": "15.88 mm", "liquid": "6.35 mm"}]}
    runs = [run("outdoor", "J1", "20 m"), run("J1", "J2", "0 m"), run("J1", "U1", "0 m")]
    runs += [run("J2", "U2", "0 m"), run("J2", "U3", "0 m")]
    units = [unit("U1", 2), unit("U2", 4), unit("U3", 4)]
    found = the_system(judge(design([system(runs, units)]), book(changes)))
    assert found.charge.rounded_kg == pytest.approx(1)
