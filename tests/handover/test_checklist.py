"""The installer's checklist against the evaluation and the design."""

import csv
import io
from dataclasses import replace
from pathlib import Path

import pytest

from linewright.engine import Evaluation, evaluate
from linewright.engine.records import CheckKind, Standing
from linewright.model.design import Item, Location
from linewright.report.cautions import NOTHING_OPEN, open_sections
from linewright.report.checklist import checklist, checklist_text
from linewright.report.checklist.cores import hole
from linewright.report.schedules.tables import Table
from linewright.units import UnitSystem
from tests.handover.cases import CLINIC, EXAMPLES, WORKS, bought, evaluated, project, whole_set
from tests.handover.paper import squeezed, texts

SI, IP = UnitSystem.SI, UnitSystem.IP


def tables(evaluation: Evaluation, units: UnitSystem = SI) -> dict[str, Table]:
    found = bought(evaluation, system=units)
    return {table.name: table for table in checklist(evaluation, found, units)}


def column(table: Table, key: str) -> list[object]:
    at = [column.key for column in table.columns].index(key)
    return [row[at] for row in table.rows]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_requirement_is_listed_with_its_standing(path: Path) -> None:
    evaluation = evaluated(path)
    found = tables(evaluation)
    asked = [check for result in evaluation.systems for check in result.checks if check.kind is CheckKind.REQUIREMENT]
    listed = [*column(found["requirements"], "text"), *column(found["settings"], "text")]
    assert all(check.note in listed for check in asked)
    stands = [*column(found["requirements"], "standing"), *column(found["settings"], "standing")]
    assert stands.count("to confirm") == sum(check.standing is Standing.TO_CONFIRM for check in asked)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_what_is_over_or_rests_on_conditions_is_a_deviation(path: Path) -> None:
    evaluation = evaluated(path)
    found = tables(evaluation)["deviations"]
    checks = [check for result in evaluation.systems for check in (*result.limits, *result.checks)]
    assert column(found, "what").count("OVER") == sum(check.standing is Standing.OVER for check in checks)
    limits = [check for result in evaluation.systems for check in result.limits]
    assert column(found, "what").count("wider bound") == sum(
        check.standing is Standing.ON_CONDITIONS for check in limits
    )
    overrides = [
        size for result in evaluation.systems for run in result.runs for size in run.tubes.values() if size.override_m
    ]
    assert column(found, "what").count("override") == len(overrides)
    declared = sum(len(result.system.declared) + len(result.system.forbidden_actions) for result in evaluation.systems)
    assert column(found, "what").count("declared") + column(found, "what").count("forbidden action") == declared


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_every_open_question_is_asked(path: Path) -> None:
    evaluation = evaluated(path)
    found = bought(evaluation)
    asked = column(tables(evaluation)["questions"], "text")
    lines = [line for section in open_sections(evaluation, found) for line in section.lines]
    assert asked == [line for line in lines if line != NOTHING_OPEN]


# Tube + twice the insulation + 20 mm, up to the next 10 mm; in inches + 3/4, up to the next 1/2 (common practice, no
# source): 28.58 + 2 x 19 + 20 = 86.58 -> 90; 9.52 + 2 x 10 + 20 = 49.52 -> 50; 20 + 2 x 15 + 20 = 70 -> 70;
# 1.125 + 2 x 0.75 + 0.75 = 3.375 -> 3.5 in.
@pytest.mark.parametrize(
    ("od_m", "thick_m", "units", "expected_m"),
    [
        (0.02858, 0.019, SI, 0.090),
        (0.00952, 0.010, SI, 0.050),
        (0.020, 0.015, SI, 0.070),
        (1.125 * 0.0254, 0.75 * 0.0254, IP, 3.5 * 0.0254),
    ],
)
def test_holes(od_m: float, thick_m: float, units: UnitSystem, expected_m: float) -> None:
    assert hole(od_m, thick_m, units) == pytest.approx(expected_m)


def test_holes_of_the_clinic_by_hand() -> None:
    """By hand from the file: K1, K2, J31 have a sleeve; J1 leaves K1, which is outdoors, for indoors."""
    found = tables(evaluated(CLINIC))["cores"]
    places = {(run, place) for run, place in zip(column(found, "run"), column(found, "place"), strict=True)}
    assert {("K1", "as on site"), ("K2", "as on site"), ("J31", "as on site"), ("J1", "outer wall or roof")} <= places
    assert set(column(found, "hole")) == {None}


