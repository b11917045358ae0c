"""Situations of a practising engineer, each worked by hand.

1. The job grows: one more unit on a header's spare port, when the pipe to it is already bought.
2. The outdoor unit moves from the roof to the yard, below the units.
3. A riser with oil traps, one of which is left out on the drawing.
4. The fitters go round a beam: the as-built length is longer than the drawn one.
5. The size is out of stock, and the next larger tube is brazed in.
6. Two modules stand at different heights and at different distances from their joint.
7. One ventilation unit among ordinary ones, with bounds of its own.
8. One unit hangs far from its joint, and its own liquid line must be larger.
9. Hard tube comes in straight lengths, and every coupling counts.
10. The night is colder than the book's table.
"""

import pytest

from linewright.engine import Evaluation, Standing
from linewright.report.check_json import check_json
from tests.engine.builders import (
    SITE,
    Doc,
    book,
    chain,
    design,
    judge,
    model,
    module,
    room,
    room_checks,
    run,
    system,
    the_check,
    the_limit,
    the_run,
    the_system,
    tube_mm,
    two_units,
    unit,
)

LIQUID = {"6.35 mm": "0.02 kg/m", "9.52 mm": "0.05 kg/m", "12.7 mm": "0.1 kg/m"}


def additional_kg(found: Evaluation) -> float | None:
    return the_system(found).charge.rounded_kg


def grown(units_on_header: int) -> Evaluation:
    """J1 with a unit of 5, and a header of four ports with so many units of 2: J1 - H2 is sized by those."""
    names = [f"A{i}" for i in range(units_on_header)]
    runs = [run("outdoor", "J1", "10 m"), run("J1", "X", "5 m"), run("J1", "H2", "10 m")]
    runs += [run("H2", name, "5 m") for name in names]
    laid_out = system(
        runs, [unit("X", 5), *(unit(name, 2) for name in names)], fittings=[{"id": "H2", "kind": "header"}]
    )
    header = {"rows": [{"upto": 30, "ports": 4, "model": "header 4"}]}
    bands = [{"upto": "100 %", "add": "0 kg"}, {"upto": "130 %", "add": "0.3 kg"}]
    limits = [{"measure": "connection_ratio", "max": "120 %"}]
    charge = {"liquid": LIQUID, "connection_ratio": bands}
    return judge(design([laid_out]), book({"fittings.header": header, "charge": charge, "limits": limits}))


@pytest.mark.parametrize(
    ("count", "ratio", "standing", "pipe_mm", "caps", "kg"),
    [
        # 5 + 4 = 9 on 10. J1 - H2 carries 4: 15.88 and 6.35. Main 10 m at 0.05, then 5 + 10 + 2 x 5 m at 0.02.
        (2, 0.9, Standing.WITHIN, (15.88, 6.35), 2, 0.5 + 25 * 0.02),
        # 11 on 10: the next band of the ratio. J1 - H2 carries 6: 19.05 and 9.52, so its 10 m count 0.05.
        (3, 1.1, Standing.WITHIN, (19.05, 9.52), 1, 0.5 + 0.5 + 20 * 0.02 + 0.3),
        (4, 1.3, Standing.OVER, (19.05, 9.52), 0, 0.5 + 0.5 + 25 * 0.02 + 0.3),
    ],
)
def test_1_one_more_unit_changes_ratio_pipe_caps_and_charge(
    count: int, ratio: float, standing: Standing, pipe_mm: tuple[float, float], caps: int, kg: float
) -> None:
    found = grown(count)
    limit = the_limit(found, "connection_ratio")
    assert limit.value == pytest.approx(ratio)
    assert limit.standing is standing
    assert (tube_mm(found, "H2"), tube_mm(found, "H2", "liquid")) == pipe_mm
    fittings = {fitting["id"]: fitting for fitting in check_json(found)["systems"][0]["fittings"]}
    assert fittings["H2"]["caps"] == caps
    assert additional_kg(found) == pytest.approx(kg)
    # Main and first joint stay what the outdoor unit asks for.
    assert (tube_mm(found, "J1"), tube_mm(found, "J1", "liquid")) == (22.22, 9.52)


