"""Variants of measures that a book may choose, on one system whose figures can be added up in the head.

Twin modules at 5 m, 2 and 3 m of pipe from their joint. From there 10 m to J1; 5 m on to U1, 8 m to the header H2,
4 and 6 m on to U2 and U3. U1 stands at 0, U2 at 3, U3 at 6 m. Indices 4, 2 and 3 on 20; U2 is ducted and rated
2.5 kW cooling and 3 kW heating, the others their index. H2 and J1 are assumed at U2 and U1.
"""

from typing import Any

import pytest

from linewright.engine import Standing
from linewright.engine.records import Check
from tests.engine.builders import Doc, book, chain, design, judge, model, run, system, the_limit, unit

TWIN: Doc = system(
    [
        run("outdoor", "J1", "10 m"),
        run("J1", "U1", "5 m"),
        run("J1", "H2", "8 m"),
        run("H2", "U2", "4 m"),
        run("H2", "U3", "6 m"),
    ],
    [unit("U1", 4), unit("U2", "ducted 2", elevation="3 m"), unit("U3", 3, elevation="6 m")],
    modules=[{"model": "outdoor 10", "id": "M1"}, {"model": "outdoor 10", "id": "M2"}],
    pipes=[run("outdoor", "M1", "2 m"), run("outdoor", "M2", "3 m")],
    elevation="5 m",
    fittings=[{"id": "H2", "kind": "header"}],
)
DUCTED = model(2, kind="ducted", name="ducted 2") | {"cooling": "2.5 kW", "heating": "3 kW"}
#: No design has the floor unit.
MODELS = (model(3), model(4), DUCTED, model(6, kind="floor"))
UNITS: dict[str, str] = {"indoor_count": "9", "fitting_count": "9", "connection_ratio": "900 %"}


def judged(measure: str, variant: Doc, *, laid_out: Doc | None = None, changes: Doc | None = None) -> Check:
    """The limit on a measure with a bound that nothing reaches."""
    sense = "min" if measure in {"joint_spacing", "smallest_index"} else "max"
    bound = UNITS.get(measure, "900 %" if "share" in measure else "9" if "index" in measure else "0.1 m")
    if sense == "max" and bound == "0.1 m":
        bound = "999 m"
    if measure == "smallest_index":
        bound = "1"
    limit = {"measure": measure, sense: bound, **variant}
    used = book({"limits": [limit], "indoor.models": [*MODELS], **(changes or {})})
    return the_limit(judge(design([laid_out or TWIN]), used), measure)


def where(**filters: Any) -> Doc:  # noqa: ANN401 - any filter
    return {"where": filters}


@pytest.mark.parametrize(
    ("measure", "variant", "value", "governs"),
    [
        ("farthest_actual", {}, 3 + 10 + 8 + 6, ("U3",)),
        ("farthest_actual", {"origin": "first-outdoor-joint"}, 24, ("U3",)),
        ("farthest_actual", {"origin": "first-branch"}, 14, ("U3",)),
        ("farthest_actual", where(outdoor="above"), 3 + 10 + 8 + 4, ("U2",)),
        ("farthest_actual", where(outdoor="below"), 27, ("U3",)),
        ("farthest_actual", where(below="joint"), 3 + 10 + 5, ("U1",)),
        ("farthest_actual", where(below="header", exclude_kind=["wall"]), 25, ("U2",)),
        ("nearest_farthest_difference", {}, 27 - 18, ("U1", "U3")),
        ("nearest_farthest_difference", where(below="header"), 2, ("U2", "U3")),
        ("total_length", {}, 33, ()),
        ("total_length", {"origin": "first-branch"}, 23, ()),
        ("total_length", {"module_pipes": "in"}, 38, ()),
        ("total_length", {"each_tube": "yes"}, 66, ()),
        ("main_length", {}, 10, ()),
        ("joint_spacing", {}, 8, ("H2",)),
        ("fitting_count", {}, 2, ("U2",)),
        ("fitting_count", where(below="joint"), 1, ("U1",)),
        ("arm_index_share", {}, 5 / 9, ("H2",)),
        ("header_port_index", {}, 3, ("U3",)),
        ("fitting_index", {}, 9, ("J1",)),
        ("connection_ratio", {}, 9 / 20, ()),
        ("connection_ratio", {"count_by": "cooling"}, (4 + 2.5 + 3) / 20, ()),
        ("connection_ratio", {"count_by": "heating"}, (4 + 3 + 3) / 20, ()),
        ("connection_ratio", where(kind=["ducted"]), 2 / 20, ()),
        ("connection_ratio", where(exclude_kind=["ducted"]), 7 / 20, ()),
        ("connection_ratio", where(model=["unit 3"]), 3 / 20, ()),
        ("connection_ratio", where(below="header"), 5 / 20, ()),
        ("connection_ratio", where(below="joint"), 4 / 20, ()),
        ("indoor_count", where(outdoor="above"), 2, ()),
        ("largest_index_share", {}, 4 / 20, ("U1",)),
        ("largest_index_share", where(below="header"), 3 / 20, ("U3",)),
        ("smallest_index", {}, 2, ("U2",)),
        ("smallest_index", where(kind=["wall"]), 3, ("U3",)),
        ("level_outdoor_above", {}, 5, ("U1",)),
        ("level_outdoor_above", where(below="header"), 2, ("U2",)),
        ("level_outdoor_below", {}, 1, ("U3",)),
        ("level_between_indoor", {}, 6, ("U1", "U3")),
        ("level_between_indoor", where(below="header"), 3, ("U2", "U3")),
        ("level_unit_to_joint", {}, 3, ("U3",)),
    ],
)
def test_the_value_of_a_measure_and_what_governs_it(
    measure: str, variant: Doc, value: float, governs: tuple[str, ...]
) -> None:
    check = judged(measure, variant)
    assert check.standing is Standing.WITHIN
    assert check.value == pytest.approx(value)
    assert check.governs == governs


