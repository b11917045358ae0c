"""The demonstration book keeps the rules that its first lines state."""

from bisect import bisect_left
from decimal import ROUND_DOWN, ROUND_HALF_UP, Decimal
from math import pi
from pathlib import Path
from typing import Any

import pytest
import yaml

Data = dict[str, Any]

ROOT = Path(__file__).parents[2]
BOOK: Data = yaml.safe_load((ROOT / "books" / "tidewater-r32.book.yaml").read_text(encoding="utf-8"))
CLINIC_FILE = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"
CLINIC_TEXT = CLINIC_FILE.read_text(encoding="utf-8")
CLINIC: Data = yaml.safe_load(CLINIC_TEXT)

#: kW that a tube carries: gas at 1.5 K and liquid at 1 K over 30 m, R-32, suction 5 C + 5 K, liquid 35 C,
#: walls of the book, drawn copper of 0.0015 mm, Churchill's friction factor. Computed with CoolProp 8.0.0,
#: apart from the program.
GAS_KW = {
    9.52: 2.23,
    12.7: 5.48,
    15.88: 9.91,
    19.05: 17.07,
    22.22: 26.76,
    25.4: 39.32,
    28.58: 54.99,
    31.75: 72.64,
    34.92: 93.41,
    38.1: 116.71,
}
LIQUID_KW = {6.35: 3.81, 9.52: 14.96, 12.7: 36.73, 15.88: 66.46, 19.05: 114.53}
#: Density of saturated liquid R-32 at 40 C [kg/m3], CoolProp 8.0.0.
LIQUID_DENSITY = 893.04


def _number(text: object) -> float:
    return float(str(text).split()[0])


def _rounded(value: float, step: str) -> float:
    return float(Decimal(str(round(value, 9))).quantize(Decimal(step), ROUND_HALF_UP))


def _down(kw: float) -> float:
    """Round down: to a tenth below 10 kW, to a whole kW above."""
    return float(Decimal(str(kw)).quantize(Decimal("0.1") if kw < 10 else Decimal(1), ROUND_DOWN))


def _smallest(table: dict[float, float], kw: float) -> float:
    sizes = list(table)
    return sizes[bisect_left([_down(table[size]) for size in sizes], kw)]


@pytest.mark.parametrize("model", BOOK["indoor"]["models"], ids=lambda model: model["model"])
def test_ports_are_the_smallest_tubes_that_carry_the_unit(model: Data) -> None:
    assert _number(model["gas"]) == _smallest(GAS_KW, model["index"])
    assert _number(model["liquid"]) == _smallest(LIQUID_KW, model["index"])
    assert model["index"] == _number(model["cooling"])
    assert model["model"] == f"{model['kind']} {model['index']:.1f}"


@pytest.mark.parametrize("row", BOOK["sizing"]["main"]["rows"] + BOOK["sizing"]["branch"]["rows"], ids=str)
def test_a_row_has_the_smallest_tubes_that_carry_its_upper_edge(row: Data) -> None:
    assert _number(row["gas"]) == _smallest(GAS_KW, row["upto"])
    # No branch serves less than two of the smallest units, so its liquid line starts at 9.52 mm.
    assert _number(row["liquid"]) == max(9.52, _smallest(LIQUID_KW, row["upto"]))


@pytest.mark.parametrize("size", BOOK["charge"]["liquid"])
def test_charge_per_metre_is_volume_times_density_and_eight_per_cent(size: str) -> None:
    inside_mm = _number(size) - 2 * _number(BOOK["tubes"]["wall"][size])
    kg_per_m = pi / 4 * (inside_mm / 1000) ** 2 * LIQUID_DENSITY * 1.08
    assert _number(BOOK["charge"]["liquid"][size]) == _rounded(kg_per_m, "0.001")


def test_groups_are_the_sums_of_their_modules() -> None:
    modules = {module["model"]: module for module in BOOK["outdoor"]["modules"]}
    for group in BOOK["outdoor"]["groups"]:
        cooling = sum(_number(modules[name]["cooling"]) for name in group["modules"])
        heating = sum(_number(modules[name]["heating"]) for name in group["modules"])
        assert cooling <= _number(group.get("cooling", cooling)) < cooling + 0.5
        assert _number(group.get("heating", heating)) == heating
        assert group["index"] == _number(group.get("cooling", cooling))
        smallest = min(model["index"] for model in BOOK["indoor"]["models"])
        assert group["indoor_count"]["max"] == int(1.30 * group["index"] / smallest)


def test_temperature_factors_keep_their_stated_slopes() -> None:
    cooling = BOOK["capacity"]["cooling"]["temperature"]
    for outdoor, row in zip(cooling["outdoor_db"], cooling["factor"], strict=True):
        for indoor, factor in zip(cooling["indoor_wb"], row, strict=True):
            exact = 1 + 0.030 * (_number(indoor) - 19) - 0.009 * (max(_number(outdoor), 25) - 35)
            assert factor == pytest.approx(exact, abs=0.00501)
    heating = BOOK["capacity"]["heating"]["temperature"]
    for outdoor, row in zip(heating["outdoor_wb"], heating["factor"], strict=True):
        for indoor, factor in zip(heating["indoor_db"], row, strict=True):
            slope = 0.014 if _number(outdoor) < 6 else 0.008
            exact = 1 + slope * (_number(outdoor) - 6) - 0.008 * (_number(indoor) - 20)
            assert factor == pytest.approx(exact, abs=0.00501)


def test_capacity_never_grows_with_length() -> None:
    for mode in BOOK["capacity"].values():
        tables = mode["length"] if isinstance(mode["length"], list) else [mode["length"]]
        for table in tables:
            columns = list(zip(*table["factor"], strict=True))
            assert all(list(column) == sorted(column, reverse=True) for column in columns)
            assert all(0 < factor <= 1 for column in columns for factor in column)


def test_every_table_and_limit_has_a_page() -> None:
    assert all("page" in limit for limit in BOOK["limits"])
    assert all("page" in relaxed for limit in BOOK["limits"] for relaxed in limit.get("relaxed", []))
    assert all("page" in action for action in BOOK["sizing"]["actions"])
    assert all("page" in BOOK[name] for name in ("outdoor", "indoor", "tubes", "fittings", "charge"))
    tables = [BOOK["sizing"]["main"], BOOK["sizing"]["branch"]]
    tables += [BOOK["fittings"][name] for name in ("first", "joint", "header", "outdoor_joint")]
    for mode in BOOK["capacity"].values():
        for table in mode.values():
            tables += table if isinstance(table, list) else [table]
    assert all("page" in table for table in tables)


def test_loads_of_the_clinic_follow_the_table_in_its_comment() -> None:
    lines = [line.lstrip("# ").split() for line in CLINIC_TEXT.splitlines() if line.startswith("#   ")]
    by_use = {words[0]: words for words in lines if len(words) >= 5 and words[3] == "%"}
    assert len(by_use) == 12
    for room in CLINIC["rooms"]:
        _, cooling, share, _, heating = by_use[room["use"]][:5]
        area = _number(room["area"])
        total = _rounded(area * float(cooling) / 1000, "0.1")
        assert _number(room["cooling"]) == total, room["id"]
        assert _number(room["sensible"]) == _rounded(total * float(share) / 100, "0.1"), room["id"]
        assert _number(room["heating"]) == _rounded(area * float(heating) / 1000, "0.1"), room["id"]