@pytest.mark.parametrize(
    ("elevation", "above", "below", "factor"),
    [
        # 20 m is half-way between 10 and 30: 0.9 at level 0 and above.
        ("12 m", (12, Standing.WITHIN), (0, Standing.WITHIN), 0.9),
        # Below: 0.9 at 0 and 0.8 at -10 m, so 0.9 - 0.3 x 0.1 = 0.87 at -3 m.
        ("-3 m", (0, Standing.WITHIN), (3, Standing.OVER), 0.87),
    ],
    ids=["roof", "yard"],
)
def test_2_moving_the_outdoor_unit_to_the_yard_swaps_level_limit_and_capacity(
    elevation: str, above: tuple[float, Standing], below: tuple[float, Standing], factor: float
) -> None:
    table = {
        "equivalent": ["10 m", "30 m"],
        "level": ["-10 m", "0 m", "20 m"],
        "factor": [[0.9, 1.0, 1.0], [0.7, 0.8, 0.8]],
    }
    limits = [{"measure": "level_outdoor_above", "max": "50 m"}, {"measure": "level_outdoor_below", "max": "2 m"}]
    laid_out = system([run("outdoor", "U1", "20 m")], [unit("U1", 10)], elevation=elevation)
    found = judge(design([laid_out], site=SITE), book({"limits": limits, "capacity.cooling": {"length": table}}))
    for measure, (value, standing) in (("level_outdoor_above", above), ("level_outdoor_below", below)):
        limit = the_limit(found, measure)
        assert limit.value == pytest.approx(value)
        assert limit.standing is standing
    cooling = the_system(found).cooling
    assert cooling is not None
    assert cooling.capacity_w == pytest.approx(10_000 * factor)


def trap(count: int) -> list[Doc]:
    return [{"kind": "trap", "count": count}] if count else []


@pytest.mark.parametrize(
    ("traps", "between", "highest", "standing"),
    [
        # 30 m in one riser, then 5 m more after a level pipe.
        ((2, 1), 0.0, 12.5, Standing.OVER),  # 10 m thrice, the last going on by half of 5 m
        ((2, 2), 0.0, 10 + 5 / 3, Standing.OVER),
        ((3, 1), 0.0, 10.0, Standing.WITHIN),  # 7.5 m four times, the last going on by 2.5 m
        ((3, 0), 0.0, 12.5, Standing.OVER),  # the trap above is left out: 7.5 + 5 m
        ((3, 0), -2.5, 10.0, Standing.WITHIN),  # but the pipe falls by 2.5 m before it rises again
        ((0, 0), 0.0, 35.0, Standing.OVER),
    ],
)
def test_3_a_rise_is_counted_from_the_last_trap(
    traps: tuple[int, int], between: float, highest: float, standing: Standing
) -> None:
    runs = [
        run("outdoor", "C1", "30 m", rise="30 m", items=trap(traps[0])),
        run("C1", "C2", "10 m", rise=f"{between} m"),
        run("C2", "U1", "6 m", rise="5 m", items=trap(traps[1])),
    ]
    limits = [{"measure": "rise_without_trap", "max": "10 m"}]
    laid_out = system(runs, [unit("U1", 5, elevation="")])
    limit = the_limit(judge(design([laid_out]), book({"limits": limits})), "rise_without_trap")
    assert limit.value == pytest.approx(highest)
    assert limit.standing is standing


@pytest.mark.parametrize(("as_built", "kg"), [("", 1.0), ("26 m", 1.3), ("18 m", 0.9)])
def test_4_a_detour_on_site_changes_the_charge_and_leaves_the_drawn_lengths(as_built: str, kg: float) -> None:
    """20 m at 0.05 kg/m as drawn; the length limit is that of the drawing."""
    limits = [{"measure": "farthest_actual", "max": "22 m"}]
    laid_out = system([run("outdoor", "U1", "20 m", as_built=as_built)], [unit("U1", 5)])
    found = judge(design([laid_out]), book({"charge": {"liquid": LIQUID}, "limits": limits}))
    assert additional_kg(found) == pytest.approx(kg)
    assert the_limit(found, "farthest_actual").value == pytest.approx(20)


