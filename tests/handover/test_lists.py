"""Stock lists and price lists: what they may say, and every fault with its place."""

from pathlib import Path

import pytest

from linewright.errors import InputFaultsError
from linewright.takeoff import Kind, PriceList, Settings, Stock, StockForm, read_prices, read_stock, take_off
from linewright.takeoff.naming import item_name
from linewright.units import UnitSystem
from tests.handover.cases import BOAT_HOUSE, CLINIC, evaluated, taken

HEADS = "od,form,length,wall,temper\n"


def written(tmp_path: Path, text: str) -> str:
    path = tmp_path / "list.csv"
    path.write_text(text, encoding="utf-8")
    return str(path)


def faults(error: InputFaultsError) -> list[tuple[int, int, str]]:
    return [(fault.line, fault.column, fault.message) for fault in error.faults]


def test_a_stock_list_is_read_in_millimetres_or_inches(tmp_path: Path) -> None:
    text = (
        "od [mm];wall [mm];temper;form;length [m]\n15.88;1,0;annealed;coil;25\n3/4 in;0.042 in;drawn;straight;20 ft\n"
    )
    first, second = read_stock(written(tmp_path, text)).rows
    assert (first.od_m, first.wall_m, first.temper, first.form) == (0.01588, 0.001, "annealed", StockForm.COIL)
    assert second.od_m == pytest.approx(0.01905)
    assert second.length_m == pytest.approx(6.096)


@pytest.mark.parametrize(
    ("text", "fault"),
    [
        (HEADS, (1, 1, "the table has no rows")),
        (HEADS + "15.88 mm,coil,0 m,1 mm,\n", (2, 1, "this is no length of a tube")),
        (HEADS + "0 mm,coil,25 m,1 mm,\n", (2, 1, "this is no od of a tube")),
        (HEADS + "15.88 mm,coil,25 m,0 mm,\n", (2, 1, "this is no wall of a tube")),
    ],
)
def test_a_stock_list_that_makes_no_sense_is_refused(tmp_path: Path, text: str, fault: tuple[int, int, str]) -> None:
    with pytest.raises(InputFaultsError) as caught:
        read_stock(written(tmp_path, text))
    assert fault in faults(caught.value)


@pytest.mark.parametrize(
    "text", ["od,form\n15.88 mm,coil\n", HEADS + "15.88,coil,25 m,,\n", HEADS + "15.88 mm,roll,25 m,,\n", "size\n1\n"]
)
def test_a_stock_list_of_another_form_is_refused(tmp_path: Path, text: str) -> None:
    with pytest.raises(InputFaultsError):
        read_stock(written(tmp_path, text))


@pytest.mark.parametrize(
    ("rows", "message"),
    [
        ("bend 9.52 mm,1\nBend 9.52 mm,2\n", "the item 'Bend 9.52 mm' stands twice"),
        ("bend 9.52 mm,-1\n", "a price is below 0"),
        ("bend 9.52 mm,1,EUR\njoint: joint A,2,USD\n", "the currency 'USD' is another than above"),
    ],
)
def test_a_price_list_that_makes_no_sense_is_refused(tmp_path: Path, rows: str, message: str) -> None:
    with pytest.raises(InputFaultsError) as caught:
        read_prices(written(tmp_path, f"item,price,currency\n{rows}"))
    assert message in [fault.message for fault in caught.value.faults]


def test_a_stock_list_without_some_tube_is_refused_with_every_run_that_needs_it(tmp_path: Path) -> None:
    stock = read_stock(written(tmp_path, HEADS + "9.52 mm,coil,25 m,0.8 mm,annealed\n"))
    with pytest.raises(InputFaultsError) as caught:
        take_off(evaluated(BOAT_HOUSE), stock=stock)
    messages = [fault.message for fault in caught.value.faults]
    assert all(message.startswith("no length of this list makes the tube ") for message in messages)
    assert len(messages) >= 2


#: What the page of faults has to show.
WITHOUT = "no length of this list makes the tube x, needed for x"


