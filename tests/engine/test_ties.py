"""Of items that are equal the first by name governs, also where their sums differ in the last binary place only.

Ten pieces of 0.1 m fall short of 1 m in binary, three of 0.1 m exceed 0.3 m.
"""

import pytest

from linewright.engine import Standing
from tests.engine.builders import SITE, Doc, book, chain, design, judge, run, system, the_limit, the_system, unit

PIECES = [(10, "1 m"), (3, "0.3 m")]


def tied(pieces: int, whole: str, *, whole_first: bool) -> Doc:
    """Two units equally far from J1, one in pieces of 0.1 m, the other in one length."""
    in_pieces, in_one = ("U2", "U1") if whole_first else ("U1", "U2")
    runs = [run("outdoor", "J1", "5 m"), *chain("J1", in_pieces, ["0.1 m"] * pieces), run("J1", in_one, whole)]
    return system(runs, [unit("U1", 5, elevation="0 m"), unit("U2", 5, elevation="-8 m")], elevation="-8 m")


def test_the_sums_really_differ_in_the_last_place() -> None:
    assert sum([0.1] * 10) < 1
    assert sum([0.1] * 3) > 0.3


@pytest.mark.parametrize("whole_first", [True, False])
@pytest.mark.parametrize(("pieces", "whole"), PIECES)
@pytest.mark.parametrize(
    "measure", ["farthest_actual", "farthest_equivalent", "after_first_branch", "last_joint_to_unit"]
)
def test_the_first_by_name_governs(measure: str, pieces: int, whole: str, whole_first: bool) -> None:  # noqa: FBT001
    limits = [{"measure": measure, "max": "99 m"}]
    found = judge(design([tied(pieces, whole, whole_first=whole_first)]), book({"limits": limits}))
    assert the_limit(found, measure).governs == ("U1",)


@pytest.mark.parametrize("whole_first", [True, False])
@pytest.mark.parametrize(("pieces", "whole"), PIECES)
def test_no_unit_is_nearer_or_farther_by_rounding_alone(pieces: int, whole: str, whole_first: bool) -> None:  # noqa: FBT001
    """A difference of zero is governed by none."""
    limits = [{"measure": "nearest_farthest_difference", "max": "99 m"}]
    found = judge(design([tied(pieces, whole, whole_first=whole_first)]), book({"limits": limits}))
    limit = the_limit(found, "nearest_farthest_difference")
    assert limit.value == pytest.approx(0, abs=1e-9)
    assert limit.governs == ()


@pytest.mark.parametrize("whole_first", [True, False])
@pytest.mark.parametrize(("pieces", "whole"), PIECES)
def test_the_level_of_the_first_by_name_decides_about_the_capacity(pieces: int, whole: str, whole_first: bool) -> None:  # noqa: FBT001
    """U1 stands 8 m above the outdoor unit: factor 0.8; U2 at its level: factor 1."""
    table = {"equivalent": ["1 m", "9 m"], "level": ["-8 m", "0 m"], "factor": [[0.8, 1.0], [0.8, 1.0]]}
    laid_out = tied(pieces, whole, whole_first=whole_first)
    found = judge(design([laid_out], site=SITE), book({"capacity.cooling": {"length": table}}))
    cooling = the_system(found).cooling
    assert cooling is not None
    assert cooling.capacity_w == pytest.approx(8000)


@pytest.mark.parametrize("whole_first", [True, False])
@pytest.mark.parametrize(("pieces", "whole"), PIECES)
def test_a_fitting_stands_with_the_first_by_name_of_units_equally_near(
    pieces: int,
    whole: str,
    whole_first: bool,  # noqa: FBT001
) -> None:
    """U1 stands at 0 m, U2 at -8 m; nothing states where J1 is."""
    found = judge(design([tied(pieces, whole, whole_first=whole_first)]))
    assert next(item for item in the_system(found).fittings if item.id == "J1").elevation_m == 0


@pytest.mark.parametrize("whole_first", [True, False])
@pytest.mark.parametrize(("pieces", "whole"), PIECES)
def test_the_longest_path_is_that_of_the_first_by_name(pieces: int, whole: str, whole_first: bool) -> None:  # noqa: FBT001
    action: Doc = {"id": "up", "runs": "unit-run", "lines": ["gas"], "paths": "longest"}
    action |= {"when": {"measure": "farthest_actual", "over": "1 m"}}
    found = judge(design([tied(pieces, whole, whole_first=whole_first)]), book({"sizing.actions": [action]}))
    assert "U1" in the_system(found).actions[0].runs
    assert "U2" not in the_system(found).actions[0].runs