@pytest.mark.parametrize(
    ("liquid", "standing", "kg"),
    [
        ("", Standing.WITHIN, 0.5 + 30 * 0.02),
        ("9.52 mm", Standing.UNJUDGED, 0.5 + 10 * 0.05 + 20 * 0.02),  # larger, and the book says nothing of it
        ("12.7 mm", Standing.OVER, 0.5 + 10 * 0.1 + 20 * 0.02),  # larger than the main
    ],
    ids=["as the table says", "one size up", "two sizes up"],
)
def test_5_a_larger_tube_from_the_van_is_charged_for_and_is_no_pass(liquid: str, standing: Standing, kg: float) -> None:
    """J2 carries 4: liquid 6.35 by the table. 10 m each of main (0.05) and J2, 5 m of each of four unit runs."""
    runs = [run("outdoor", "H1", "10 m"), run("H1", "J2", "10 m", liquid=liquid)]
    runs += [run("H1", "U1", "5 m"), run("H1", "U2", "5 m"), run("J2", "U3", "5 m"), run("J2", "U4", "5 m")]
    laid_out = system(runs, [unit(f"U{i}", 2) for i in (1, 2, 3, 4)], fittings=[{"id": "H1", "kind": "header"}])
    found = judge(design([laid_out]), book({"charge": {"liquid": LIQUID}}))
    assert additional_kg(found) == pytest.approx(kg)
    if liquid:
        assert the_check(found, "run:J2.liquid").standing is standing
    assert found.standing is standing


def test_6_of_two_modules_the_higher_the_lower_and_the_farther_each_count_where_they_are_worst() -> None:
    """Modules at 6 and 7 m, 2 and 3 m from the joint; units at 0 and 6.5 m, 20 and 25 m beyond it.

    Above: 7 - 0 m. Below: 6.5 - 6 m. Farthest: 3 + 25 m. Liquid: main 10 m at 12.7, pipes 2 + 3 m at 9.52 (their
    ports), unit runs 10 + 15 m at 6.35: 1.0 + 0.25 + 0.5 kg.
    """
    modules = [{"model": "outdoor 10", "id": f"M{i}", "elevation": f"{5 + i} m"} for i in (1, 2)]
    pipes = [run("outdoor", "M1", "2 m"), run("outdoor", "M2", "3 m")]
    runs = [run("outdoor", "J1", "10 m"), run("J1", "U1", "10 m"), run("J1", "U2", "15 m")]
    units = [unit("U1", 5), unit("U2", 5, elevation="6.5 m")]
    names = ("level_outdoor_above", "level_outdoor_below", "farthest_actual", "total_length")
    limits = [{"measure": name, "max": "99 m"} for name in names]
    limits.append({"measure": "total_length", "max": "99 m", "module_pipes": "in"})
    laid_out = system(runs, units, modules=modules, pipes=pipes, elevation="6 m")
    found = judge(design([laid_out]), book({"limits": limits, "charge": {"liquid": LIQUID}}))
    assert [the_limit(found, name).value for name in names] == pytest.approx([7, 0.5, 28, 35])
    assert the_limit(found, "total_length", nth=1).value == pytest.approx(40)
    assert [the_limit(found, name).governs for name in names[:3]] == [("U1",), ("U2",), ("U2",)]
    assert additional_kg(found) == pytest.approx(1.75)


@pytest.mark.parametrize(
    ("index", "metres", "share", "distance"),
    [
        (3, "20 m", Standing.WITHIN, Standing.WITHIN),
        (4, "20 m", Standing.OVER, Standing.WITHIN),
        (3, "21 m", Standing.WITHIN, Standing.OVER),
    ],
)
def test_7_a_ventilation_unit_is_held_to_its_own_share_and_distance(
    index: int, metres: str, share: Standing, distance: Standing
) -> None:
    """30 % of an index of 10, and 20 m after the first branch; the wall unit stands at 30 m and nobody minds."""
    fresh = {"where": {"kind": ["ventilation"]}}
    limits = [
        {"measure": "connection_ratio", "max": "30 %", **fresh},
        {"measure": "after_first_branch", "max": "20 m", **fresh},
        {"measure": "after_first_branch", "max": "30 m", "where": {"exclude_kind": ["ventilation"]}},
        {"measure": "indoor_count", "max": 1, **fresh},
    ]
    models = [model(5), model(index, kind="ventilation", name="fresh air")]
    runs = [run("outdoor", "J1", "5 m"), run("J1", "U1", "30 m"), run("J1", "V1", metres)]
    laid_out = system(runs, [unit("U1", 5), unit("V1", "fresh air")])
    found = judge(design([laid_out]), book({"limits": limits, "indoor.models": models}))
    assert the_limit(found, "connection_ratio").value == pytest.approx(index / 10)
    assert the_limit(found, "connection_ratio").standing is share
    assert the_limit(found, "after_first_branch").standing is distance
    assert the_limit(found, "after_first_branch").governs == ("V1",)
    assert the_limit(found, "after_first_branch", nth=1).standing is Standing.WITHIN
    assert the_limit(found, "indoor_count").value == 1