def test_a_wall_that_is_too_thin_or_another_temper_is_not_bought(tmp_path: Path) -> None:
    for row in ("0.7 mm,annealed", "0.8 mm,half-hard"):
        stock = read_stock(written(tmp_path, f"{HEADS}9.52 mm,coil,25 m,{row}\n"))
        with pytest.raises(InputFaultsError) as caught:
            take_off(evaluated(BOAT_HOUSE), stock=stock)
        assert any("9.52 mm" in fault.message for fault in caught.value.faults)


def clinic_stock(tmp_path: Path, walls: bool = True) -> Stock:  # noqa: FBT001, FBT002
    rows = []
    for cutting in taken(CLINIC).cuttings:
        od, wall, temper = cutting.material
        assert wall is not None
        form = "coil" if temper == "annealed" else "straight"
        said = f"{wall * 1000:.3f} mm,{temper}" if walls else ","
        rows.append(f"{od * 1000:.2f} mm,{form},{30 if form == 'coil' else 6} m,{said}\n")
    return read_stock(written(tmp_path, HEADS + "".join(rows)))


def test_what_a_stock_list_does_not_state_is_a_gap(tmp_path: Path) -> None:
    found = take_off(evaluated(CLINIC), stock=clinic_stock(tmp_path, walls=False))
    texts = {gap.text for gap in found.gaps}
    assert "the stock list states no wall: not compared with the least of the book" in texts
    assert "the stock list states no temper: not compared with that of the book" in texts
    stated = take_off(evaluated(CLINIC), stock=clinic_stock(tmp_path))
    assert not any("stock list" in gap.text for gap in stated.gaps)
    assert {size for cutting in stated.cuttings for _, size, _ in cutting.bought} == {30_000, 6000}


def priced(tmp_path: Path, system: UnitSystem, leave_out: str = "") -> PriceList:
    names = [item_name(line, system) for line in taken(CLINIC).lines]
    rows = "".join(f'"{name}",1.10,EUR\n' for name in names if name != leave_out)
    return read_prices(written(tmp_path, f"item,price,currency\n{rows}"))


@pytest.mark.parametrize("system", UnitSystem)
def test_the_cost_is_the_price_times_what_is_bought(tmp_path: Path, system: UnitSystem) -> None:
    found = take_off(evaluated(CLINIC), prices=priced(tmp_path, system))
    pieces = sum(line.count for line in found.lines)
    assert found.cost == found.priced == pytest.approx(1.10 * pieces, abs=1e-9)


def test_a_missing_price_leaves_the_cost_unknown_and_is_named(tmp_path: Path) -> None:
    found = take_off(evaluated(CLINIC), prices=priced(tmp_path, UnitSystem.SI, "bend 12.7 mm"))
    bends = next(line.count for line in found.lines if line.kind is Kind.BEND and line.od_m == 0.0127)
    pieces = sum(line.count for line in found.lines)
    assert found.cost is None
    assert found.priced == pytest.approx(1.10 * (pieces - bends), abs=1e-9)
    assert [gap.subject for gap in found.gaps if "has no price" in gap.text] == ["bend 12.7 mm"]


def test_every_default_that_stands_is_said_to_be_assumed() -> None:
    plain = next(note for note in taken(BOAT_HOUSE).notes if note.startswith("Assumed"))
    stated = next(
        note for note in take_off(evaluated(BOAT_HOUSE), Settings(waste=0.1)).notes if note.startswith("Assumed")
    )
    assert ": waste, spares, " in plain
    assert "waste" not in stated
    assert ", the cylinder of refrigerant, " in stated
    less = take_off(evaluated(BOAT_HOUSE), Settings(cylinder_kg=9.0)).notes
    assert not any(", the cylinder of refrigerant, " in note for note in less)


def test_spares_and_cylinders_are_rounded_up() -> None:
    plain = take_off(evaluated(CLINIC), Settings(spares=0.0, cylinder_kg=10.0))
    more = take_off(evaluated(CLINIC), Settings(spares=0.1, cylinder_kg=9.0))
    for before, after in zip(plain.lines, more.lines, strict=True):
        if before.kind in (Kind.COUPLING, Kind.BEND, Kind.REDUCER):
            assert after.count == -(-before.counted * 11 // 10)
    kg = next(line for line in plain.lines if line.kind is Kind.REFRIGERANT)
    assert kg.net is not None
    assert kg.count == -(-kg.net // 10.0)