@pytest.mark.parametrize("measure", ["farthest_actual", "level_outdoor_above", "last_joint_to_unit", "smallest_index"])
def test_a_filter_that_no_unit_passes_leaves_nothing_to_judge(measure: str) -> None:
    check = judged(measure, where(kind=["floor"]))
    assert (check.standing, check.value) == (Standing.NOT_APPLICABLE, None)


def test_without_module_pipes_what_starts_at_the_outdoor_unit_is_unjudged() -> None:
    bare = TWIN | {"outdoor": {"modules": ["outdoor 10", "outdoor 10"], "elevation": "5 m"}}
    assert judged("farthest_actual", {}, laid_out=bare).standing is Standing.UNJUDGED
    assert judged("farthest_actual", {"origin": "first-outdoor-joint"}, laid_out=bare).value == pytest.approx(24)
    for measure in ("module_pipe", "module_pipe_difference"):
        assert judged(measure, {}, laid_out=bare).standing is Standing.UNJUDGED
    assert judged("total_length", {"module_pipes": "in"}, laid_out=bare).standing is Standing.UNJUDGED


ALLOWANCES = {"joint": "0.6 m", "header": "1 m", "outdoor_joint": "0 m"}
RELATIVE = {"origin": "first-outdoor-joint"}
OWN = {"lengths": "equivalent"}
IN = {"lengths": "equivalent", "first_branch_allowance": "in"}


@pytest.mark.parametrize(
    ("at", "runs", "farthest", "after", "after_in", "last"),
    [
        # Each fitting on the run into it: 10.6, 9; from J1 9 + 6, with J1 0.6 more; from H2 6.
        ("enters", {"J1": 10.6, "U1": 5, "H2": 9, "U2": 4, "U3": 6}, 25.6, 15, 15.6, 6),
        # On every run out of it: 5.6 and 8.6 leave J1, 5 and 7 leave H2.
        ("leaves", {"J1": 10, "U1": 5.6, "H2": 8.6, "U2": 5, "U3": 7}, 25.6, 15, 15.6, 7),
        # Half in, half out: 10.3; 5.3, 8 + 0.3 + 0.5; 4.5, 6.5.
        ("split", {"J1": 10.3, "U1": 5.3, "H2": 8.8, "U2": 4.5, "U3": 6.5}, 25.6, 15, 15.6, 6.5),
    ],
)
def test_a_book_says_which_run_carries_a_fittings_allowance(
    at: str, runs: dict[str, float], farthest: float, after: float, after_in: float, last: float
) -> None:
    changes = {"fittings.allowance": ALLOWANCES, "fittings.allowance_at": at}
    found = judge(design([TWIN]), book({"indoor.models": [*MODELS], **changes}))
    assert {item.id: item.equivalent_m for item in found.systems[0].runs} == pytest.approx(runs)
    assert judged("farthest_equivalent", RELATIVE, changes=changes).value == pytest.approx(farthest)
    assert judged("after_first_branch", OWN, changes=changes).value == pytest.approx(after)
    assert judged("after_first_branch", IN, changes=changes).value == pytest.approx(after_in)
    assert judged("last_joint_to_unit", OWN, changes=changes).value == pytest.approx(last)


BY_TUBE = {"22.22 mm": "0.3 m", "12.7 mm": "0.2 m", "9.52 mm": "0.5 m", "6.35 mm": "0.1 m"}


