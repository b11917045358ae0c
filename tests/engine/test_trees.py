"""The shape of a tree is kept at hand; what its runs are like is not."""

from dataclasses import replace

from bench.designs import tree_of
from linewright.model.tree import build_tree
from linewright.model.values import NodeKind


def test_a_tree_has_the_runs_of_the_system_that_it_is_asked_for() -> None:
    """Of the same joints, with one length another: the run at its place is the other one."""
    system = tree_of(4).systems[0]
    runs = tuple(replace(run, length_m=7.0) if run.to == "U2" else run for run in system.runs)
    for one in (system, replace(system, runs=runs)):
        tree = build_tree(one)
        assert [run.to for run in tree.runs] == list(tree.ids)
        assert all(tree.runs[tree.at[run.to]] is run for run in one.runs)


def test_a_tree_of_runs_in_another_order_is_walked_in_that_order() -> None:
    """J0 splits into J1 and J2; the last one named is walked last."""
    system = tree_of(4).systems[0]
    assert build_tree(system).ids == ("J0", "J1", "U0", "U1", "J2", "U2", "U3")
    turned = replace(system, runs=tuple(reversed(system.runs)))
    assert build_tree(turned).ids == ("J0", "J2", "U3", "U2", "J1", "U1", "U0")


def test_a_unit_that_is_taken_away_leaves_a_coupling() -> None:
    """A joint with one run left behind it joins nothing."""
    system = tree_of(4).systems[0]
    fewer = replace(
        system,
        units=tuple(unit for unit in system.units if unit.id != "U3"),
        runs=tuple(run for run in system.runs if run.to != "U3"),
    )
    kinds = [dict(zip(tree.ids, tree.kind, strict=True)) for tree in (build_tree(system), build_tree(fewer))]
    assert [kind["J2"] for kind in kinds] == [NodeKind.JOINT, NodeKind.COUPLING]
