"""What flows as a target: liquid that boils before a valve is cured, oil is looked after, the unknown is no cure."""

from functools import cache

import pytest

from linewright.app.project import Project, open_project
from linewright.app.shipped import shipped
from linewright.engine import Standing, evaluate
from linewright.engine.records import SystemResult
from linewright.errors import UnknownSubjectError
from linewright.explore.remedies import Wanted, find
from linewright.explore.remedies.flows import LIQUID, OIL, flow_checks
from linewright.model.design import Design
from linewright.model.edits import Batch, Edit, Kind, OverrideSize, Set, apply
from linewright.model.values import Role

WORKS = next(shipped("examples").glob("print-works/*.design.yaml"))
VALVE = "main/run:U3.subcooling"


@cache
def works() -> Project:
    return open_project(WORKS, [shipped("books")])


def result_of(design: Design) -> SystemResult:
    return evaluate(design, works().library).systems[0]


@cache
def boiling() -> Design:
    """The print works with twice the way to the joints, in liquid line one size below that of the book."""
    design = works().loaded.design
    edits: list[Edit] = []
    result = result_of(design)
    ladder = result.state.ground.book.ladders[Role.LIQUID]
    sized = result.state.sized.by_role[Role.LIQUID]
    for run in design.systems[0].runs:
        if run.to.startswith(("J", "K")):
            assert run.length_m is not None
            below = max(size for size in ladder if size < (sized[result.tree.at[run.to]] or 0.0) - 1e-4)
            edits.append(OverrideSize(system="main", run=run.to, role=Role.LIQUID, size_m=below))
            edits.append(Set(kind=Kind.RUN, id=run.to, system="main", values={"length_m": 2 * run.length_m}))
    return apply(design, Batch(edits=tuple(edits))).design


def test_liquid_that_boils_is_over_and_liquid_that_does_not_is_within() -> None:
    found = {check.subject: check for check in flow_checks(result_of(boiling())) if check.measure == LIQUID}
    assert found[VALVE].standing is Standing.OVER
    (valve,) = (unit for unit in result_of(boiling()).hydraulics.units if unit.id == "U3")
    assert found[VALVE].value == valve.subcooling_left_k < 0.0
    assert valve.vapour > 0.0
    for unit in result_of(works().loaded.design).hydraulics.units:
        assert unit.subcooling_left_k > 0
    sound = [check for check in flow_checks(result_of(works().loaded.design)) if check.measure == LIQUID]
    assert [check.standing for check in sound] == [Standing.WITHIN] * 4


def test_it_is_cured_by_a_larger_liquid_line_and_every_remedy_holds_when_judged_afresh() -> None:
    found = find(boiling(), works().library, Wanted(subject=VALVE, physics=True, budget=120))
    assert found.remedies
    for remedy in found.remedies:
        after = result_of(apply(boiling(), remedy.edits).design)
        (unit,) = (one for one in after.hydraulics.units if one.id == "U3")
        assert unit.subcooling_left_k >= 0
    assert any(
        isinstance(edit, OverrideSize) and edit.role is Role.LIQUID
        for remedy in found.remedies
        for edit in remedy.edits.edits
    )


def test_no_remedy_lets_oil_stay_behind_that_came_home() -> None:
    before = {check.subject for check in flow_checks(result_of(boiling())) if check.standing is Standing.OVER}
    found = find(boiling(), works().library, Wanted(subject=VALVE, physics=True, budget=120))
    for remedy in found.remedies:
        after = flow_checks(result_of(apply(boiling(), remedy.edits).design))
        assert {check.subject for check in after if check.measure == OIL and check.standing is Standing.OVER} <= before


def test_without_being_asked_for_nothing_that_flows_is_a_target() -> None:
    with pytest.raises(UnknownSubjectError):
        find(boiling(), works().library, Wanted(subject=VALVE))


def test_what_cannot_be_worked_out_is_unjudged_and_no_target() -> None:
    run = works().loaded.design.systems[0].runs[3]
    unknown = apply(boiling(), Set(kind=Kind.RUN, id=run.to, system="main", values={"length_m": None})).design
    (check,) = flow_checks(result_of(unknown))
    assert check.standing is Standing.UNJUDGED
    assert find(unknown, works().library, Wanted(subject="main/physics", physics=True)).targets == ()
