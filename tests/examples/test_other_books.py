"""The inland and the mountain book keep the rules that their first lines state, and are consistent in themselves."""

from math import pi
from typing import Any

import pytest
import yaml

from tests.house.files import ROOT
from tests.units.test_factors import EXACT

Data = dict[str, Any]


def read(name: str) -> Data:
    text = (ROOT / "books" / f"{name}.book.yaml").read_text(encoding="utf-8")
    book: Data = yaml.safe_load(text)
    assert "invented for this project" in text.splitlines()[0]
    return book


INLAND, HIGHLAND = read("inland-r410a"), read("highland-r454b")
BOOKS = pytest.mark.parametrize("book", [INLAND, HIGHLAND], ids=lambda book: book["id"])
#: Density of the liquid [kg/m3] as each book states it in its first lines.
DENSITY = {"inland-r410a": 1150.0, "highland-r454b": 1050.0}
LENGTH = {"in": 0.0254, "mm": 1e-3, "m": 1.0, "ft": 0.3048}
PER_LENGTH = {"kg/m": 1.0, "lb/ft": EXACT["lb"] / EXACT["ft"]}


def metres(text: str) -> float:
    number, _, unit = text.partition(" ")
    whole, _, fraction = number.rpartition("-")
    top, _, bottom = fraction.partition("/")
    return (float(whole or 0) + float(top) / float(bottom or 1)) * LENGTH[unit]


def number(text: object) -> float:
    return float(str(text).split()[0])


@BOOKS
def test_charge_per_length_is_volume_times_the_stated_density(book: Data) -> None:
    for size, rate in book["charge"]["liquid"].items():
        inside = metres(size) - 2 * metres(book["tubes"]["wall"][size])
        kg_per_m = number(rate) * PER_LENGTH[rate.split()[1]]
        # Three digits are printed, of the smallest tube two.
        assert kg_per_m == pytest.approx(pi / 4 * inside**2 * DENSITY[book["id"]], rel=0.025), size


@BOOKS
def test_a_group_is_the_sum_of_its_modules_and_a_unit_its_index(book: Data) -> None:
    points = {"MBH": 1.0, "points": 10.0}[book["index"]["unit"]]
    modules = {module["model"]: module for module in book["outdoor"]["modules"]}
    for group in book["outdoor"]["groups"]:
        assert group["index"] == sum(modules[name]["index"] for name in group["modules"])
        smallest = min(model["index"] for model in book["indoor"]["models"])
        most = group["index"] * number(group["connection_ratio"]["max"]) / 100 / smallest
        assert group["indoor_count"]["max"] <= most
    for item in (*book["outdoor"]["modules"], *book["indoor"]["models"]):
        assert item["index"] == pytest.approx(points * number(item["cooling"]))
        assert item["index"] == pytest.approx(points * number(item["model"].rpartition(" ")[2]))
    for unit in book["indoor"]["models"]:
        assert number(unit["sensible"]) < number(unit["cooling"]) < number(unit["heating"])


def tables(book: Data) -> list[list[Data]]:
    sizings = [book["sizing"], *(option["sizing"] for option in book.get("options", []) if "sizing" in option)]
    return [sizing[name]["rows"] for sizing in sizings for name in ("main", "branch", "module") if name in sizing]


@BOOKS
def test_a_larger_index_never_gets_a_smaller_tube(book: Data) -> None:
    for rows in tables(book):
        for role in ("gas", "liquid"):
            sizes = [metres(row[role]) for row in rows]
            assert sizes == sorted(sizes)
            assert {row[role] for row in rows} <= set(book["tubes"][role])


@BOOKS
def test_the_largest_system_finds_its_tubes_and_its_joints(book: Data) -> None:
    largest = max(group["index"] for group in book["outdoor"]["groups"])
    most = max(group["index"] * number(group["connection_ratio"]["max"]) / 100 for group in book["outdoor"]["groups"])
    assert book["sizing"]["main"]["rows"][-1]["upto"] >= largest
    assert book["sizing"]["branch"]["rows"][-1]["upto"] >= most
    assert book["fittings"]["joint"]["rows"][-1]["upto"] >= most


@BOOKS
def test_every_limit_and_every_rule_has_a_page(book: Data) -> None:
    listed = [*book["limits"], *book["sizing"]["actions"], *book["requirements"], *book["notes"]]
    listed += [relaxed for limit in book["limits"] for relaxed in limit.get("relaxed", [])]
    listed += [*book["charge"].get("terms", []), *book.get("options", [])]
    listed += [book[name] for name in ("outdoor", "indoor", "tubes", "fittings", "charge", "operation", "pressures")]
    assert [item for item in listed if "page" not in item] == []


def test_capacity_and_input_of_the_inland_book_are_in_proportion() -> None:
    """Per 72 MBH each group has the same capacity at the same ratio and temperatures, within what rounding leaves."""
    index = {group["id"]: group["index"] for group in INLAND["outdoor"]["groups"]}
    seen: dict[str, list[list[float]]] = {}
    for table in INLAND["capacity"]["cooling"]["table"]:
        (group,) = table["groups"]
        share = [[number(cell) / index[group] for cell in row] for row in table["capacity"]]
        first = seen.setdefault(table["ratio"], share)
        for row, wanted in zip(share, first, strict=True):
            assert row == pytest.approx(wanted, abs=0.002)
        assert all(list(row) == sorted(row) for row in share)
    assert set(seen) == {"50 %", "100 %", "130 %"}