@pytest.mark.parametrize(("pieces", "whole"), PIECES)
def test_modules_equally_far_are_in_the_order_of_their_list(pieces: int, whole: str) -> None:
    """The larger one stands first in the list, so that none is larger than the one before it."""
    modules = [{"model": "outdoor 20", "id": "M1"}, {"model": "outdoor 10", "id": "M2"}]
    limits = [{"measure": "module_order", "max": "0"}]
    group = {"id": "uneven", "modules": ["outdoor 20", "outdoor 10"], "index": 30}
    main = {"rows": [{"upto": 30, "gas": "28.58 mm", "liquid": "12.7 mm"}]}
    used = book({"limits": limits, "outdoor.groups": [group], "sizing.main": main})
    for longer, shorter in (("M1", "M2"), ("M2", "M1")):
        pipes = [*chain("outdoor", longer, ["0.1 m"] * pieces), run("outdoor", shorter, whole)]
        laid_out = system([run("outdoor", "U1", "5 m")], [unit("U1", 5)], modules=modules, pipes=pipes)
        assert the_limit(judge(design([laid_out]), used), "module_order").value == 0


def raised(level: str, rises: tuple[str, str]) -> Doc:
    """A unit at the level of the module, which stands as high as its pipe's rises add up to but for rounding."""
    modules = [{"model": "outdoor 10", "id": "M1"}, {"model": "outdoor 10", "id": "M2", "elevation": "-8 m"}]
    pipes = [*chain("outdoor", "M1", ["1 m", "1 m"], rises=rises), run("outdoor", "M2", "9 m")]
    return system([run("outdoor", "U1", "5 m")], [unit("U1", 5, elevation=level)], modules=modules, pipes=pipes)


@pytest.mark.parametrize(("level", "rises"), [("0.3 m", ("0.1 m", "0.2 m")), ("0.8 m", ("0.1 m", "0.7 m"))])
def test_a_unit_level_with_the_outdoor_unit_is_neither_above_nor_below_it(level: str, rises: tuple[str, str]) -> None:
    limit = {"measure": "farthest_actual", "max": "99 m", "where": {"outdoor": "above"}}
    found = judge(design([raised(level, rises)]), book({"limits": [limit]}))
    assert the_limit(found, "farthest_actual").standing is Standing.NOT_APPLICABLE


@pytest.mark.parametrize(("level", "rises"), [("0.3 m", ("0.1 m", "0.2 m")), ("0.8 m", ("0.1 m", "0.7 m"))])
def test_a_unit_level_with_the_highest_module_has_no_level_difference(level: str, rises: tuple[str, str]) -> None:
    """Level 0: factor 1; the other module is 8 m lower and more, which would be 0.5."""
    table = {"equivalent": ["1 m", "20 m"], "level": ["-9 m", "-1 m", "1 m"], "factor": [[0.5, 1.0, 1.0]] * 2}
    found = judge(design([raised(level, rises)], site=SITE), book({"capacity.cooling": {"length": table}}))
    cooling = the_system(found).cooling
    assert cooling is not None
    assert cooling.capacity_w == pytest.approx(20000)


def test_those_levels_really_differ_in_the_last_place() -> None:
    assert 0.1 + 0.2 > 0.3
    assert 0.1 + 0.7 < 0.8


@pytest.mark.parametrize(("pieces", "whole"), PIECES)
@pytest.mark.parametrize("swapped", [True, False])
def test_of_two_lines_with_equal_differences_the_first_governs(pieces: int, whole: str, swapped: bool) -> None:  # noqa: FBT001
    """U1 is farther along one line by pieces of 0.1 m, U3 along the other by as much at once."""
    each, one = ("12.7 mm", "6.35 mm") if not swapped else ("6.35 mm", "12.7 mm")
    table = {each: "0.1 m", one: "0 m"}
    items = {"small": table, "whole": {one: whole, each: "0 m"}, "joint": "0 m"}
    runs = [run("outdoor", "J1", "0 m"), run("J1", "J2", "0 m")]
    runs += [run("J1", "U1", "0 m", items=[{"kind": "small", "count": 1}] * pieces), run("J2", "U2", "0 m")]
    runs.append(run("J2", "U3", "0 m", items=[{"kind": "whole", "count": 1}]))
    limit = {"measure": "nearest_farthest_difference", "max": "99 m", "lengths": "equivalent"}
    changes = {"limits": [limit], "fittings.allowance": items, "fittings.allowance_line": "both"}
    laid_out = system(runs, [unit(f"U{i}", 3) for i in (1, 2, 3)])
    found = the_limit(judge(design([laid_out]), book(changes)), "nearest_farthest_difference")
    assert found.governs == (("U1", "U3") if swapped else ("U1", "U2"))