@pytest.mark.parametrize(("metres", "mm", "kg"), [("10 m", 6.35, 0.5 + 0.3), ("12 m", 9.52, 0.5 + 0.1 + 0.6)])
def test_8_a_long_run_to_one_unit_is_a_size_larger_for_that_unit_alone(metres: str, mm: float, kg: float) -> None:
    """Beyond 10 m from its joint the liquid line of a unit goes up: 12 m at 0.05 beside 5 m at 0.02, main 10 m."""
    when = {"measure": "last_joint_to_unit", "over": "10 m"}
    action = {"id": "long-unit", "when": when, "runs": "unit-run", "lines": ["liquid"]}
    runs, units = two_units("5 m", metres)
    found = judge(design([system(runs, units)]), book({"sizing.actions": [action], "charge": {"liquid": LIQUID}}))
    assert [tube_mm(found, name, "liquid") for name in ("J1", "U1", "U2")] == [9.52, 6.35, mm]
    assert tube_mm(found, "U2") == 12.7
    assert additional_kg(found) == pytest.approx(kg)


def test_9_couplings_between_straight_lengths_add_up_and_change_nothing_else() -> None:
    """30 m in six lengths of 5 m: five couplings of 0.2 m make 31 m; the joint that follows is none of them."""
    allowance = {"joint": "0.5 m", "coupling": "0.2 m"}
    limits = [{"measure": name, "max": "99 m"} for name in ("farthest_equivalent", "farthest_actual", "main_length")]
    used = book({"fittings.allowance": allowance, "limits": limits})
    runs = [*chain("outdoor", "J1", ["5 m"] * 6), run("J1", "U1", "4 m"), run("J1", "U2", "3 m")]
    found = judge(design([system(runs, [unit("U1", 5), unit("U2", 5)])]), used)
    assert the_limit(found, "farthest_equivalent").value == pytest.approx(31 + 0.5 + 4)
    assert the_limit(found, "farthest_actual").value == pytest.approx(34)
    assert the_limit(found, "main_length").value == pytest.approx(30)
    assert {tube_mm(found, item.id) for item in the_system(found).runs if the_run(found, item.id).is_main} == {22.22}


@pytest.mark.parametrize(
    ("outdoor_wb", "kw", "standing"),
    [
        ("-10 C", 6.0, Standing.WITHIN),
        ("-9 C", 6.2, Standing.WITHIN),  # 0.6 at -10, 1.0 at 10 C: 0.02 a degree
        ("-10.1 C", None, Standing.UNJUDGED),
        ("10.1 C", None, Standing.UNJUDGED),
    ],
)
def test_10_a_night_outside_the_table_is_no_pass(outdoor_wb: str, kw: float | None, standing: Standing) -> None:
    table = {"outdoor_wb": ["-10 C", "10 C"], "indoor_db": ["18 C", "22 C"], "factor": [[0.6, 0.6], [1.0, 1.0]]}
    site = SITE | {"heating": {"outdoor_wb": outdoor_wb, "indoor_db": "20 C"}}
    laid_out = system([run("outdoor", "U1", "10 m")], [unit("U1", 10, room="hall")])
    used = book({"capacity.heating": {"temperature": table}, "outdoor.modules": [module(10), module(20)]})
    found = judge(design([laid_out], rooms=[room("hall", "1 kW", heating="6 kW")], site=site), used)
    heating = the_system(found).heating
    assert heating is not None
    assert heating.capacity_w == (None if kw is None else pytest.approx(kw * 1000))
    assert room_checks(found, "hall")["heating"].standing is standing
    assert room_checks(found, "hall")["cooling"].standing is Standing.WITHIN
    assert found.standing is standing


def test_a_design_without_systems_is_no_pass() -> None:
    found = judge(design([]))
    assert found.standing is Standing.UNJUDGED
