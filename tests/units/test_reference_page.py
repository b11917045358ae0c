"""The reference page says what the program does."""

import re
from pathlib import Path

import pytest

from linewright.units import Dimension, UnitSystem, parse, show, unit_label
from linewright.units.showing import style
from linewright.units.table import SPELLINGS, TABLE, Unit, from_unit

PAGE = (Path(__file__).parents[2] / "docs/reference/units.md").read_text(encoding="utf-8")


def _section(title: str) -> str:
    return PAGE.partition(f"\n## {title}\n")[2].partition("\n## ")[0]


def _rows(title: str) -> list[list[str]]:
    lines = [line for line in _section(title).splitlines() if line.startswith("|")]
    return [[cell.strip() for cell in line.strip("|").split("|")] for line in lines[2:]]


UNIT_ROWS = {row[0].strip("`"): row for row in _rows("Units")}


def test_the_page_lists_exactly_the_units_of_the_table() -> None:
    assert list(UNIT_ROWS) == [unit.name for unit in TABLE]


@pytest.mark.parametrize("unit", TABLE, ids=lambda unit: unit.name)
def test_spellings_and_source(unit: Unit) -> None:
    row = UNIT_ROWS[unit.name]
    assert tuple(re.findall(r"`([^`]+)`", row[1])) == SPELLINGS.get(unit.name, ())
    assert unit.source.startswith(row[4])


@pytest.mark.parametrize("unit", [u for u in TABLE if u.dimension is not Dimension.TEMPERATURE])
def test_printed_factor(unit: Unit) -> None:
    text = UNIT_ROWS[unit.name][3]
    number = re.match(r"[0-9 ]+(?:\.[0-9]+)?(?:/[0-9]+)?", text)
    assert number is not None
    top, _, bottom = number[0].replace(" ", "").partition("/")
    assert from_unit(1.0, unit.name) == pytest.approx(float(top) / float(bottom or 1), rel=2e-7)


def test_every_written_example_is_read() -> None:
    examples = [text for row in _rows("How a quantity is written") for text in re.findall("`([^`]+)`", row[0])]
    assert len(examples) == 14
    for text in examples:
        parse(text)


@pytest.mark.parametrize("system", UnitSystem)
def test_printed_steps(system: UnitSystem) -> None:
    column = 1 if system is UnitSystem.SI else 2
    printed = {row[0]: row[column] for row in _rows("How a quantity is printed")}
    names = {
        "length": Dimension.LENGTH,
        "area": Dimension.AREA,
        "volume": Dimension.VOLUME,
        "power": Dimension.POWER,
        "mass": Dimension.MASS,
        "mass per length": Dimension.LINEAR_MASS,
        "temperature": Dimension.TEMPERATURE,
        "temperature difference": Dimension.TEMPERATURE_DIFFERENCE,
        "pressure": Dimension.PRESSURE,
        "time": Dimension.TIME,
        "voltage": Dimension.VOLTAGE,
        "current": Dimension.CURRENT,
        "frequency": Dimension.FREQUENCY,
        "electrical power": Dimension.ELECTRIC,
        "air flow": Dimension.FLOW,
        "velocity": Dimension.VELOCITY,
        "mass flow": Dimension.MASS_FLOW,
        "mass flux": Dimension.MASS_FLUX,
        "density": Dimension.DENSITY,
        "viscosity": Dimension.VISCOSITY,
        "enthalpy": Dimension.ENTHALPY,
        "conductivity": Dimension.CONDUCTIVITY,
        "surface coefficient": Dimension.SURFACE,
        "heat per length": Dimension.LINEAR_POWER,
    }
    assert set(printed) - set(names) == {"ratio", "bare number", "tube size"}
    for name, dimension in names.items():
        step, _, label = printed[name].partition(" ")
        assert label == unit_label(dimension, system)
        assert len(step.partition(".")[2]) == style(dimension, system).places


def test_printed_tubes() -> None:
    assert show(0.015875, Dimension.TUBE, UnitSystem.SI) == "15.88 mm"
    assert show(0.009525, Dimension.TUBE, UnitSystem.SI) == "9.52 mm"


def test_sources_of_the_table_are_named_on_the_page() -> None:
    keys = {unit.source.partition(" ")[0] for unit in TABLE}
    assert all(f"- {key} " in _section("Sources") for key in keys)
