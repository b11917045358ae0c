"""What a take-off costs: by hand, by piece and by measure; what has no price is named and never nought."""

from __future__ import annotations

from decimal import Decimal
from math import pi
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from linewright.cli.main import cli
from linewright.errors import InputFaultsError
from linewright.report.schedules.buying import bought as bought_table
from linewright.takeoff import (
    Kind,
    Per,
    PriceList,
    PriceRow,
    Settings,
    TakeOff,
    cost,
    invented_prices,
    read_prices,
    take_off,
)
from linewright.takeoff.records import Line, Material
from linewright.takeoff.settings import StockForm
from linewright.units import UnitSystem
from tests.handover.cases import BOAT_HOUSE, CLINIC, EXAMPLES, LOFTS, evaluated, taken

TUBE = Line(
    Kind.TUBE,
    material=Material(0.01588, 0.001, "annealed"),
    od_m=0.01588,
    form=StockForm.COIL,
    length_m=25.0,
    counted=3,
    count=3,
)
BENDS = Line(Kind.BEND, od_m=0.01588, counted=7, count=8)
WRAP = Line(Kind.INSULATION, od_m=0.01588, thickness_m=0.019, length_m=2.0, counted=10, count=10, net=18.0)
GAS = Line(Kind.REFRIGERANT, name="R-32", mass_kg=9.0, counted=2, count=2, net=11.5)


def bought(*lines: Line, complete: bool = True) -> TakeOff:
    return TakeOff(lines, (), (), (), Settings(), None, None, complete, None, None)


def listed(*rows: PriceRow) -> PriceList:
    return PriceList(rows=rows, file="prices.csv")


def row(item: str, price: float, per: Per = Per.EACH) -> PriceRow:
    return PriceRow(item=item, price=price, per=per, currency="EUR")


def test_by_piece_by_hand() -> None:
    """3 coils at 212.50 and 8 bends (one of them spare) at 1.10: 637.50 + 8.80 = 646.30."""
    prices = listed(row("tube 15.88 mm x 1.00 mm annealed, coil 25.0 m", 212.50), row("bend 5/8 in", 1.10))
    found = cost(bought(TUBE, BENDS), prices)
    assert found.total == found.known == 646.30
    assert found.words == "646.30 EUR"


@pytest.mark.parametrize(
    ("line", "per", "amount"),
    [
        (TUBE, Per.METRE, 75.0),
        (TUBE, Per.FOOT, 75.0 / 0.3048),
        # (15.88 - 1) x 1 x pi = 46.75 mm2 of copper, 0.418 kg in each metre, 31.35 kg in all.
        (TUBE, Per.KILOGRAM, pi * 0.01488 * 0.001 * 8940 * 75),
        (WRAP, Per.METRE, 20.0),
        # (53.88^2 - 15.88^2) pi / 4 = 2082 mm2, in 20 m 41.6 l.
        (WRAP, Per.CUBIC_METRE, 0.04164),
        (GAS, Per.KILOGRAM, 18.0),
        (GAS, Per.POUND, 18.0 / 0.45359237),
    ],
)
def test_by_measure_by_hand(line: Line, per: Per, amount: float) -> None:
    found = cost(bought(line), listed(row(line.kind.value, 2.0, per)))
    assert found.total == pytest.approx(2.0 * amount, rel=2e-4)


def test_the_price_of_an_item_goes_before_that_of_its_kind() -> None:
    found = cost(bought(BENDS), listed(row("bend", 1.0), row("bend 15.88 mm", 2.0)))
    assert found.total == 16.0


@pytest.mark.parametrize("per", [Per.KILOGRAM, Per.METRE, Per.CUBIC_METRE])
def test_a_price_for_what_an_item_is_not_measured_in_is_a_gap(per: Per) -> None:
    found = cost(bought(BENDS, TUBE), listed(row("bend", 2.0, per), row("tube", 1.0)))
    assert found.total is None
    assert found.known == 3.0
    assert [one.item for one in found.without] == ["bend 15.88 mm"]
    assert found.without[0].why == f"its price is for each {per}, in which it is not known"
    assert found.words == "3.00 EUR without bend 15.88 mm"


