"""Rules that manuals commonly hold: each one said in a book and judged, figures worked by hand in the comments.

Common practice, no source. The plain book has modules and units whose capacity in kW is their index.
"""

import re
from typing import Any

import pytest

from linewright.book.schema import Book
from linewright.engine import Evaluation, Standing
from linewright.engine.records import Check
from linewright.engine.working import replay, working
from tests.docs.pages import page, rows
from tests.engine.builders import (
    SITE,
    Doc,
    book,
    design,
    judge,
    model,
    module,
    room,
    run,
    system,
    the_check,
    the_limit,
    the_system,
    unit,
    upto,
)
from tests.language import recovery_rules

LIQUID = {"6.35 mm": "0.02 kg/m", "9.52 mm": "0.05 kg/m", "12.7 mm": "0.1 kg/m"}


def two(*, main: str = "10 m", near: str = "5 m", far: str = "20 m", level: str = "0 m", **more: Any) -> Doc:  # noqa: ANN401
    """A main, a joint J1, a unit X near it and a unit Y farther away."""
    runs = [run("outdoor", "J1", main), run("J1", "X", near), run("J1", "Y", far)]
    units = [unit("X", 2, room="x", elevation=level), unit("Y", 3, room="y", elevation=level)]
    return system(runs, units, **more)


def chained(first: str, second: str, between: str = "1 m") -> list[Doc]:
    """A branch with X on it, and a second one behind it with Y and Z."""
    runs = [run("outdoor", first, "9 m"), run(first, "X", "1 m"), run(first, second, between)]
    return [*runs, run(second, "Y", "1 m"), run(second, "Z", "1 m")]


def judged(made: Doc, changes: Doc, *, site: Doc | None = None, rooms: bool = True) -> Evaluation:
    loads = [room("x", "2 kW"), room("y", "3 kW")] if rooms else []
    if not rooms:
        made = made | {"units": [{key: one[key] for key in one if key != "room"} for one in made["units"]]}
    return judge(design([made], rooms=loads, site=site), book(changes))


def the_limit_of(limit: Doc, made: Doc | None = None, changes: Doc | None = None) -> Check:
    all_changes: Doc = {"limits": [limit]} | (changes or {})
    return the_limit(judged(made or two(), all_changes), limit["measure"])


def book_of(changes: Doc) -> Book:
    """The plain book with some keys replaced, as the program reads it."""
    return the_system(judged(two(), changes)).state.ground.book.book


def charge_of(charge: Doc, made: Doc | None = None) -> dict[str, float | None]:
    found = the_system(judged(made or two(), {"charge": charge})).charge
    return {term.name: term.kg for term in found.terms} | {"sum": found.sum_kg, "added": found.rounded_kg}


def rule_1() -> None:
    # 10 + 20 = 30 m.
    assert (check := the_limit_of({"measure": "farthest_actual", "max": "29 m"})).value == 30
    assert check.standing is Standing.OVER


def rule_2() -> None:
    # The main of 10 m is set one size up (25.4 and 12.7 mm): 5 + 20 = 25 m.
    made = two()
    made["runs"][0]["override"] = {"gas": "25.4 mm", "liquid": "12.7 mm"}
    check = the_limit_of({"measure": "farthest_equivalent", "upsized_main": {1: 0.5}, "max": "25 m"}, made)
    assert (check.value, check.standing) == (25, Standing.WITHIN)


def rule_3() -> None:
    # Y is 20 m after the branch, over 15 m; one size up between (no run between here) and X 15 m nearer, within 18 m.
    needs = [{"action": "between"}, {"measure": "nearest_farthest_difference", "max": "18 m"}]
    limit = {"measure": "after_first_branch", "max": "15 m", "relaxed": [{"max": "30 m", "needs": needs}]}
    action = {"id": "between", "runs": "first-to-last-branch", "lines": ["gas", "liquid"]}
    check = the_limit_of(limit, changes={"sizing.actions": [action]})
    assert (check.value, check.bound, check.standing) == (20, 30, Standing.ON_CONDITIONS)


