"""The pilot station and its book: what the example shows, and that the book keeps its own rules."""

from bisect import bisect_left
from math import pi
from pathlib import Path
from typing import Any

import pytest
import yaml

from linewright.app.project import open_project
from linewright.draw import layout, sheet_scene
from linewright.engine import Evaluation, Standing
from linewright.engine.records import SystemResult
from linewright.engine.zones import Zone
from linewright.model.values import NodeKind
from linewright.units import UnitSystem
from tests.examples.test_book_consistency import _number, _rounded

Data = dict[str, Any]

ROOT = Path(__file__).parents[2]
BOOK: Data = yaml.safe_load((ROOT / "books" / "skerry-hr-r410a.book.yaml").read_text(encoding="utf-8"))

#: kW that a tube carries, as the head of the book says. Gas and suction: R-410A row of the project's own reference
#: figures (1 K over 30 m at 5 C + 5 K), rounded down; high/low: 1.75 times the row, rounded down; liquid: 0.5 K,
#: rounded down.
ROW_KW = {12.7: 3.46, 15.88: 6.26, 19.05: 10.8, 22.22: 16.9, 25.4: 24.9, 28.58: 34.8, 34.92: 59.1, 41.28: 92.0}
GAS_KW = {12.7: 3.4, 15.88: 6.2, 19.05: 10, 22.22: 16, 25.4: 24, 28.58: 34, 34.92: 59, 41.28: 92}
HIGH_LOW_KW = {12.7: 6.0, 15.88: 10, 19.05: 18, 22.22: 29, 25.4: 43, 28.58: 60, 34.92: 103}
LIQUID_KW = {9.52: 7.3, 12.7: 18, 15.88: 32, 19.05: 56, 22.22: 88}
CARRY = {"gas": GAS_KW, "suction": GAS_KW, "high_low": HIGH_LOW_KW, "liquid": LIQUID_KW}
DENSITY = {"gas": 36, "suction": 36, "high_low": 88, "liquid": 976}


def smallest(role: str, kw: float) -> float:
    sizes = list(CARRY[role])
    return sizes[bisect_left([CARRY[role][size] for size in sizes], kw)]


def sizes_of(row: Data) -> dict[str, float]:
    return {role: _number(row[role]) for role in CARRY if role in row}


def test_carried_capacities_are_the_row_rounded_down() -> None:
    for size, kw in ROW_KW.items():
        assert 0 <= kw - GAS_KW[size] < 1.0
        assert size > 34.92 or 0 <= 1.75 * kw - HIGH_LOW_KW[size] < 1.0


@pytest.mark.parametrize("model", BOOK["indoor"]["models"], ids=lambda model: model["model"])
def test_ports_are_the_smallest_tubes_that_carry_the_unit(model: Data) -> None:
    assert sizes_of(model) == {role: smallest(role, model["index"]) for role in ("gas", "liquid")}


@pytest.mark.parametrize("table", ["main", "module", "branch", "below_box"])
def test_rows_are_the_smallest_tubes_that_carry_their_edge(table: str) -> None:
    roles = ("gas", "liquid") if table == "below_box" else ("suction", "high_low", "liquid")
    for row in BOOK["sizing"][table]["rows"]:
        assert sizes_of(row) == {role: smallest(role, row["upto"]) for role in roles}, row


@pytest.mark.parametrize("model", BOOK["boxes"]["models"], ids=lambda model: model["model"])
def test_connections_of_a_box_carry_its_index_and_what_it_carries_on(model: Data) -> None:
    carried = model["index"] + model.get("series_index", 0)
    assert sizes_of(model) == {role: smallest(role, carried) for role in ("suction", "high_low", "liquid")}
    port: float = model.get("port_index") or model["index"]
    assert sizes_of(model["outlet"]) == {role: smallest(role, port) for role in ("gas", "liquid")}


@pytest.mark.parametrize("role", DENSITY)
def test_charges_are_volume_times_density(role: str) -> None:
    walls = {_number(size): _number(wall) for size, wall in BOOK["tubes"]["wall"].items()}
    for size, rate in BOOK["charge"][role].items():
        od = _number(size)
        volume_m3_m = pi / 4 * ((od - 2 * walls[od]) / 1000) ** 2
        assert _number(rate) == _rounded(volume_m3_m * DENSITY[role], "0.001"), (role, size)


@pytest.fixture(scope="module")
def evaluation() -> Evaluation:
    return open_project(ROOT / "examples" / "pilot-station" / "pilot-station.design.yaml").evaluate()


@pytest.fixture(scope="module")
def station(evaluation: Evaluation) -> SystemResult:
    return evaluation.systems[0]


def test_the_station_is_within_everything(evaluation: Evaluation) -> None:
    assert evaluation.standing is Standing.WITHIN


def test_it_has_what_its_head_promises(station: SystemResult) -> None:
    boxes = {box.id: box for box in station.state.ground.boxes}
    models = {name: box.model.model for name, box in boxes.items() if box.model is not None}
    assert len(station.units) == 18
    assert models == {"B1": "box 4", "B2": "box 8", "B3": "box 4", "B4": "box 1"}
    assert (boxes["B3"].depth, boxes["B4"].depth) == (1, 2)
    joined = [outlet.ports for box in boxes.values() for outlet in box.outlets if len(outlet.ports) > 1]
    assert joined == [(1, 2)]
    assert [station.system.units[i].id for i in station.state.ground.direct] == ["U18"]


def test_the_sum_of_lengths_and_of_indices_is_as_counted_by_hand(station: SystemResult) -> None:
    """Runs as in the file, floor by floor; indices 17.9 + 23.2 + 13.7 + 7.2 + 4.5."""
    ground = (16 + 9) + (7 + 9 + 6 + 8)
    first = (6 + 8) + (12 + 9 + 6 + 5 + 8 + 11) + (9 + 3 + 5) + 7
    second = (6 + 10 + 5) + (6 + 8 + 7) + (11 + 2 + 3 + 5)
    assert sum(station.state.ground.length_m) == pytest.approx(ground + first + second)
    assert station.indoor_index == pytest.approx(66.5)


@pytest.mark.parametrize("width", [900, 1200, 1600, 2200])
def test_boxes_and_runs_of_three_tubes_are_drawn(evaluation: Evaluation, station: SystemResult, width: int) -> None:
    scene = sheet_scene(layout(evaluation, station), UnitSystem.SI, width=width)
    painted = [item for item in scene.primitives if item.role in ("box", "third-tube")]
    ids = station.tree.ids
    boxes = {f"node:{ids[i]}" for i, kind in enumerate(station.tree.kind) if kind is NodeKind.BOX}
    outer = {ids[i] for i, zone in enumerate(station.state.ground.zones) if zone is Zone.OUTER}
    assert {item.id for item in painted if item.role == "box"} == boxes
    assert {item.id.split("/")[0] for item in painted if item.role == "third-tube"} == {f"run:{name}" for name in outer}
