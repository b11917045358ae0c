"""What is kept of a system while only its lengths change reads no length."""

from dataclasses import replace
from pathlib import Path

import pytest

from linewright.app.project import open_project
from linewright.app.shipped import shipped
from linewright.book.measures import MeasureName
from linewright.book.schema import CountBy, InOut, Lengths, MeasureUse, Side, Where
from linewright.engine import evaluate
from linewright.engine.measures import measure
from linewright.engine.measures.registry import ACTUAL, STILL
from linewright.engine.records import Sense
from linewright.engine.state import State
from linewright.engine.still import Still, nothing_seen
from linewright.model.design import Run

EXAMPLES = sorted(shipped("examples").glob("*/*.design.yaml"))


def without_lengths(state: State) -> State:
    """The state of a system of which nobody knows a length, a size or a charge, nor any measure so far."""
    ground = state.ground
    bare = ground._replace(
        system=replace(ground.system, runs=()),
        tree=ground.tree._replace(runs=()),
        length_m=(),
        unknown=(),
        built_m=(),
        still=ground.still._replace(seen=nothing_seen()),
        seen=nothing_seen(),
    )
    nothing: dict[str, object] = dict.fromkeys(("table", "sized", "lengths", "charge"))
    return State(ground=bare, **nothing)  # type: ignore[arg-type] # so that whoever reads one fails


def uses(name: MeasureName) -> list[MeasureUse]:
    """A measure in some variants."""
    plain = MeasureUse(measure=name)
    filtered = replace(plain, where=Where(outdoor=Side.ABOVE))
    counted = [replace(plain, count_by=by) for by in CountBy]
    in_all = replace(plain, in_all=True, each_tube=True, module_pipes=InOut.IN)
    return [plain, replace(plain, lengths=Lengths.EQUIVALENT), in_all, filtered, *counted]


def without_sizes(state: State) -> State:
    """The state of a system of which nobody knows a size or a charge, nor any measure so far."""
    bare = state.ground._replace(seen=nothing_seen(), still=state.ground.still._replace(seen=nothing_seen()))
    lengths = state.lengths._replace(equivalent=(), parts=(), roles=())
    nothing: dict[str, object] = dict.fromkeys(("table", "sized", "charge"))
    return State(ground=bare, lengths=lengths, **nothing)  # type: ignore[arg-type] # so that whoever reads one fails


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_a_measure_of_actual_lengths_is_the_same_of_a_system_without_sizes(path: Path) -> None:
    """Every one of them, of every system of the examples."""
    for system in open_project(path).evaluate().systems:
        state, bare = system.state, without_sizes(system.state)
        for use in [use for name in ACTUAL for use in uses(name) if use.lengths is not Lengths.EQUIVALENT]:
            for sense in Sense:
                assert measure(state, use, sense) == measure(bare, use, sense), use


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_a_measure_that_stands_still_is_the_same_of_a_system_without_lengths(path: Path) -> None:
    """Every one of them, of every system of the examples."""
    for system in open_project(path).evaluate().systems:
        state, bare = system.state, without_lengths(system.state)
        for use in [use for name in STILL for use in uses(name)]:
            for sense in Sense:
                assert measure(state, use, sense) == measure(bare, use, sense), use


def test_what_stands_still_is_the_very_same_after_a_length_changed_and_only_then() -> None:
    """One run of a design gets another length, then more bends."""
    project = open_project(EXAMPLES[0])
    design = project.loaded.design
    system = design.systems[0]
    run = system.runs[0]

    def still_with(after: Run) -> Still:
        changed = replace(system, runs=(after, *system.runs[1:]))
        results = evaluate(replace(design, systems=(changed, *design.systems[1:])), project.library).systems
        return next(one for one in results if one.id == system.id).state.ground.still

    before = still_with(run)
    assert still_with(replace(run, length_m=(run.length_m or 0.0) + 0.5)) is before
    assert still_with(replace(run, bends=7)) is not before