HIGH_LIFT = [{"id": "lift", "text": "Lift setting", "limits": [{"measure": "level_outdoor_above", "max": "90 m"}]}]


def rule_4() -> None:
    limit = {"measure": "level_outdoor_above", "max": "50 m"}
    low = {"main": "80 m", "level": "-60 m"}
    assert the_limit_of(limit, two(**low), changes={"options": HIGH_LIFT}).standing is Standing.OVER
    lifted = judged(two(**low) | {"options": ["lift"]}, {"limits": [limit], "options": HIGH_LIFT})
    (check,) = the_system(lifted).limits
    assert (check.bound, check.standing) == (90, Standing.WITHIN)
    steps = working(lifted, "main/limit:level_outdoor_above").steps
    assert any("options[0].limits[0]" in item.from_ for item in steps[-1].inputs)


def rule_5() -> None:
    # 20 m below the outdoor unit: the band up to 30 m allows 8 m between units; they are 10 m apart.
    bands = [{"upto": "10 m", "bound": "15 m"}, {"upto": "30 m", "bound": "8 m"}]
    made = two(level="-20 m")
    made["units"][0]["elevation"] = "-10 m"
    check = the_limit_of({"measure": "level_between_indoor", "max": {"by": "level_outdoor_above", "rows": bands}}, made)
    assert (check.value, check.bound, check.standing) == (10, 8, Standing.OVER)


def rule_6() -> None:
    limit = {"measure": "farthest_actual", "max": "20 m", "when": {"measure": "level_outdoor_below", "over": "0 m"}}
    assert the_limit_of(limit).standing is Standing.NOT_APPLICABLE
    assert the_limit_of(limit, two(level="3 m")).standing is Standing.OVER


def rule_7() -> None:
    # 2 + 3 on 10 is 50 %; on 11 it is less.
    limit = {"measure": "connection_ratio", "min": "group"}
    for index, standing in ((10, Standing.WITHIN), (11, Standing.OVER)):
        group = {"modules": ["outdoor 10"], "index": index, "connection_ratio": {"min": "50 %"}}
        assert the_limit_of(limit, changes={"outdoor.groups": [group]}).standing is standing
    group = {"modules": ["outdoor 10"], "index": 10, "indoor_count": {"min": 3}}
    count = {"measure": "indoor_count", "min": "group"}
    assert the_limit_of(count, changes={"outdoor.groups": [group]}).standing is Standing.OVER


def rule_8() -> None:
    # Rooms need 2 and 3 kW at one time, 50 % of 10 kW; a block load of 4 kW is 40 %; without loads nobody knows.
    limit = {"measure": "connection_ratio", "count_by": "simultaneous", "max": "45 %"}
    assert (check := the_limit_of(limit)).value == 0.5
    assert check.standing is Standing.OVER
    assert the_limit_of(limit, two(block={"cooling": "4 kW"})).value == 0.4
    unknown = the_limit(judged(two(), {"limits": [limit]}, rooms=False), "connection_ratio")
    assert unknown.standing is Standing.UNJUDGED


def rule_9() -> None:
    # A unit of 3 of 5 in all is an outdoor-air unit: 60 %.
    models = [model(2), model(3, kind="outdoor-air")]
    limit = {"measure": "index_share", "where": {"kind": ["outdoor-air"]}, "max": "30 %"}
    check = the_limit_of(limit, changes={"indoor.models": models})
    assert (check.value, check.standing) == (0.6, Standing.OVER)


def rule_10() -> None:
    runs = chained("J1", "J2", "0.4 m")
    made = system(runs, [unit(name, 1) for name in "XYZ"])
    check = the_limit_of({"measure": "joint_spacing", "min": "0.5 m"}, made)
    assert check.value == pytest.approx(0.4)
    assert (check.standing, check.governs) == (Standing.OVER, ("J2",))


def rule_11() -> None:
    runs = chained("H1", "J2")
    made = system(runs, [unit(name, 1) for name in "XYZ"], fittings=[{"id": "H1", "kind": "header"}])
    assert the_limit_of({"measure": "header_depth", "max": 0}, made).governs == ("J2",)


