"""The outdoor side of a group: module pipes, the joints between modules, and groups proposed for an index."""

import json

import pytest

from linewright.book.compiled import CompiledBook
from linewright.document.files import book_from_text
from linewright.engine import Evaluation, Standing
from linewright.engine.proposals import Wanted, propose_groups
from linewright.engine.working import replay, working
from linewright.report.check_json import check_json
from tests.engine.builders import (
    PLAIN,
    Doc,
    book,
    design,
    judge,
    module,
    run,
    system,
    the_check,
    the_system,
    unit,
    upto,
)

JOINTS = {"rows": [{"upto": 20, "model": "outdoor joint S"}, {"upto": 30, "model": "outdoor joint L"}]}
TRIO = {"modules": ["outdoor 10"] * 3, "index": 30, "id": "trio"}
MODULES = [{"id": name, "model": "outdoor 10"} for name in ("M1", "M2", "M3")]
#: The root joins M1 and a second joint, which joins M2 and M3.
PIPES = [run("outdoor", "M1", "2 m"), run("outdoor", "O2", "1 m"), run("O2", "M2", "1 m"), run("O2", "M3", "3 m")]


def trio(*, pipes: list[Doc] | None = None, joints: Doc | None = None, module_rows: Doc | None = None) -> Evaluation:
    """Three modules of index 10 on one unit of 10."""
    groups = [*PLAIN["outdoor"]["groups"], TRIO]
    rows = [*PLAIN["sizing"]["main"]["rows"], {"upto": 30, "gas": "28.58 mm", "liquid": "15.88 mm"}]
    changes: Doc = {"outdoor.groups": groups, "sizing.main": {"rows": rows}}
    if joints is not None:
        changes["fittings.outdoor_joint"] = joints
    if module_rows is not None:
        changes["sizing.module"] = module_rows
    made = system(
        [run("outdoor", "X", "9 m")], [unit("X", 10)], modules=MODULES, pipes=PIPES if pipes is None else pipes
    )
    return judge(design([made]), book(changes))


def test_each_outdoor_joint_has_the_row_of_the_index_through_it() -> None:
    # Root: the whole group, 30 -> L. O2: M2 and M3, 20 -> S.
    found = the_system(trio(joints=JOINTS)).outdoor.joints
    assert [(joint.id, joint.index, joint.arms, joint.model) for joint in found] == [
        ("O2", 20, 2, "outdoor joint S"),
        ("outdoor", 30, 2, "outdoor joint L"),
    ]


def test_module_pipes_are_sized_by_the_index_they_serve() -> None:
    rows = {"rows": [upto(10, "19.05 mm", "9.52 mm"), upto(20, "25.4 mm", "12.7 mm")]}
    found = {pipe.id: pipe for pipe in the_system(trio(joints=JOINTS, module_rows=rows)).outdoor.pipes}
    sizes = {
        name: (pipe.served_index, *(round(size * 1000, 2) for size in pipe.tubes.values() if size))
        for name, pipe in found.items()
    }
    assert sizes == {
        "M1": (10, 19.05, 9.52),
        "M2": (10, 19.05, 9.52),
        "M3": (10, 19.05, 9.52),
        "O2": (20, 25.4, 12.7),
    }


def test_a_pipe_between_joints_without_a_row_is_over() -> None:
    # No table of module pipes: M1 to M3 take their ports, the pipe to O2 has none.
    check = the_check(trio(joints=JOINTS), "module_pipe:O2")
    assert check.standing is Standing.OVER
    assert "gas and liquid" in check.note


def test_a_joint_that_no_row_serves_is_over() -> None:
    small = {"rows": [{"upto": 20, "model": "outdoor joint S"}]}
    found = trio(joints=small)
    assert the_check(found, "outdoor_joint:outdoor").standing is Standing.OVER
    assert found.standing is Standing.OVER


def test_three_pipes_from_one_joint_are_over() -> None:
    star = [run("outdoor", name, "2 m") for name in ("M1", "M2", "M3")]
    check = the_check(trio(joints=JOINTS, pipes=star), "outdoor_joint:outdoor")
    assert (check.standing, check.value, check.bound) == (Standing.OVER, 3, 2)


def test_joints_that_nobody_placed_are_unjudged() -> None:
    # Three modules need two joints; without module pipes only the root is known.
    check = the_check(trio(joints=JOINTS, pipes=[]), "outdoor_joint:outdoor")
    assert check.standing is Standing.UNJUDGED
    assert check.missing == ("module pipes, with 1 more outdoor joint",)


def test_a_single_module_has_no_outdoor_side() -> None:
    found = the_system(judge(design([system([run("outdoor", "X", "9 m")], [unit("X", 10)])]))).outdoor
    assert (found.pipes, found.joints) == ((), ())


def test_the_outdoor_side_is_written_and_shows_its_working() -> None:
    found = trio(joints=JOINTS)
    written = check_json(found)["systems"][0]
    assert [pipe["id"] for pipe in written["module_pipes"]] == ["M1", "M2", "M3", "O2"]
    assert [joint["model"] for joint in written["outdoor_joints"]] == ["outdoor joint S", "outdoor joint L"]
    served = working(found, "main/module_pipe:O2").steps[0]
    assert (served.result, replay(served)) == (20, 20)
    left = working(found, "main/outdoor_joint:outdoor").steps[-1]
    assert (left.result, replay(left)) == (0, 0)


def _compiled() -> CompiledBook:
    ratio = {"min": "50 %", "max": "130 %"}
    groups = [
        {"modules": ["outdoor 10"], "index": 10, "indoor_count": {"max": 4}, "connection_ratio": ratio},
        {"modules": ["outdoor 20"], "index": 20, "indoor_count": {"max": 9}, "connection_ratio": ratio},
        {
            "id": "twin",
            "modules": ["outdoor 10"] * 2,
            "index": 20,
            "indoor_count": {"max": 9},
            "connection_ratio": ratio,
        },
    ]
    made = book({"outdoor.groups": groups, "outdoor.modules": [module(10), module(20)]})
    return book_from_text(json.dumps(made), "plain.book.yaml").compiled


@pytest.mark.parametrize(
    ("wanted", "serving"),
    [
        (Wanted(13, 4), ["outdoor 10", "outdoor 20", "twin"]),  # 130 % exactly is still within
        (Wanted(13, 5), ["outdoor 20", "twin"]),  # five units are too many for the small one
        (Wanted(13.1, 4), ["outdoor 20", "twin"]),  # 131 % of 10
        (Wanted(9.9, 4), ["outdoor 10"]),  # 49.5 % of 20
        (Wanted(9.9, 4, cooling_w=12e3), []),  # 10 kW are short
        (Wanted(30), []),
    ],
)
def test_groups_are_proposed_smallest_first(wanted: Wanted, serving: list[str]) -> None:
    found = propose_groups(_compiled(), wanted)
    assert [item.group for item in found if item.serves] == serving
    assert all(item.faults for item in found if not item.serves)
    assert len(found) == 3


def test_a_system_that_its_group_does_not_take_names_those_that_would() -> None:
    made = system([run("outdoor", "X", "9 m")], [unit("X", 10)])
    small = {"modules": ["outdoor 10"], "index": 10, "indoor_count": {"min": 2}}
    used = book({"outdoor.groups": [small, {"modules": ["outdoor 20"], "index": 20}]})
    notes = [note.text for note in the_system(judge(design([made]), used)).notes]
    assert any("groups of the book that would: outdoor 20" in note for note in notes)