@pytest.mark.parametrize(
    ("line", "main", "farthest"),
    [
        # 4 bends on a main of 22.22 and 9.52, 20 on a unit run of 12.7 and 6.35: gas 1.2 + 4, liquid 2 + 2.
        ("gas", 11.2, 20.2),
        ("liquid", 12, 19),
        ("both", 12, 20.2),  # the longer of 20.2 and 19, not 2 + 4 of either
    ],
)
def test_a_book_says_which_line_judges_an_allowance(line: str, main: float, farthest: float) -> None:
    runs = [run("outdoor", "J1", "10 m", bends=4), run("J1", "U1", "5 m", bends=20), run("J1", "U2", "1 m")]
    laid_out = system(runs, [unit("U1", 4), unit("U2", 3)])
    changes = {"fittings.allowance": {"joint": "0 m", "bend": BY_TUBE}, "fittings.allowance_line": line}
    assert judged("farthest_equivalent", {}, laid_out=laid_out, changes=changes).value == pytest.approx(farthest)
    assert judged("main_length", OWN, laid_out=laid_out, changes=changes).value == pytest.approx(main)


UP = {"gas": "25.4 mm", "liquid": "12.7 mm"}


@pytest.mark.parametrize(
    ("first", "second", "factor", "value"),
    [
        (UP, UP, {}, 15 + 5),
        (UP, {}, {}, 10 + 10 + 5),  # the part that is up counts half
        (UP, {}, {"counts": "whole"}, 20 + 10 + 5),
        (UP, UP, {"counts": "whole"}, 15 + 5),
        ({"gas": "25.4 mm"}, {}, {"line": "gas"}, 10 + 10 + 5),
        ({"gas": "25.4 mm"}, {}, {"line": "liquid"}, 20 + 10 + 5),
        ({"liquid": "12.7 mm"}, {}, {"line": "liquid"}, 10 + 10 + 5),
    ],
)
def test_a_book_says_what_counts_as_an_upsized_main(first: Doc, second: Doc, factor: Doc, value: float) -> None:
    """Main of 20 and 10 m, unit run 5 m; a main that is one step up counts half."""
    runs = [run("outdoor", "C1", "20 m") | {"override": first}, run("C1", "J1", "10 m") | {"override": second}]
    runs += [run("J1", "U1", "5 m"), run("J1", "U2", "1 m")]
    laid_out = system(runs, [unit("U1", 4), unit("U2", 3)])
    check = judged("farthest_equivalent", {"upsized_main": {1: 0.5, **factor}}, laid_out=laid_out)
    assert check.value == pytest.approx(value)


@pytest.mark.parametrize(
    ("pipes", "rise"),
    [
        ([], 1.5),  # by their levels: 6.5 and 4 m, joint at 5 m
        ([run("outdoor", "M1", "4 m", rise="1.5 m"), run("outdoor", "M2", "4 m", rise="-1 m")], 1.5),
        # One part of the way states no rise: by levels again.
        ([*chain("outdoor", "M1", ["2 m", "2 m"], rises=["0.5 m", ""]), run("outdoor", "M2", "4 m")], 1.5),
    ],
    ids=["no pipes", "stated rises", "one rise missing"],
)
def test_the_rise_to_a_module_is_that_of_its_pipes_or_else_of_the_levels(pipes: list[Doc], rise: float) -> None:
    modules = [
        {"model": "outdoor 10", "id": "M1", "elevation": "6.5 m"},
        {"model": "outdoor 10", "id": "M2", "elevation": "4 m"},
    ]
    laid_out = TWIN | {"outdoor": {"modules": modules, "elevation": "5 m", "pipes": pipes}}
    check = judged("module_pipe_rise", {}, laid_out=laid_out)
    assert (check.value, check.governs) == (rise, ("M1",))
    assert judged("level_between_modules", {}, laid_out=laid_out).value == pytest.approx(2.5)


def test_the_difference_between_modules_is_taken_along_one_line() -> None:
    """Gas: 2 + 3 and 3 + 0.5 m, 1.5 m apart; liquid: 2 + 1 and 3 + 4 m, 4 m apart; the farthest is 7 m away."""
    pipes = [run("outdoor", "M1", "2 m", bends=1)]
    pipes.append(run("outdoor", "M2", "3 m", bends=1, gas="28.58 mm", liquid="12.7 mm"))
    laid_out = TWIN | {"outdoor": TWIN["outdoor"] | {"pipes": pipes}}
    bends = {"22.22 mm": "3 m", "28.58 mm": "0.5 m", "9.52 mm": "1 m", "12.7 mm": "4 m"}
    changes = {
        "fittings.allowance": {"joint": "0 m", "header": "0 m", "bend": bends},
        "fittings.allowance_line": "both",
    }
    difference = judged("module_pipe_difference", OWN, laid_out=laid_out, changes=changes)
    assert difference.value == pytest.approx(4)
    assert judged("module_pipe", OWN, laid_out=laid_out, changes=changes).value == pytest.approx(7)