def rule_12() -> None:
    made = two(fittings=[{"id": "J1", "kind": "header"}])
    header = {"rows": [{"upto": 30, "ports": 4, "model": "header 4", "port_index": 2}]}
    found = judged(made, {"fittings.header": header})
    check = next(one for one in the_system(found).checks if one.measure == "header_port")
    assert (check.value, check.bound, check.governs) == (3, 2, ("Y",))


LONG = {"id": "long", "runs": "main", "lines": ["gas"], "when": {"measure": "farthest_actual", "over": "25 m"}}


def rule_13() -> None:
    # 30 m are over 25 m: the main's 22.22 mm gas tube becomes 25.4 mm.
    found = the_system(judged(two(), {"sizing.actions": [LONG]}))
    assert next(one for one in found.runs if one.id == "J1").tubes["gas"].od_m == 0.0254  # type: ignore[index]


def rule_14() -> None:
    # The branch table asks 28.58 mm for 3; the main has 22.22 mm.
    rows = [upto(2, "19.05 mm", "6.35 mm"), upto(30, "28.58 mm", "12.7 mm")]
    runs = chained("J1", "J2")
    made = system(runs, [unit("X", 1), unit("Y", 1), unit("Z", 2)])
    found = the_system(judged(made, {"sizing.branch": {"rows": rows}}, rooms=False))
    assert next(one for one in found.runs if one.id == "J2").tubes["gas"].od_m == 0.02222  # type: ignore[index]


def rule_15() -> None:
    # Units of 5 on an outdoor unit of 10: the main by 10, whatever hangs on it; the first joint by 10 as well.
    first = {"rows": [{"upto": 6, "model": "small"}, {"upto": 30, "model": "large"}]}
    found = the_system(judged(two(), {"fittings.first": first}))
    assert next(one for one in found.fittings if one.id == "J1").model == "large"
    assert next(one for one in found.runs if one.id == "J1").tubes["gas"].od_m == 0.02222  # type: ignore[index]


def rule_16() -> None:
    # M1 (10) at 2 m, M2 (20) at 4 m and 1 m up: the larger is the farther one.
    group = {"modules": ["outdoor 10", "outdoor 20"], "index": 30}
    rows = [upto(30, "28.58 mm", "12.7 mm")]
    changes = {"outdoor.groups": [group], "sizing.main": {"rows": rows}}
    pipes = [run("outdoor", "M1", "2 m"), run("outdoor", "M2", "4 m", rise="1 m")]
    modules = [{"id": "M1", "model": "outdoor 10"}, {"id": "M2", "model": "outdoor 20"}]
    made = two(modules=modules, pipes=pipes)
    for limit, value in (("module_order", 1), ("module_pipe", 4), ("module_pipe_rise", 1)):
        unit_of = "" if limit == "module_order" else " m"
        assert the_limit_of({"measure": limit, "max": f"0{unit_of}" if unit_of else 0}, made, changes).value == value


def rule_17() -> None:
    made = two(main="30 m", level="24 m")
    made["runs"][0] |= {"rise": "24 m", "items": [{"kind": "trap", "count": 2}]}
    # Two traps divide 24 m into three times 8 m.
    assert the_limit_of({"measure": "rise_without_trap", "max": "10 m"}, made).value == 8


def rule_18() -> None:
    # Main 10 m of 9.52 mm at 0.05, X and Y 25 m of 6.35 mm at 0.02: 0.5 + 0.5 = 1.0; 3 m more of main: 1.15, up 1.2.
    rounded = {"liquid": LIQUID, "round": {"step": "0.1 kg", "mode": "up"}}
    assert charge_of(rounded)["added"] == 1.0
    assert charge_of(rounded, two(main="13 m"))["added"] == pytest.approx(1.2)


