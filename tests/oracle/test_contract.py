"""The naive evaluator reproduces the check that was worked by hand, so that it is worth comparing with."""

import json
from collections.abc import Mapping
from decimal import Decimal
from typing import Any

import pytest

from linewright.book.measures import MeasureName
from linewright.book.schema import MeasureUse
from linewright.document.files import load_book, load_design
from linewright.model.values import Role
from tests.contract.program import DATA
from tests.oracle.naive import Answer, SystemAnswer, answer
from tests.oracle.naive_measures import measure

TUBES = {"gas_od_m": Role.GAS, "liquid_od_m": Role.LIQUID}


@pytest.fixture(scope="module")
def wanted() -> Mapping[str, Any]:
    """The only system of the hand-worked check."""
    found: Mapping[str, Any] = json.loads((DATA / "minimal.check.json").read_text(encoding="utf-8"))["systems"][0]
    return found


@pytest.fixture(scope="module")
def all_of_it() -> Answer:
    book = load_book(DATA / "minimal.book.yaml").compiled.book
    return answer(load_design(DATA / "minimal.design.yaml").design, {book.id: book})


@pytest.fixture(scope="module")
def naive(all_of_it: Answer) -> SystemAnswer:
    return all_of_it.systems["main"]


def near(value: float) -> Any:  # noqa: ANN401 - what pytest compares with
    return pytest.approx(value, rel=1e-6)


def number(value: Decimal | None) -> float:
    assert value is not None
    return float(value)


def test_measures(naive: SystemAnswer, wanted: Mapping[str, Any]) -> None:
    assert len(wanted["measures"]) == 12
    for entry in wanted["measures"]:
        found = measure(naive.facts, naive.sizes, MeasureUse(measure=MeasureName(entry["name"])))
        assert found.value is not None
        assert found.value.whole
        assert number(found.value.value) == near(entry["value"])
        for subject, value in entry.get("by_subject", {}).items():
            item = found.items[subject]
            assert item is not None
            assert number(item.value) == near(value)


def test_limits(naive: SystemAnswer, wanted: Mapping[str, Any]) -> None:
    assert len(naive.verdicts) == len(wanted["limits"])
    for verdict, limit in zip(naive.verdicts, wanted["limits"], strict=True):
        assert (verdict.measure, verdict.sense.value) == (limit["measure"], limit["sense"])
        assert verdict.standing == limit["standing"]
        assert number(verdict.shown) == near(limit["bound"])
        assert number(verdict.margin) == near(limit["margin"])
        assert list(verdict.measured.governs) == limit["governs"]
        assert verdict.is_relaxed == ("plain_bound" in limit)
        assert number(verdict.plain) == near(limit.get("plain_bound", limit["bound"]))


def test_runs(naive: SystemAnswer, wanted: Mapping[str, Any]) -> None:
    assert {run["id"] for run in wanted["runs"]} == set(naive.facts.run)
    for run in wanted["runs"]:
        assert naive.facts.run[run["id"]].from_ == run["from"]
        assert naive.equivalents[run["id"]].whole
        assert number(naive.equivalents[run["id"]].value) == near(run["equivalent_m"])
        assert {key: number(naive.sizes.od(run["id"], role)) for key, role in TUBES.items()} == {
            key: near(run[key]) for key in TUBES
        }


def test_fittings(naive: SystemAnswer, wanted: Mapping[str, Any]) -> None:
    assert naive.fittings == {fitting["id"]: fitting["model"] for fitting in wanted["fittings"]}
    assert {str(naive.facts.kind[fitting]) for fitting in naive.fittings} == {"joint"}


@pytest.mark.parametrize("mode", ["cooling", "heating"])
def test_capacities(naive: SystemAnswer, wanted: Mapping[str, Any], mode: str) -> None:
    assert {unit["id"] for unit in wanted["units"]} == set(naive.facts.unit)
    for unit in wanted["units"]:
        assert number(naive.delivered(unit["id"], mode)) == near(unit[mode]["delivered_w"])
        assert number(naive.needs[unit["id"], mode]) == near(unit[mode]["needed_w"])


def test_charge(naive: SystemAnswer, wanted: Mapping[str, Any]) -> None:
    charge, found = wanted["charge"], naive.charge
    assert sorted(number(kg) for kg in found.terms.values()) == [
        near(kg) for kg in sorted(t["kg"] for t in charge["terms"])
    ]
    assert number(found.factory) == near(charge["factory_kg"])
    assert number(found.unrounded) == near(charge["unrounded_kg"])
    assert number(found.additional) == near(charge["rounded_kg"])
    assert number(found.total) == near(charge["total_kg"])


def test_short_rooms(all_of_it: Answer) -> None:
    """Workshop: 5.78 of 6.0 kW heating, and 6.63 x 5.3 / 7.1 = 4.95 of 5.0 kW sensible; store: 3.36 of 3.5 kW."""
    short = {key for key, room in all_of_it.rooms.items() if room.standing == "over"}
    assert short == {("workshop", "heating"), ("workshop", "sensible"), ("store", "cooling")}
