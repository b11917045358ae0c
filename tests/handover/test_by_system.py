"""Needs by system add up to those of the whole; a set of some systems is that of a design which has no others."""

import json
from collections import defaultdict
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner

from linewright.app.handover import Buying, HandOver, hand_over
from linewright.app.only_systems import only_systems
from linewright.cli.main import cli
from linewright.engine import Evaluation, Library, Standing, evaluate
from linewright.model.design import Design
from linewright.report.schedules.by_system import ALL, by_system
from linewright.takeoff import Kind, Need, Needs, Settings, needs, take_off
from linewright.units import UnitSystem
from tests.handover.cases import BOAT_HOUSE, CLINIC, EXAMPLES, LOFTS, WORKS, bought, evaluated, project, taken
from tests.handover.paper import squeezed, texts

SI = UnitSystem.SI
#: As built, with spares and waste: none of it may change what is needed but the lengths as built.
PLAIN, OTHERS = Settings(), (Settings(waste=0.2, spares=0.5), Settings(as_built=True))


def told(evaluation: Evaluation, settings: Settings) -> Needs:
    return needs(evaluation, bought(evaluation, settings), SI)


def alone(design: Design, library: Library, *names: str) -> Evaluation:
    return evaluate(replace(design, systems=tuple(one for one in design.systems if one.id in names)), library)


def amounts(found: tuple[Need, ...], *, without: tuple[Kind, ...] = ()) -> dict[object, float | None]:
    """Amounts by thing, summed over the systems that are told."""
    summed: dict[object, float | None] = {}
    for need in found:
        if need.line.kind in without:
            continue
        line = need.line
        key = (line.kind, line.name, line.material, line.od_m, line.to_od_m, line.thickness_m)
        before = summed.get(key, 0.0)
        summed[key] = None if before is None or need.amount is None else before + need.amount
    return summed


@pytest.mark.parametrize(
    ("path", "settings"),
    [*((path, PLAIN) for path in EXAMPLES), *((LOFTS, settings) for settings in OTHERS)],
    ids=[*(path.stem for path in EXAMPLES), "waste and spares", "as built"],
)
def test_needs_of_systems_add_up_to_those_of_the_whole(path: Path, settings: Settings) -> None:
    found = told(evaluated(path), settings)
    summed, whole = amounts(found.by_system), amounts(found.whole)
    assert set(summed) == set(whole)
    for key, amount in whole.items():
        assert summed[key] == pytest.approx(amount), key


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_needs_against_the_design_itself(path: Path) -> None:
    """Tube is every tube of every run; units are those of the design; refrigerant is what the check weighs in."""
    evaluation = evaluated(path)
    found = told(evaluation, Settings())
    for result in evaluation.systems:
        mine = [need for need in found.by_system if need.system == result.id]
        tube = sum(need.amount or 0.0 for need in mine if need.line.kind is Kind.TUBE)
        lengths = {run.to: run.length_m for run in (*result.system.runs, *result.system.outdoor.pipes)}
        tubes = [run.id for run in result.runs for _ in run.tubes]
        tubes += [pipe.id for pipe in result.outdoor.pipes for _ in pipe.tubes]
        assert tube == pytest.approx(sum(lengths[name] or 0.0 for name in tubes))
        units = sum(need.amount or 0.0 for need in mine if need.line.kind is Kind.INDOOR)
        assert units == len(result.system.units)
        kg = [need.amount for need in mine if need.line.kind is Kind.REFRIGERANT]
        assert kg == [result.charge.rounded_kg]


@pytest.mark.parametrize("path", [CLINIC, LOFTS], ids=lambda path: path.stem)
def test_a_system_needs_what_a_design_of_it_alone_needs(path: Path) -> None:
    """But for couplings, which are those of a plan over all systems."""
    opened = project(path)
    found = told(evaluated(path), Settings())
    for result in evaluated(path).systems:
        single = told(alone(opened.loaded.design, opened.library, result.id), Settings())
        mine = tuple(need for need in found.by_system if need.system == result.id)
        couplings = (Kind.COUPLING,)
        assert amounts(mine, without=couplings) == pytest.approx(amounts(single.whole, without=couplings))