def rule_19() -> None:
    # 12 m are covered: the main's 10 m of 9.52 mm, and 2 m of the 25 m of 6.35 mm: 23 x 0.02 = 0.46.
    found = charge_of({"liquid": LIQUID, "covered": {"length": "12 m"}})
    assert found["sum"] == pytest.approx(0.46)
    # From the smallest first: 13 m of 6.35 mm and all of the main: 0.26 + 0.5 = 0.76.
    small = charge_of({"liquid": LIQUID, "covered": {"length": "12 m", "from": "smallest"}})
    assert small["sum"] == pytest.approx(0.76)


def rule_20() -> None:
    # A module 0.3; units of 2 and 3: up to 2 0.1, up to 5 0.25; ratio 50 %: 0.4. Together 1.05.
    terms = [
        {"name": "modules", "per": "module", "each": {"outdoor 10": "0.3 kg"}},
        {"name": "units", "per": "unit", "rows": [{"upto": 2, "add": "0.1 kg"}, {"upto": 5, "add": "0.25 kg"}]},
        {"name": "each", "per": "unit", "add": "0.01 kg"},
        {"name": "index", "per": "index", "add": "0.002 kg"},
    ]
    found = charge_of({"terms": terms, "connection_ratio": [{"upto": "100 %", "add": "0.4 kg"}]})
    assert found["modules"] == 0.3
    assert found["units"] == pytest.approx(0.35)
    assert found["each"] == 0.02
    # Indices 2 + 3, at 2 g each.
    assert found["index"] == pytest.approx(0.01)
    assert found["sum"] == pytest.approx(1.08)


def rule_21() -> None:
    # Gas: 10 m of 22.22 mm and 25 m of 12.7 mm at 0.01 kg/m: 0.35.
    assert (
        charge_of({"terms": [{"name": "gas", "per": "length", "lines": ["gas"], "rate": "0.01 kg/m"}]})["gas"] == 0.35
    )


def rule_22() -> None:
    # 35 m in all; beyond 30 m another kilogram. And 5 m beyond 30 m at 0.1.
    terms = [
        {
            "name": "long",
            "by": "total_length",
            "rows": [{"upto": "30 m", "add": "0 kg"}, {"upto": "90 m", "add": "1 kg"}],
        },
        {"name": "beyond", "per": "length", "lines": ["liquid"], "beyond": "30 m", "rate": "0.1 kg/m"},
        {"name": "short", "add": "-0.2 kg", "when": {"measure": "total_length", "under": "35 m"}},
    ]
    found = charge_of({"terms": terms})
    assert (found["long"], found["beyond"]) == (1, 0.5)
    assert "short" not in found


def rule_23() -> None:
    group = {"modules": ["outdoor 10"], "index": 10, "largest_charge": "0.9 kg"}
    check = the_check(judged(two(), {"charge": {"liquid": LIQUID, "max": "2 kg"}, "outdoor.groups": [group]}), "charge")
    assert (check.value, check.bound, check.standing) == (1.0, 0.9, Standing.OVER)


PLANE = {"id": "plane", "applies_to": "joints", "text": "Joints lie flat."}


def rule_24() -> None:
    found = judged(two(), {"requirements": [PLANE]})
    check = the_check(found, "requirement:plane")
    assert (check.standing, check.governs) == (Standing.TO_CONFIRM, ("J1",))
    assert found.standing is not Standing.WITHIN
    for confirmed in ("plane", {"id": "plane", "at": ["J1"]}):
        made = two() | {"confirmed": [confirmed]}
        assert the_check(judged(made, {"requirements": [PLANE]}), "requirement:plane").standing is Standing.WITHIN
    one = system([run("outdoor", "X", "9 m")], [unit("X", 2)])
    assert not [
        c for c in the_system(judged(one, {"requirements": [PLANE]}, rooms=False)).checks if "plane" in c.subject
    ]


