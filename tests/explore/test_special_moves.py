"""Moves that need something special to be seen: declarations, options, modules, other systems, rooms, pipework."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from linewright.app.project import Project, open_project
from linewright.book.compiled import compile_book
from linewright.engine import Library, Standing, evaluate
from linewright.explore.remedies import Duty, MoveKind, Outcome, Remedy, Wanted, find
from linewright.model.design import Design, Module, Run, System
from linewright.model.edits import apply
from linewright.model.pipework import Air, Basis, Pipework
from linewright.units import UnitSystem
from tests.explore.broken import broken, library

EXAMPLES = Path(__file__).parents[2] / "examples"


def example(name: str) -> Project:
    return open_project(EXAMPLES / name / f"{name}.design.yaml")


def of_system(design: Design, system: str, **changes: object) -> Design:
    made = [replace(one, **changes) if one.id == system else one for one in design.systems]  # type: ignore[arg-type]
    return replace(design, systems=tuple(made))


def system(design: Design, name: str) -> System:
    return next(one for one in design.systems if one.id == name)


def alone(outcome: Outcome, kind: MoveKind) -> Remedy:
    """The first remedy that is one move of a kind."""
    found = [one for one in outcome.remedies if [move.kind for move in one.moves] == [kind]]
    said = [[move.words.say(UnitSystem.SI) for move in one.moves] for one in outcome.remedies]
    assert found, (said, outcome.tried)
    return found[0]


def test_a_declaration_that_a_wider_bound_needs() -> None:
    """The tidewater book lets the outdoor group stand higher with a setting that is declared."""
    clinic = example("harbour-clinic")
    high = replace(system(clinic.loaded.design, "ground").outdoor, elevation_m=55.0)
    runs = tuple(
        replace(run, length_m=58.0, rise_m=-51.8) if run.to == "K1" else run
        for run in system(clinic.loaded.design, "ground").runs
    )
    design = of_system(clinic.loaded.design, "ground", outdoor=high, runs=runs)
    outcome = find(design, clinic.library, Wanted(subject="ground/limit:level_outdoor_above"))
    remedy = alone(outcome, MoveKind.DECLARATION)
    assert remedy.duties == (Duty.CARRY_OUT,)
    assert "high-lift setting made" in remedy.moves[0].words.say(UnitSystem.SI)


def test_modules_in_order_of_size() -> None:
    clinic = example("harbour-clinic")
    outdoor = system(clinic.loaded.design, "quay").outdoor
    pipes = (
        Run(from_="outdoor", to="M1", length_m=1.0),
        Run(from_="outdoor", to="OJ1", length_m=1.0),
        Run(from_="OJ1", to="M2", length_m=1.0),
        Run(from_="OJ1", to="M3", length_m=1.5),
    )
    models = ("outdoor 22.4", "outdoor 22.4", "outdoor 33.5")
    modules = tuple(Module(id=f"M{i + 1}", model=model) for i, model in enumerate(models))
    design = of_system(clinic.loaded.design, "quay", outdoor=replace(outdoor, modules=modules, pipes=pipes))
    before = evaluate(design, clinic.library)
    quay = next(one for one in before.systems if one.id == "quay")
    assert any(check.measure == "module_order" and check.standing is Standing.OVER for check in quay.limits)
    outcome = find(design, clinic.library, Wanted(subject="quay/limit:module_order"))
    remedy = alone(outcome, MoveKind.MODULE_ORDER)
    made = system(apply(design, remedy.edits).design, "quay").outdoor.modules
    assert [module.model for module in made] == ["outdoor 33.5", "outdoor 22.4", "outdoor 22.4"]


def test_a_unit_in_another_system_on_its_level() -> None:
    """Found among designs that were broken: the rooms that moved are where another system is."""
    for seed in range(60):
        case = broken(seed)
        if case.cause != "levels" or len(case.design.systems) < 2:
            continue
        outcome = find(case.design, case.library, Wanted(budget=150))
        moved = [one for one in outcome.remedies if any(move.kind is MoveKind.MOVE_UNIT for move in one.moves)]
        if moved:
            assert Duty.MEASURE in moved[0].duties
            made = apply(case.design, moved[0].edits).design
            assert len(made.systems[1].units) > len(case.design.systems[1].units)
            return
    pytest.fail("no case was cured by a unit in another system")


def test_a_system_in_two_where_no_group_is_large_enough() -> None:
    """A book with its single modules only: they do not take the seventeen units of the quay."""
    clinic = example("harbour-clinic")
    book = clinic.library.books["tidewater-r32"].book
    singles = tuple(group for group in book.outdoor.groups if len(group.modules) == 1)
    only = compile_book(replace(book, outdoor=replace(book.outdoor, groups=singles)), lambda *_: None)
    quay = system(clinic.loaded.design, "quay")
    outdoor = replace(quay.outdoor, modules=(Module(id="M1", model="outdoor 33.5"),), pipes=())
    design = replace(clinic.loaded.design, systems=(replace(quay, outdoor=outdoor),))
    wanted = Wanted(subject="quay/limit:connection_ratio", budget=300)
    outcome = find(design, Library.of({"tidewater-r32": only}), wanted)
    split = [
        one for one in (*outcome.remedies, *outcome.trades) if any(move.kind is MoveKind.SPLIT for move in one.moves)
    ]
    assert split, outcome.tried
    made = apply(design, split[0].edits).design
    assert [one.id for one in made.systems] == ["quay", "quay-2"]
    assert sorted(unit.id for one in made.systems for unit in one.units) == sorted(unit.id for unit in quay.units)


def test_measures_in_a_room_that_refrigerant_may_leak_into() -> None:
    terminal = example("ferry-terminal")
    outcome = find(terminal.loaded.design, terminal.library, Wanted(subject="main/refrigerant:staff"))
    remedy = alone(outcome, MoveKind.SAFETY)
    assert remedy.duties == (Duty.INSTALL,)
    said = remedy.moves[0].words.say(UnitSystem.SI)
    assert said.startswith("in room staff: ")
    assert "0.0 m" not in said
    after = evaluate(apply(terminal.loaded.design, remedy.edits).design, terminal.library)
    check = next(one for one in after.systems[0].checks if one.subject == "main/refrigerant:staff")
    assert check.standing in (Standing.WITHIN, Standing.ON_CONDITIONS)


STATED = Pipework(
    basis=Basis.ANNEALED,
    conductivity=0.034,
    surface=9.0,
    indoor_air=Air(temperature_degc=27.0, humidity=0.6),
    outdoor_air=Air(temperature_degc=30.0, humidity=0.6),
    gas_line_degc=5.0,
    liquid_line_degc=20.0,
    stock_m=(0.003,),
)


def test_insulation_that_is_thick_enough() -> None:
    case = broken(0)
    design = replace(case.before, pipework=STATED)
    subject = next(
        check.subject
        for check in evaluate(design, library()).systems[0].checks
        if check.measure == "insulation" and check.standing is Standing.OVER
    )
    outcome = find(design, library(), Wanted(subject=subject))
    remedy = alone(outcome, MoveKind.PIPEWORK)
    made = apply(design, remedy.edits).design
    assert made.pipework is not None
    assert max(made.pipework.stock_m) > 0.003
    assert remedy.moves[0].words.say(UnitSystem.SI).startswith("insulation ")


def test_what_then_rests_on_memory_is_no_cure() -> None:
    """Tube that would hold unbrazed, by stresses that are from memory, is to confirm: that is not met."""
    clinic = example("harbour-clinic")
    design = replace(clinic.loaded.design, pipework=Pipework(basis=Basis.ANNEALED, design_pressure_pa=4.15e6))
    found = evaluate(design, clinic.library)
    over = [
        check.subject
        for one in found.systems
        for check in one.checks
        if check.measure == "strength" and check.standing is Standing.OVER
    ]
    assert over
    outcome = find(design, clinic.library, Wanted(subject=over[0], budget=60))
    cures = [one for one in outcome.remedies if any(move.kind is MoveKind.PIPEWORK for move in one.moves)]
    for remedy in cures:
        after = evaluate(apply(design, remedy.edits).design, clinic.library)
        standings = {c.standing for one in after.systems for c in one.checks if c.subject == over[0]}
        assert standings <= {Standing.WITHIN, Standing.ON_CONDITIONS}
