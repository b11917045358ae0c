"""Schedules sum to the take-off: tube, bends, couplings, reducers, items, supports, insulation, charge."""

from __future__ import annotations

from collections import Counter
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from linewright.app.handover import about_project
from linewright.engine import Evaluation
from linewright.report.schedules import schedules, tables_json
from linewright.takeoff import Kind, TakeOff
from linewright.units import UnitSystem
from tests.handover.cases import EXAMPLES, evaluated, project, taken

Row = dict[str, Any]
each_example = pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)


class Made(NamedTuple):
    """The evaluation of an example, what is bought for it, its schedules as plain values by name."""

    evaluation: Evaluation
    found: TakeOff
    tables: dict[str, dict[str, Any]]


@cache
def made(path: Path) -> Made:
    evaluation = evaluated(path)
    found = taken(path)
    tables = tables_json(schedules(evaluation, found, UnitSystem.SI), about_project(project(path)))
    return Made(evaluation, found, {one["name"]: one for one in tables["schedules"]})


def rows(found: Made, name: str) -> list[Row]:
    one = found.tables[name]
    keys = [column["key"] for column in one["columns"]]
    return [dict(zip(keys, row, strict=True)) for row in one["rows"]]


def bought(found: Made, *kinds: Kind) -> dict[str, Any]:
    """What the take-off counts, by the name of the item."""
    words = {kind.value for kind in kinds}
    return {row["item"]: row for row in rows(found, "takeoff") if row["kind"] in words}


def metres_of(items: list[Row], key: str = "od") -> dict[str, float]:
    total: dict[str, float] = {}
    for row in items:
        if row[key] is not None and row["length"] is not None:
            size = f"{row[key] * 1000:.1f}"
            total[size] = total.get(size, 0.0) + row["length"]
    return total


@each_example
def test_runs_and_insulation_are_as_long_as_what_is_bought(path: Path) -> None:
    found = made(path)
    for kind, name in ((Kind.TUBE, "runs"), (Kind.INSULATION, "insulation")):
        scheduled = rows(found, name)
        if kind is Kind.INSULATION:
            assert len(scheduled) == len(rows(found, "runs"))
            scheduled = [row for row in scheduled if row["thickness"] != 0.0]
        total: dict[str, float] = {}
        for line in found.found.lines:
            if line.kind is kind and line.od_m is not None:
                size = f"{line.od_m * 1000:.1f}"
                total[size] = total.get(size, 0.0) + (line.net or 0.0)
        assert total == pytest.approx(metres_of(scheduled)), name


@each_example
def test_insulation_is_as_thick_as_what_is_bought(path: Path) -> None:
    found = made(path)
    by_key: Counter[tuple[str, str]] = Counter()
    for row in rows(found, "insulation"):
        if row["od"] is not None and row["length"] is not None and row["thickness"] != 0.0:
            by_key[f"{row['od'] * 1000:.1f}", str(row["thickness"])] += row["length"]
    lines = [line for line in found.found.lines if line.kind is Kind.INSULATION and line.od_m is not None]
    assert dict(by_key) == pytest.approx(
        {(f"{(line.od_m or 0) * 1000:.1f}", str(line.thickness_m)): line.net for line in lines}
    )


@each_example
def test_small_parts(path: Path) -> None:
    found = made(path)
    assert sum(row["bends"] for row in rows(found, "runs") if row["od"] is not None) == sum(
        row["counted"] for row in bought(found, Kind.BEND).values()
    )
    pieces = rows(found, "cuts")
    joined = sum(1 for row in pieces if row["part"].partition(" of ")[0] != "1")
    assert joined == sum(row["counted"] for row in bought(found, Kind.COUPLING).values())
    reducers = Counter((row["od"], row["to_od"]) for row in rows(found, "reducers"))
    assert reducers == {
        (line.od_m, line.to_od_m): line.counted for line in found.found.lines if line.kind is Kind.REDUCER
    }
    items: Counter[str] = Counter()
    for row in rows(found, "items"):
        items[f"item on a run: {row['item']}"] += row["count"]
    assert items == {name: row["counted"] for name, row in bought(found, Kind.ITEM).items()}
    supports = sum(row["supports"] or 0 for row in rows(found, "supports"))
    assert supports == sum(row["counted"] for row in bought(found, Kind.SUPPORT).values())


@each_example
def test_units_fittings_and_charge(path: Path) -> None:
    found = made(path)
    for name, kinds in (
        ("outdoor", (Kind.OUTDOOR,)),
        ("indoor", (Kind.INDOOR,)),
        ("fittings", (Kind.JOINT, Kind.HEADER, Kind.BOX, Kind.OUTDOOR_JOINT)),
    ):
        models = Counter(row["model"] for row in rows(found, name) if row["model"])
        counts: Counter[str] = Counter()
        for item, row in bought(found, *kinds).items():
            counts[item.partition(": ")[2]] += row["counted"]
        assert models == counts, name
    weighed = [row for row in rows(found, "charge") if row["term"].endswith("weighed in")]
    masses = [row["net_mass"] for row in bought(found, Kind.REFRIGERANT).values()]
    assert sum(masses) == pytest.approx(sum(row["mass"] or 0.0 for row in weighed))


@each_example
def test_the_charge_worksheet_is_complete(path: Path) -> None:
    """Its terms make its sum, and nothing that is not known is summed as nought."""
    found = made(path)
    for result in found.evaluation.systems:
        mine = [row for row in rows(found, "charge") if row["system"] == result.id]
        sums = {row["term"]: row["mass"] for row in mine}
        terms = [row["mass"] for row in mine[: len(result.charge.terms)]]
        if None in terms:
            assert sums["sum of the terms"] is None
            assert sums["total charge"] is None
        else:
            assert sum(terms) == pytest.approx(sums["sum of the terms"])


def test_without_pipework_the_schedules_of_it_say_so() -> None:
    plain = next(path for path in EXAMPLES if path.stem.startswith("boat-house"))
    for name in ("supports", "strength"):
        table = made(plain).tables[name]
        assert table["rows"] == []
        assert table["notes"] == ["The design does not state how pipework is judged: nothing is counted"]