def rule_25() -> None:
    hood = {
        "id": "hood",
        "applies_to": "outdoor",
        "text": "Snow hood.",
        "when": {"site": "heating.outdoor_wb", "under": "-15 C"},
    }
    for outdoor, count in (("-20 C", 1), ("0 C", 0)):
        site = SITE | {"heating": {"outdoor_wb": outdoor, "indoor_db": "20 C"}}
        found = the_system(judged(two(), {"requirements": [hood]}, site=site))
        assert len([check for check in found.checks if "hood" in check.subject]) == count
    # A site that states no heating: nobody knows.
    check = the_check(judged(two(), {"requirements": [hood]}), "requirement:hood")
    assert (check.standing, check.missing) == (Standing.UNJUDGED, ("heating.outdoor_wb of the site",))


RANGE = {"cooling": {"outdoor_db": {"min": "-5 C", "max": "46 C"}}}


def rule_26() -> None:
    for outdoor, standing in (("46 C", Standing.WITHIN), ("47 C", Standing.OVER)):
        site = SITE | {"cooling": {"outdoor_db": outdoor, "indoor_wb": "19 C"}}
        found = the_system(judged(two(), {"operation": RANGE}, site=site)).checks
        low, high = [check for check in found if check.subject == "main/operation.cooling.outdoor_db"]
        assert {low.standing, high.standing} == {Standing.WITHIN, standing}
    bare = the_system(judged(two(), {"operation": RANGE})).checks
    assert {check.standing for check in bare if "operation" in check.subject} == {Standing.UNJUDGED}


TEMPERATURES = {"outdoor_db": ["25 C", "35 C"], "indoor_wb": ["19 C"]}
IN_KW = [
    {"ratio": "40 %", **TEMPERATURES, "capacity": [["8 kW"], ["7 kW"]], "input": [["2 kW"], ["3 kW"]]},
    {"ratio": "60 %", **TEMPERATURES, "capacity": [["9 kW"], ["8 kW"]], "input": [["2.2 kW"], ["3.2 kW"]]},
]


def rule_27() -> None:
    # 35 C; 50 % lies half way between 40 % (7 kW) and 60 % (8 kW): 7.5 kW with 3.1 kW of input.
    found = judged(two(), {"capacity": {"cooling": {"table": IN_KW}}}, site=SITE)
    cooling = the_system(found).cooling
    assert cooling is not None
    assert cooling.power is not None
    assert cooling.capacity_w == pytest.approx(7500)
    assert cooling.power.input_w == pytest.approx(3100)
    for step in working(found, "main/capacity.cooling").steps:
        if step.inputs and isinstance(step.result, float):
            assert replay(step) == pytest.approx(step.result)
    # 100 % is outside the tables: unjudged, never the nearest one.
    full = two()
    full["units"][0]["model"] = "unit 10"
    over = the_system(judged(full, {"capacity": {"cooling": {"table": IN_KW}}}, site=SITE)).cooling
    assert over is not None
    assert over.capacity_w is None
    assert "connection ratio 1.3" in over.missing[0]


THIN = {"cooling": {"factors": [{"name": "thin air", "by": "altitude", "at": ["0 m", "1000 m"], "factor": [1, 0.9]}]}}


def rule_28() -> None:
    # 500 m lie half way: 0.95 of 10 kW.
    high = the_system(judged(two(), {"capacity": THIN}, site=SITE | {"altitude": "500 m"})).cooling
    assert high is not None
    assert high.capacity_w == pytest.approx(9500)
    unknown = the_system(judged(two(), {"capacity": THIN}, site=SITE)).cooling
    assert unknown is not None
    assert unknown.missing == ("the altitude of the site",)


def rule_29() -> None:
    needs = [{"declared": "oil balance checked"}]
    limit = {"measure": "level_outdoor_below", "max": "15 m", "relaxed": [{"max": "30 m", "needs": needs}]}
    made = two(main="40 m", level="20 m")
    assert the_limit_of(limit, made).standing is Standing.OVER
    declared = two(main="40 m", level="20 m", declared=["oil balance checked"])
    assert the_limit_of(limit, declared).standing is Standing.ON_CONDITIONS


