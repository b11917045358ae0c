"""What is unknown, tied or asked for twice: nothing is judged that what is known does not decide."""

from linewright.engine import Standing
from tests.engine.builders import book, design, judge, run, system, the_limit, the_system, unit


def climbing(*, trap: bool = False, bound: str = "max") -> tuple[Standing, float | None, tuple[str, ...]]:
    """Rises of 4 m, unknown, 6 m on the way to X (and a unit Y at the first branch)."""
    items = [{"kind": "trap"}] if trap else []
    runs = [
        run("outdoor", "J1", "9 m", rise="4 m"),
        run("J1", "Y", "9 m", rise="0 m"),
        run("J1", "C1", "9 m"),
        run("C1", "X", "9 m", rise="6 m", items=items),
    ]
    units = [unit("Y", 1, elevation=""), unit("X", 1, elevation="")]
    made = system(runs, units, elevation="")
    check = the_limit(
        judge(design([made]), book({"limits": [{"measure": "rise_without_trap", bound: "9 m"}]})), "rise_without_trap"
    )
    return check.standing, check.value, check.missing


def test_a_rise_beyond_an_unknown_one_is_a_lower_bound() -> None:
    # 4 m, then unknown (it may lead down as far as it likes), then 6 m: at least 6 m, perhaps more than 9 m.
    assert climbing() == (Standing.UNJUDGED, 6, ("rise of run C1",))


def test_a_trap_on_the_last_run_leaves_only_the_part_before_it_in_doubt() -> None:
    # The trap divides 6 m into 3 m and 3 m; the first 3 m follow on the unknown rise.
    assert climbing(trap=True) == (Standing.UNJUDGED, 4, ("rise of run C1",))


def test_a_least_rise_is_not_broken_by_a_lower_bound() -> None:
    # Y: 4 m, the main 4 m: under the least of 9 m whatever the unknown rise is.
    standing, _, _ = climbing(bound="min")
    assert standing is Standing.OVER


def test_levels_that_differ_by_rounding_alone_are_one_level() -> None:
    # Outdoor a ten-billionth of a millimetre above the unit: neither stands above the other.
    made = system([run("outdoor", "X", "9 m")], [unit("X", 1, elevation="0.3 m")], elevation="0 m")
    made["outdoor"]["elevation"] = "300.0000000001 mm"
    where = {"measure": "indoor_count", "max": 0, "where": {"outdoor": "above"}}
    below = {"measure": "indoor_count", "max": 0, "where": {"outdoor": "below"}}
    found = judge(design([made]), book({"limits": [where, below]}))
    assert {check.standing for check in the_system(found).limits} == {Standing.NOT_APPLICABLE}


def test_an_action_is_carried_out_though_another_asks_more_of_the_same_tube() -> None:
    # Main 22.22 and 9.52 mm. X has 12.7 and 6.35 mm: one step is 15.88 and 9.52, three steps 22.22 and 15.88, which the
    # cap at the main holds back to 9.52: `three` fails, `one` does not.
    always = {"measure": "indoor_count", "at_least": 1}
    actions = [
        {"id": name, "runs": "unit-run", "lines": ["gas", "liquid"], "steps": steps, "paths": "all", "when": always}
        for name, steps in (("one", 1), ("three", 3))
    ]
    runs = [run("outdoor", "J1", "9 m"), run("J1", "X", "9 m"), run("J1", "Y", "9 m")]
    found = the_system(judge(design([system(runs, [unit("X", 1), unit("Y", 1)])]), book({"sizing.actions": actions})))
    assert {action.id: action.carried_out for action in found.actions} == {"one": True, "three": False}


def test_charge_per_length_names_the_lengths_that_it_lacks() -> None:
    made = system([run("outdoor", "X", "unknown")], [unit("X", 1)])
    check = the_limit(
        judge(design([made]), book({"limits": [{"measure": "charge_per_length", "max": "1 kg/m"}]})),
        "charge_per_length",
    )
    assert (check.standing, check.missing) == (Standing.UNJUDGED, ("length of run X",))


def test_a_difference_of_module_pipes_is_taken_along_one_line() -> None:
    # Bends: 1 m by gas tube, 2 m by liquid tube. Along gas: 1 + 1 = 2 and 4 m, 2 m apart; along liquid: 3 and 4 m, 1 m
    # apart. The longer of each module's lines, 3 and 4 m, would be 1 m apart.
    allowance = {"bend": {"22.22 mm": "1 m", "9.52 mm": "2 m"}, "joint": "0 m", "header": "0 m", "outdoor_joint": "0 m"}
    limit = {"measure": "module_pipe_difference", "lengths": "equivalent", "max": "5 m"}
    pipes = [run("outdoor", "M1", "1 m", bends=1), run("outdoor", "M2", "4 m")]
    modules = [{"id": "M1", "model": "outdoor 10"}, {"id": "M2", "model": "outdoor 10"}]
    made = system([run("outdoor", "X", "9 m")], [unit("X", 10)], modules=modules, pipes=pipes)
    changes = {"fittings.allowance": allowance, "fittings.allowance_line": "both", "limits": [limit]}
    assert the_limit(judge(design([made]), book(changes)), "module_pipe_difference").value == 2