@pytest.mark.parametrize("path", [CLINIC, LOFTS], ids=lambda path: path.stem)
def test_couplings_are_those_of_the_runs_of_the_cut_plan(path: Path) -> None:
    evaluation = evaluated(path)
    whole = bought(evaluation)
    by_hand: dict[str, int] = defaultdict(int)
    for cutting in whole.cuttings:
        for piece in cutting.pieces:
            by_hand[piece.cut.system] += 1 if piece.part > 1 else 0
    found: dict[str, float] = defaultdict(float)
    for need in needs(evaluation, whole, SI).by_system:
        if need.line.kind is Kind.COUPLING:
            found[need.system] += need.amount or 0.0
    assert dict(found) == {name: count for name, count in by_hand.items() if count}


@pytest.mark.parametrize("names", [("ground",), ("ground", "upper")])
def test_some_systems_are_bought_as_a_design_of_these_alone_would_be(names: tuple[str, ...]) -> None:
    opened = project(CLINIC)
    part = take_off(only_systems(evaluated(CLINIC), names).evaluation, Settings())
    single = take_off(alone(opened.loaded.design, opened.library, *names), Settings())
    assert part.lines == single.lines
    assert [one.pieces for one in part.cuttings] == [one.pieces for one in single.cuttings]
    assert part.gaps == single.gaps


def test_systems_one_by_one_buy_no_less_than_all_together() -> None:
    """A plan for each is a plan for all, so that the best one for all costs no more tube and couplings."""
    whole = taken(CLINIC)
    names = [result.id for result in evaluated(CLINIC).systems]
    parts = [take_off(only_systems(evaluated(CLINIC), [name]).evaluation, Settings()) for name in names]
    worth = [sum(cutting.worth_mm for cutting in found.cuttings) for found in (whole, *parts)]
    assert worth[0] <= sum(worth[1:])


def test_a_charge_that_is_not_known_in_one_system_is_not_known_in_the_sum() -> None:
    evaluation = evaluated(CLINIC)
    ground, *others = evaluation.systems
    unknown = ground._replace(charge=ground.charge._replace(rounded_kg=None, missing=("length of J1",)))
    changed = evaluation._replace(systems=(unknown, *others))
    found = told(changed, Settings())
    kg = {need.system: need.amount for need in (*found.by_system, *found.whole) if need.line.kind is Kind.REFRIGERANT}
    assert kg == {"ground": None, "quay": others[0].charge.rounded_kg, "upper": others[1].charge.rounded_kg, "": None}
    table = by_system(changed, bought(changed), SI)
    assert any(row[0] == "ground" and row[1] == "left out" and row[3] is None for row in table.rows)
    assert any(note.startswith("NOT COMPLETE") for note in table.notes)
    assert [row[5] for row in table.rows if row[0] == ALL and row[1] == "refrigerant"] == [None]


def test_a_length_that_is_not_known_is_left_out_of_its_system_and_told_there() -> None:
    opened = project(CLINIC)
    design = opened.loaded.design
    first = design.systems[0]
    runs = tuple(replace(run, length_m=None) if run.to == first.runs[0].to else run for run in first.runs)
    changed = evaluate(replace(design, systems=(replace(first, runs=runs), *design.systems[1:])), opened.library)
    found = told(changed, Settings())
    where = f"{first.id}/run:{first.runs[0].to}"
    assert (first.id, where) in {(name, gap.subject) for name, gap in found.left_out}
    assert {name for name, _ in found.left_out} == {first.id}
    summed = amounts(found.by_system)
    assert summed == pytest.approx(amounts(found.whole))


def test_two_refrigerants_are_not_added_up() -> None:
    clinic, works = project(CLINIC), project(WORKS)
    ground = next(one for one in clinic.loaded.design.systems if one.id == "ground")
    (main,) = works.loaded.design.systems
    rooms = (*clinic.loaded.design.rooms, *works.loaded.design.rooms)
    design = replace(clinic.loaded.design, systems=(ground, replace(main, id="works")), rooms=rooms)
    library = Library.of({**clinic.library.books, **works.library.books}, {})
    found = told(evaluate(design, library), Settings())
    kg = [(need.system, need.line.name) for need in found.whole if need.line.kind is Kind.REFRIGERANT]
    assert sorted(kg) == [("", "R-32"), ("", "R-410A")]
    assert amounts(found.by_system) == pytest.approx(amounts(found.whole))