def rule_30() -> None:
    switch = {"id": "switch", "setting": "yes", "when": {"option": "lift"}, "text": "Set the switch."}
    changes = {"requirements": [switch], "options": HIGH_LIFT}
    assert not [c for c in the_system(judged(two(), changes)).checks if "switch" in c.subject]
    check = the_check(judged(two() | {"options": ["lift"]}, changes), "requirement:switch")
    assert (check.standing, check.note) == (Standing.TO_CONFIRM, "Set the switch.")


def rule_31() -> None:
    from linewright.report.check_text import check_text  # noqa: PLC0415
    from linewright.units import UnitSystem  # noqa: PLC0415

    found = judged(two(), {"notes": [{"text": "Keep out of the sun.", "page": 7}]})
    text = check_text(found, system=UnitSystem.SI, colour=False, books={"plain": "plain"})
    assert "The maker's note (page 7): Keep out of the sun." in text


def rule_32() -> None:
    # Y's own run of 20 m is over 15 m: 12.7 becomes 15.88 mm; X's stays.
    action = {
        "id": "long-unit",
        "runs": "unit-run",
        "lines": ["gas"],
        "when": {"measure": "last_joint_to_unit", "over": "15 m"},
    }
    found = {one.id: one for one in the_system(judged(two(), {"sizing.actions": [action]})).runs}
    assert found["Y"].tubes["gas"].od_m == 0.01588  # type: ignore[index]
    assert found["X"].tubes["gas"].od_m == 0.0127  # type: ignore[index]


def rule_33() -> None:
    # X hangs 5 m from the joint, Y 20 m; the main is 10 m long.
    near = the_limit_of({"measure": "last_joint_to_unit", "min": "6 m"})
    assert (near.value, near.governs, near.standing) == (5, ("X",), Standing.OVER)
    main = the_limit_of({"measure": "main_length", "min": "12 m"})
    assert (main.value, main.standing) == (10, Standing.OVER)
    assert the_limit_of({"measure": "main_length", "min": "10 m"}).standing is Standing.WITHIN


def rule_34() -> None:
    pipes = [run("outdoor", "M1", "2 m"), run("outdoor", "M2", "11 m")]
    made = two(modules=["outdoor 10", "outdoor 10"], pipes=pipes)
    check = the_limit_of({"measure": "module_pipe_total", "max": "12 m"}, made)
    assert (check.value, check.standing) == (13, Standing.OVER)


def rule_35() -> None:
    limit = {"measure": "indoor_count", "where": {"model": ["unit 2", "unit 3"]}, "max": 1}
    assert (check := the_limit_of(limit)).value == 2
    assert check.standing is Standing.OVER


def rule_36() -> None:
    # Y is of 3 on 10: 30 %, over the 25 % that the group allows of its model.
    where = {"model": ["unit 3"]}
    group = {"modules": ["outdoor 10"], "index": 10, "ratios": [{"where": where, "max": "25 %"}]}
    limit = {"measure": "connection_ratio", "where": where, "max": "group"}
    check = the_limit_of(limit, changes={"outdoor.groups": [group]})
    assert (check.value, check.bound, check.standing) == (0.3, 0.25, Standing.OVER)


def rule_37() -> None:
    kit = [{"id": "kit", "text": "Kit.", "when": {"measure": "indoor_count", "at_least": 3}}]
    check = the_check(judged(two() | {"options": ["kit"]}, {"options": kit}), "option:kit")
    assert check.standing is Standing.OVER


def rule_38() -> None:
    # Quiet, the outdoor unit of 10 kW gives 8 kW at 35 C.
    table = {"outdoor_db": ["25 C", "35 C"], "indoor_wb": ["19 C"], "capacity": [["9 kW"], ["8 kW"]]}
    quiet = [{"id": "quiet", "text": "Quiet.", "capacity": {"cooling": {"table": table}}}]
    for options, capacity in (([], 10_000), (["quiet"], 8_000)):
        cooling = the_system(judged(two() | {"options": options}, {"options": quiet}, site=SITE)).cooling
        assert cooling is not None
        assert cooling.capacity_w == pytest.approx(capacity)