def test_a_run_from_roof_to_basement_passes_every_level_between() -> None:
    evaluation = evaluated(CLINIC)
    elevations = sorted(level.elevation_m for level in evaluation.design.site.levels)
    assert len(elevations) > 2
    design = evaluation.design
    low, high = elevations[0] - 3.0, elevations[-1] + 3.0
    system = design.systems[0]
    system = replace(
        system,
        outdoor=replace(system.outdoor, elevation_m=high),
        runs=tuple(replace(run, rise_m=None, length_m=60.0) if run.from_ == "outdoor" else run for run in system.runs),
        fittings=tuple(
            replace(one, elevation_m=low) if one.id == system.runs[0].to else one for one in system.fittings
        ),
    )
    changed = evaluate(replace(design, systems=(system,)), project(CLINIC).library)
    found = tables(changed)["cores"]
    first = next(run.to for run in system.runs if run.from_ == "outdoor")
    passed = {
        place
        for run, place in zip(column(found, "run"), column(found, "place"), strict=True)
        if run == first and str(place).startswith("level ")
    }
    ends = changed.systems[0].state.ground.levels
    lowest = ends.node_m[changed.systems[0].tree.at[first]]
    assert lowest is not None
    assert len(passed) == sum(lowest < level < high for level in elevations)


def test_valves_and_what_they_shut_off() -> None:
    evaluation = evaluated(CLINIC)
    found = tables(evaluation)["valves"]
    beyond = dict(zip(column(found, "run"), column(found, "beyond"), strict=True))
    assert beyond["M1"] == "module M1"
    assert str(beyond["K1"]).split(", ") == [f"U{number}" for number in range(1, 11)]


def test_a_valve_stated_on_a_unit_run_shuts_off_that_unit() -> None:
    design = evaluated(CLINIC).design
    system = design.systems[0]
    runs = tuple(
        replace(run, items=(Item(kind="ball valve", count=2),), location=Location.SHAFT) if run.to == "U1" else run
        for run in system.runs
    )
    changed = evaluate(replace(design, systems=(replace(system, runs=runs),)), project(CLINIC).library)
    row = next(row for row in tables(changed)["valves"].rows if row[1] == "U1")
    assert row[2:6] == ("ball valve", 2, "U1", "shaft")


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_pages_of_all_verdicts_are_listed(path: Path) -> None:
    evaluation = evaluated(path)
    found = tables(evaluation)["pages"]
    listed = set(zip(column(found, "book"), column(found, "page"), strict=True))
    for result in evaluation.systems:
        for check in (*result.limits, *result.checks):
            assert check.page is None or (result.book, check.page) in listed


@pytest.mark.parametrize(("path", "units"), [(CLINIC, SI), (WORKS, IP)])
def test_paper_text_and_tables_say_the_same(path: Path, units: UnitSystem) -> None:
    files = whole_set(path, units).files
    paper = "".join(texts(files["checklist.pdf"]))
    text = files["checklist.txt"].decode()
    for name, table in tables(evaluated(path), units).items():
        assert squeezed(table.title) in paper
        assert table.title in text
        lines = files[f"checklist/{name}.csv"].decode().splitlines()
        rows = list(csv.reader(io.StringIO("\n".join(line for line in lines if not line.startswith(("# ", '"# '))))))
        assert len(rows) - 1 == len(table.rows)
    assert "signature" in paper


def test_a_safety_check_that_is_over_says_what_would_help() -> None:
    path = next(path for path in EXAMPLES if path.stem.startswith("ferry-terminal"))
    found = tables(evaluated(path))["devices"]
    row = next(row for row in found.rows if row[2] == "over")
    assert row[1] == "staff"
    assert "detector" in str(row[4]) or "exhaust" in str(row[4])
    assert any("common practice, no source" in note for note in found.notes)


def test_without_a_standard_rooms_are_said_not_to_be_judged() -> None:
    assert evaluated(CLINIC).design.refrigerant is None
    found = tables(evaluated(CLINIC))["devices"]
    assert sum("NOT JUDGED" in note for note in found.notes) == len(evaluated(CLINIC).systems)
    assert "NOT JUDGED" in " ".join(checklist_text(list(tables(evaluated(CLINIC)).values()), SI).split())
