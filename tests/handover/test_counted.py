"""What is counted is what stands in the files of the demonstrations, read without the program's loader."""

from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import yaml

from linewright.app.project import open_project
from linewright.engine.records import Evaluation
from linewright.takeoff import Kind, Settings, take_off
from tests.handover.cases import BOAT_HOUSE, CLINIC, EXAMPLES, LOFTS, evaluated, taken


def written(path: Path) -> dict[str, Any]:
    found: dict[str, Any] = yaml.safe_load(path.read_text(encoding="utf-8"))
    return found


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_units_and_items_are_those_of_the_file(path: Path) -> None:
    systems = written(path)["systems"]
    found = taken(path)
    units = Counter(unit["model"] for system in systems for unit in system["units"])
    assert {line.name: line.count for line in found.lines if line.kind is Kind.INDOOR} == units
    runs = [run for system in systems for run in (*system["runs"], *system["outdoor"].get("pipes", []))]
    kinds = Counter[str]()
    for run in runs:
        for item in run.get("items", []):
            kinds[item if isinstance(item, str) else item["kind"]] += 1 if isinstance(item, str) else item["count"]
    assert {line.name: line.counted for line in found.lines if line.kind is Kind.ITEM} == kinds


def test_every_run_of_the_clinic_has_its_two_tubes_and_their_bends() -> None:
    systems = written(CLINIC)["systems"]
    runs = [run for system in systems for run in (*system["runs"], *system["outdoor"].get("pipes", []))]
    metres = sum(float(run["length"].removesuffix(" m")) for run in runs)
    found = taken(CLINIC)
    assert sum(line.net or 0.0 for line in found.lines if line.kind is Kind.TUBE) == pytest.approx(2 * metres)
    assert sum(line.net or 0.0 for line in found.lines if line.kind is Kind.INSULATION) == pytest.approx(2 * metres)
    bends = sum(run.get("bends", 0) for run in runs)
    assert sum(line.counted for line in found.lines if line.kind is Kind.BEND) == 2 * bends


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_all_tube_that_is_bought_is_run_waste_or_offcut(path: Path) -> None:
    found = take_off(evaluated(path), Settings(waste=0.07))
    for cutting in found.cuttings:
        needs = sum(cut.need_mm for cut in cutting.cuts)
        assert sum(size * count for _, size, count in cutting.bought) == needs + cutting.waste_mm
        assert sum(piece.piece_mm for piece in cutting.pieces) == needs
        assert cutting.couplings == len(cutting.pieces) - len(cutting.cuts)
        assert 0 <= cutting.bound_mm <= cutting.worth_mm == cutting.waste_mm + 1000 * cutting.couplings
        assert all(0 <= cut.need_mm - 1070.0 * cut.net_m < 1.001 for cut in cutting.cuts)


def test_a_run_without_a_length_is_named_and_the_list_is_not_complete() -> None:
    evaluation: Evaluation = evaluated(LOFTS)
    unknown = {run.id for system in evaluation.systems for run in system.runs if run.length_m is None}
    found = taken(LOFTS)
    named = {gap.subject.partition("run:")[2] for gap in found.gaps if gap.text.startswith("no length")}
    assert unknown
    assert named == unknown
    assert not found.complete
    assert found.cost is None


def reducers(tmp_path: Path, *changes: tuple[str, str]) -> dict[tuple[float | None, float | None], int]:
    text = BOAT_HOUSE.read_text(encoding="utf-8")
    for before, after in changes:
        assert before in text
        text = text.replace(before, after)
    path = tmp_path / "changed.design.yaml"
    path.write_text(text, encoding="utf-8")
    found = take_off(open_project(path).evaluate())
    return {(line.od_m, line.to_od_m): line.count for line in found.lines if line.kind is Kind.REDUCER}


def test_a_tube_that_is_larger_than_the_connection_of_its_unit_takes_a_reducer(tmp_path: Path) -> None:
    """By hand: the gas connection of U3 is 12.7 mm (book minimal); its own run is made 15.88 mm."""
    before = reducers(tmp_path)
    larger = "to: U3, length: 11 m, override: {gas: 15.88 mm}}"
    after = reducers(tmp_path, ("to: U3, length: 11 m}", larger))
    key = (0.01588, 0.0127)
    assert after == before | {key: before.get(key, 0) + 1}


def test_a_size_that_changes_at_a_coupling_takes_a_reducer(tmp_path: Path) -> None:
    """By hand: the run to U3 is parted by a coupling, and the first part of its gas tube is made 15.88 mm."""
    before = reducers(tmp_path)
    parts = "to: K9, length: 8 m, override: {gas: 15.88 mm}}\n      - {from: K9, to: U3, length: 3 m}"
    after = reducers(tmp_path, ("to: U3, length: 11 m}", parts))
    key = (0.01588, 0.0127)
    assert after == before | {key: before.get(key, 0) + 1}