def rule_39() -> None:
    stages = [{"pressure": "0.5 MPa", "hold": "5 min"}, {"pressure": "4.15 MPa", "hold": "24 h"}]
    found = book_of({"pressures": {"test": stages, "vacuum": "500 micron", "vacuum_hold": "1 h"}}).pressures
    assert found is not None
    assert [(stage.pressure_pa, stage.hold_s) for stage in found.test] == [(5e5, 300), (4.15e6, 86_400)]
    # A thousandth of a torr is 0.133322 Pa.
    assert found.vacuum_pa == pytest.approx(66.66, abs=0.01)
    assert found.vacuum_hold_s == 3600


def rule_40() -> None:
    found = book_of({"pressures": {"insulation": {"12.7 mm": "13 mm", "22.22 mm": "3/4 in"}}}).pressures
    assert found is not None
    assert found.insulation_m == {0.0127: 0.013, 0.02222: 0.01905}


def rule_41() -> None:
    # 8 m of the main's 10 m of 9.52 mm are covered: 2 x 0.05 + 25 x 0.02 = 0.6.
    found = charge_of({"liquid": LIQUID, "covered": {"length": "8 m", "from": "main"}})
    assert found["sum"] == pytest.approx(0.6)


def rule_42() -> None:
    notes = the_system(judged(two(), {"level_reference": "connection"})).notes
    assert "Levels are those of the pipe connections." in [note.text for note in notes]


def rule_43() -> None:
    rule = {"id": "straight", "applies_to": "unit-runs", "where": {"below": "header"}, "text": "Straight for 0.3 m."}
    made = two(fittings=[{"id": "J1", "kind": "header"}])
    check = the_check(judged(made, {"requirements": [rule]}), "requirement:straight")
    assert (check.standing, check.governs) == (Standing.TO_CONFIRM, ("X", "Y"))
    assert not [c for c in the_system(judged(two(), {"requirements": [rule]})).checks if "straight" in c.subject]


def rule_44() -> None:
    # 3 kW at 35 C; half way between 0.9 at 25 C and 1.1 at 45 C is 1.0, at 50 % 0.6: 1.8 kW.
    axes = {"outdoor_db": ["25 C", "45 C"], "indoor_wb": ["19 C"]}
    temperature = {**axes, "factor": [[1.05], [0.95]], "input": [[0.9], [1.1]]}
    ratio = {"ratio": ["50 %", "100 %"], "factor": [0.5, 1], "input": [0.6, 1]}
    changes = {
        "capacity": {"cooling": {"temperature": temperature, "ratio": ratio}},
        "outdoor.modules": [module(10) | {"cooling_input": "3 kW"}, module(20)],
    }
    cooling = the_system(judged(two(), changes, site=SITE)).cooling
    assert cooling is not None
    assert cooling.used is not None
    assert cooling.used.input_w == pytest.approx(1800)


def rule_45() -> None:
    cold = {"id": "cold", "runs": "main", "lines": ["gas"], "when": {"site": "heating.outdoor_wb", "at_most": "-10 C"}}
    for outdoor, size in (("-10 C", 0.0254), ("-9 C", 0.02222)):
        site = SITE | {"heating": {"outdoor_wb": outdoor, "indoor_db": "20 C"}}
        found = the_system(judged(two(), {"sizing.actions": [cold]}, site=site))
        assert next(one for one in found.runs if one.id == "J1").tubes["gas"].od_m == size  # type: ignore[index]


RULES = {
    int(name.removeprefix("rule_")): made
    for name, made in (*list(globals().items()), *vars(recovery_rules).items())
    if re.fullmatch(r"rule_\d+", name)
}


@pytest.mark.parametrize("number", RULES)
def test_a_rule_can_be_said_and_is_judged(number: int) -> None:
    RULES[number]()


def test_every_rule_of_the_page_has_a_test() -> None:
    listed = [int(row.cells[0]) for row in rows(page("rules.md"))]
    assert listed == sorted(RULES)
    assert len(listed) >= 20
