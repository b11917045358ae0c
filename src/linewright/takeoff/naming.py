"""What a line of the take-off is called, for people and for a price list."""

from __future__ import annotations

from collections.abc import Callable

from linewright.takeoff.cutlists import material_name
from linewright.takeoff.records import Kind, Line
from linewright.units import Dimension, UnitSystem, show, show_in, tube_name


def item_name(line: Line, system: UnitSystem) -> str:
    """Name one line: `tube 15.88 mm x 1.00 mm annealed, coil 25.0 m`."""
    if line.kind in _NAMES:
        return f"{line.kind.value} {_NAMES[line.kind](line, system)}"
    return f"{line.kind.value}: {line.name}"


def _tube(line: Line, system: UnitSystem) -> str:
    material = "" if line.material is None else material_name(line.material, system)
    form = "" if line.form is None else line.form.value
    return f"{material}, {form} {_length(line.length_m, system)}"


def _size(line: Line, system: UnitSystem) -> str:
    return "?" if line.od_m is None else tube_name(line.od_m, system)


def _reducer(line: Line, system: UnitSystem) -> str:
    return f"{_size(line, system)} to {'?' if line.to_od_m is None else tube_name(line.to_od_m, system)}"


def _insulation(line: Line, system: UnitSystem) -> str:
    unit, places = ("mm", 0) if system is UnitSystem.SI else ("in", 2)
    thick = "thickness not stated" if line.thickness_m is None else show_in(line.thickness_m, unit, places=places)
    return f"for {_size(line, system)}, {thick}, piece {_length(line.length_m, system)}"


def _refrigerant(line: Line, system: UnitSystem) -> str:
    return f"{line.name}, cylinder {show(line.mass_kg or 0.0, Dimension.MASS, system)}"


def _nitrogen(line: Line, system: UnitSystem) -> str:
    unit, places = ("L", 0) if system is UnitSystem.SI else ("ft3", 2)
    pressure = show(line.pressure_pa or 0.0, Dimension.PRESSURE, system)
    return f"cylinder {show_in(line.volume_m3 or 0.0, unit, places=places)} at {pressure}"


def _length(length_m: float | None, system: UnitSystem) -> str:
    return "?" if length_m is None else show(length_m, Dimension.LENGTH, system)


_NAMES: dict[Kind, Callable[[Line, UnitSystem], str]] = {
    Kind.TUBE: _tube,
    Kind.COUPLING: _size,
    Kind.BEND: _size,
    Kind.REDUCER: _reducer,
    Kind.INSULATION: _insulation,
    Kind.REFRIGERANT: _refrigerant,
    Kind.SUPPORT: _size,
    Kind.NITROGEN: _nitrogen,
}
