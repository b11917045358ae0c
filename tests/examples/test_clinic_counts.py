"""What the shipped demonstrations promise: their counts, that they are invented, how the clinic stands."""

from collections import Counter
from pathlib import Path
from typing import Any

import pytest
import yaml

from linewright.document.files import link, load_book, load_design
from linewright.engine.evaluate import evaluate
from linewright.engine.library import Library
from linewright.engine.records import Evaluation, Standing, SystemResult

ROOT = Path(__file__).parents[2]
BOOK = ROOT / "books" / "tidewater-r32.book.yaml"
CLINIC = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"
SMALL_BOOK = ROOT / "books" / "minimal.book.yaml"
BOAT_HOUSE = ROOT / "examples" / "boat-house" / "boat-house.design.yaml"


def _parsed(path: Path) -> dict[str, Any]:
    parsed: dict[str, Any] = yaml.safe_load(path.read_text(encoding="utf-8"))
    return parsed


def _evaluated(design_file: Path, book_file: Path) -> Evaluation:
    book = load_book(book_file).compiled
    loaded = load_design(design_file)
    link(loaded, {book.book.id: book})
    return evaluate(loaded.design, Library.of({book.book.id: book}))


@pytest.fixture(scope="module")
def clinic() -> Evaluation:
    return _evaluated(CLINIC, BOOK)


def _system(clinic: Evaluation, name: str) -> SystemResult:
    return next(system for system in clinic.systems if system.id == name)


def _room_standings(clinic: Evaluation, system: SystemResult) -> set[Standing]:
    own = {unit.room for unit in system.system.units}
    return {check.standing for room in clinic.rooms if room.id in own for check in room.checks}


def test_the_clinic_has_three_storeys_34_rooms_and_three_systems() -> None:
    design = _parsed(CLINIC)
    assert len(design["rooms"]) == 34
    assert len({room["id"] for room in design["rooms"]}) == 34
    assert len({room["level"] for room in design["rooms"]}) == 3
    assert len(design["systems"]) == 3


def test_every_room_of_the_clinic_is_served_by_exactly_one_system() -> None:
    design = _parsed(CLINIC)
    served = [{unit["room"] for unit in system["units"]} for system in design["systems"]]
    assert sorted(room for rooms in served for room in rooms) == sorted(room["id"] for room in design["rooms"])


def test_sensible_load_is_below_total_load_in_every_room() -> None:
    for room in _parsed(CLINIC)["rooms"]:
        assert float(room["sensible"].split()[0]) < float(room["cooling"].split()[0]), room["id"]


def test_the_book_has_four_groups_and_four_kinds_in_eight_sizes() -> None:
    book = _parsed(BOOK)
    groups = [len(group["modules"]) for group in book["outdoor"]["groups"]]
    assert sorted(groups) == [1, 1, 2, 3]
    sizes = Counter(model["kind"] for model in book["indoor"]["models"])
    assert sizes == {"cassette": 8, "ducted": 8, "wall": 8, "floor": 8}
    assert len({(model["kind"], model["index"]) for model in book["indoor"]["models"]}) == 32


@pytest.mark.parametrize("path", [BOOK, SMALL_BOOK], ids=lambda path: path.name)
def test_a_shipped_book_says_that_it_is_invented(path: Path) -> None:
    book = _parsed(path)
    first_line = path.read_text(encoding="utf-8").splitlines()[0].lower()
    assert "invented" in first_line
    assert "not any maker's" in first_line
    assert "invented" in book["document"]["title"].lower()
    assert book["status"] == "demonstration"


def test_the_clinic_says_that_it_is_invented() -> None:
    assert "Invented" in _parsed(CLINIC)["note"]


def test_the_ground_system_is_comfortable(clinic: Evaluation) -> None:
    system = _system(clinic, "ground")
    fine = {Standing.WITHIN, Standing.NOT_APPLICABLE}
    assert {check.standing for check in (*system.limits, *system.checks)} <= fine
    assert _room_standings(clinic, system) == {Standing.WITHIN}
    assert not any(action.due for action in system.actions)
    assert system.system.block is not None


def test_the_quay_system_is_within_only_on_conditions(clinic: Evaluation) -> None:
    system = _system(clinic, "quay")
    relaxed = [check.measure for check in system.limits if check.standing is Standing.ON_CONDITIONS]
    assert relaxed == ["after_first_branch"]
    fine = {Standing.WITHIN, Standing.NOT_APPLICABLE, Standing.ON_CONDITIONS}
    assert {check.standing for check in (*system.limits, *system.checks)} <= fine
    assert _room_standings(clinic, system) == {Standing.WITHIN}


def test_the_main_of_the_quay_system_is_one_size_up(clinic: Evaluation) -> None:
    system = _system(clinic, "quay")
    actions = {action.id: action for action in system.actions}
    assert actions["long-main"].mandatory
    assert actions["long-main"].carried_out
    assert not actions["after-branch-up"].mandatory
    assert actions["after-branch-up"].carried_out
    main = [run for run in system.runs if run.is_main]
    # 31.75 and 15.88 mm by the outdoor index of 56; the next sizes of the ladders in the book.
    sizes = {(str(tube.role), tube.od_m) for run in main for tube in run.tubes.values()}
    assert sizes == {("gas", 0.03492), ("liquid", 0.01905)}
    assert system.system.outdoor.pipes


def test_the_upper_system_has_at_least_four_different_faults(clinic: Evaluation) -> None:
    system = _system(clinic, "upper")
    over = {check.measure for check in system.limits if check.standing is Standing.OVER}
    assert {"after_first_branch", "connection_ratio", "header_depth", "joint_spacing"} <= over
    assert Standing.OVER in _room_standings(clinic, system)
    assert not any(check.standing is Standing.UNJUDGED for check in (*system.limits, *system.checks))


def test_the_clinic_shows_a_header_a_coupling_and_a_valve() -> None:
    design = _parsed(CLINIC)
    kinds = {fitting.get("kind") for system in design["systems"] for fitting in system["fittings"]}
    items = {item for system in design["systems"] for run in system["runs"] for item in run.get("items", [])}
    assert {"header", "coupling"} <= kinds
    assert "valve" in items


def test_the_boat_house_stands_as_worked_by_hand() -> None:
    evaluation = _evaluated(BOAT_HOUSE, SMALL_BOOK)
    standings = {check.measure: check.standing for check in evaluation.systems[0].limits}
    assert standings["after_first_branch"] is Standing.ON_CONDITIONS
    checks = {(room.id, check.measure): check.standing for room in evaluation.rooms for check in room.checks}
    assert checks["workshop", "heating"] is Standing.OVER
    assert checks["store", "cooling"] is Standing.OVER