def test_tube_without_a_wall_has_no_price_by_mass() -> None:
    bare = TUBE._replace(material=Material(0.01588, None, "annealed"))
    assert cost(bought(bare), listed(row("tube", 14.0, Per.KILOGRAM))).total is None


def test_what_the_take_off_leaves_out_leaves_the_whole_unknown_though_all_has_a_price() -> None:
    found = cost(bought(BENDS, complete=False), invented_prices())
    assert found.without == ()
    assert found.total is None
    assert found.words == "28.00 XTS without what the take-off leaves out (invented prices)"
    assert cost(taken(LOFTS), invented_prices()).total is None


def test_a_price_of_nought_is_a_price() -> None:
    assert cost(bought(BENDS), listed(row("bend", 0.0))).total == 0.0


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_invented_list_covers_every_kind_and_is_marked(path: Path) -> None:
    prices = invented_prices()
    found = cost(taken(path), prices)
    assert {one.item for one in found.without if "thickness not stated" not in one.item} == set()
    assert found.invented
    assert {row.item for row in prices.rows} == {kind.value for kind in Kind}
    assert {row.currency for row in prices.rows} == {"XTS"}, "the code that ISO 4217 keeps for tests"


def test_nothing_is_invented_unless_it_is_asked_for() -> None:
    found = taken(BOAT_HOUSE)
    assert found.cost is None
    assert all(line.price is None and line.cost is None for line in found.lines)
    priced = take_off(evaluated(BOAT_HOUSE), prices=invented_prices())
    assert any(note.startswith("PRICES ARE INVENTED") for note in priced.notes)


def test_cost_changes_nothing_in_the_take_off() -> None:
    bare = taken(CLINIC)
    cost(bare, invented_prices())
    assert bare == take_off(evaluated(CLINIC))
    assert take_off(evaluated(CLINIC), prices=invented_prices()).cost == cost(bare, invented_prices()).total


def test_a_list_with_units_is_read_and_an_unknown_one_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "prices.csv"
    path.write_text("item,price,per,currency\ntube,14,kg,EUR\nbend,3.5,,EUR\n", encoding="utf-8")
    assert [one.per for one in read_prices(str(path)).rows] == [Per.KILOGRAM, Per.EACH]
    path.write_text("item,price,per\ntube,14,stone\n", encoding="utf-8")
    with pytest.raises(InputFaultsError, match="stone"):
        read_prices(str(path))


@given(prices=st.lists(st.integers(0, 10**7), min_size=1, max_size=20), counts=st.integers(0, 500))
def test_cents_are_summed_to_the_cent(prices: list[int], counts: int) -> None:
    lines = [Line(Kind.JOINT, name=str(i), counted=counts, count=counts) for i in range(len(prices))]
    rows = [row(f"joint: {i}", price / 100) for i, price in enumerate(prices)]
    found = cost(bought(*lines), listed(*rows))
    assert found.total == float(Decimal(sum(prices)) * counts / 100)


def test_the_schedule_says_without_what_its_sum_is() -> None:
    prices = listed(row("tube", 1.0))
    found = take_off(evaluated(BOAT_HOUSE), prices=prices)
    (said,) = [note for note in bought_table(found, UnitSystem.SI).notes if "WITHOUT" in note]
    assert "indoor unit: " in said
    assert "tube " not in said
    whole = take_off(evaluated(CLINIC), prices=listed(*(row(kind.value, 1.0) for kind in Kind)))
    assert not [note for note in bought_table(whole, UnitSystem.SI).notes if "WITHOUT" in note]


def test_prices_and_invented_prices_exclude_each_other(tmp_path: Path) -> None:
    asked = ["report", str(BOAT_HOUSE), "-o", str(tmp_path / "set"), "--prices", "x.csv", "--invented-prices"]
    done = CliRunner().invoke(cli, asked)
    assert done.exit_code == 2
    assert "exclude each other" in done.stderr
    assert not (tmp_path / "set").exists()