def test_a_room_that_another_system_serves_as_well_is_left_out_and_still_counts() -> None:
    opened = project(CLINIC)
    design = opened.loaded.design
    ground, quay, upper = sorted(design.systems, key=lambda one: one.id)
    room = ground.units[0].room
    moved = replace(upper, units=(replace(upper.units[0], room=room), *upper.units[1:]))
    short = tuple(replace(one, cooling_w=90_000.0) if one.id == room else one for one in design.rooms)
    changed = evaluate(replace(design, systems=(ground, quay, moved), rooms=short), opened.library)
    only = only_systems(changed, ["ground"])
    assert room not in {one.id for one in only.evaluation.rooms}
    assert any(f"Room {room} is served by upper/{upper.units[0].id} as well" in line for line in only.lines)
    assert only.lines[-1].endswith("in the whole design it stands: over.")
    checks = [check for result in only.evaluation.systems for check in (*result.limits, *result.checks)]
    assert Standing.OVER not in {check.standing for check in checks}
    assert only.evaluation.standing is Standing.OVER


def test_an_unknown_elsewhere_is_told_and_all_systems_are_the_whole() -> None:
    whole = evaluated(CLINIC)
    assert whole.standing is Standing.OVER
    only = only_systems(whole, ["ground"])
    assert "The whole design stands: over." in only.lines[0]
    assert only_systems(whole, []).evaluation is whole
    assert only_systems(whole, ["upper", "ground", "quay", "ground"]).lines == ()


@cache
def ground_set() -> HandOver:
    return hand_over(project(CLINIC), Buying(Settings()), SI, lambda _: None, systems=("ground",))


def test_every_file_says_for_which_system_it_is() -> None:
    files = ground_set().files
    said = "SYSTEM ground ONLY; NOT for quay, upper"
    spoken = [name for name in files if name.endswith((".csv", ".txt"))]
    assert len(spoken) > 25
    assert [name for name in spoken if said not in files[name].decode()] == []
    for name in ("report.pdf", "checklist.pdf", "records/forms.pdf"):
        pages = texts(files[name])
        assert [i for i, text in enumerate(pages) if squeezed("SYSTEM ground ONLY") not in text] == []
    about = json.loads(files["contents.json"])
    assert (about["about"]["systems"], about["about"]["other_systems"]) == (["ground"], ["quay", "upper"])
    assert (about["standing"], about["standing_of_design"]) == ("within", "over")
    for name in ("takeoff", "cuts", "by_system"):
        assert files[f"schedules/{name}.csv"].decode().startswith("# schedule,")
        assert "SYSTEM ground ONLY" in files[f"schedules/{name}.csv"].decode().splitlines()[0]


def test_nothing_of_another_system_stands_in_the_set() -> None:
    files = ground_set().files
    assert [name for name in files if "quay" in name or "upper" in name] == []
    for schedule in json.loads(files["schedules.json"])["schedules"]:
        keys = [column["key"] for column in schedule["columns"]]
        if "system" in keys:
            assert {row[keys.index("system")] for row in schedule["rows"]} <= {"ground", "", ALL}


def test_a_set_of_the_only_system_is_the_set() -> None:
    whole, named = (
        hand_over(project(BOAT_HOUSE), Buying(Settings()), SI, lambda _: None, systems=systems)
        for systems in ((), ("main",))
    )
    assert whole.files == named.files


def test_the_command_refuses_systems_that_are_not_there_and_writes_nothing(tmp_path: Path) -> None:
    wanted = ["report", str(CLINIC), "-o", str(tmp_path / "set"), "--system", "ground", "--system", "annex"]
    done = CliRunner().invoke(cli, wanted)
    assert done.exit_code == 2
    assert "there is no system 'annex'" in done.output
    assert not (tmp_path / "set").exists()
