"""What a record of the site is held against: stages of the test, vacuum, charge, readings at start-up, the label."""

from __future__ import annotations

from collections.abc import Mapping
from typing import NamedTuple

from linewright.engine.hydraulics_records import Hydraulics
from linewright.engine.records import SystemResult
from linewright.physics.properties import fluid
from linewright.standards.environment import BASES, tonnes
from linewright.standards.refrigerants.blends import gwp
from linewright.standards.refrigerants.data import Basis, designation, published

HOUR_S = 3600.0
_MICRON_PA = 101_325 / 760_000


class Vacuum(NamedTuple):
    """To what is evacuated, and what may be left after it has been closed for a while [Pa absolute, s].

    The guide specification's figures (300 micron, 500 micron after one hour) stand in where the book states none.
    """

    reach_pa: float
    after_pa: float
    hold_s: float
    source: str
    after_source: str


class Stage(NamedTuple):
    """A stage of the pressure test [Pa gauge, s]."""

    number: int
    pressure_pa: float
    hold_s: float | None


class StartUp(NamedTuple):
    """Readings that first principles lead to, pressures absolute [Pa]; each pair from nearly no flow to full load.

    Superheat [K] is that of the gas at the outdoor group; liquid is that which leaves it in cooling.
    """

    suction_degc: tuple[float, float]
    suction_pa: tuple[float, float]
    superheat_k: float
    discharge_degc: float
    discharge_pa: float
    liquid_degc: float
    liquid_pa: float
    heating_degc: float
    heating_pa: float
    heating_discharge_degc: float


class Label(NamedTuple):
    """What a charge label says [kg]; warming potential and t CO2-equivalent by basis, `None` where not known."""

    refrigerant: str
    factory_kg: float
    added_kg: float | None
    total_kg: float | None
    gwp: Mapping[str, float | None]
    tonnes: Mapping[str, float | None]
    fluorinated: bool


GUIDE = "[UFGS-15182] guide specification, since the book states none"


def vacuum_of(result: SystemResult) -> Vacuum:
    """The book's vacuum; what may be left after the hold is the book's too, else the guide specification's."""
    pressures = result.state.ground.book.book.pressures
    stated = None if pressures is None else pressures.vacuum_pa
    hold = None if pressures is None else pressures.vacuum_hold_s
    reach = 300 * _MICRON_PA if stated is None else stated
    after = max(500 * _MICRON_PA, reach)
    source = GUIDE if stated is None else f"book, page {pressures.page}" if pressures and pressures.page else "book"
    return Vacuum(reach, after, HOUR_S if hold is None else hold, source, "[UFGS-15182] guide specification")


def stages_of(result: SystemResult) -> tuple[Stage, ...]:
    """The stages of the book; none where it states none."""
    pressures = result.state.ground.book.book.pressures
    found = () if pressures is None else pressures.test
    return tuple(Stage(i, stage.pressure_pa, stage.hold_s) for i, stage in enumerate(found, start=1))


def start_up_of(found: Hydraulics) -> StartUp | None:
    """Readings at the conditions that are assumed; none where the flow was not worked out."""
    shares, at = found.shares, found.conditions
    name = found.solved.rows[0].refrigerant if found.solved.rows else ""
    known = fluid(name)
    if shares is None or known is None:
        return None
    coil = at.cooling.evaporating_degc
    liquid = float(known.bubble_temperature(shares.liquid_pa)) - at.cooling.subcooling_k
    return StartUp(
        suction_degc=(coil, shares.suction_degc),
        suction_pa=(float(known.dew_pressure(coil)), shares.suction_pa),
        superheat_k=shares.superheat_k,
        discharge_degc=at.cooling.condensing_degc,
        discharge_pa=float(known.dew_pressure(at.cooling.condensing_degc)),
        liquid_degc=liquid,
        liquid_pa=shares.liquid_pa,
        heating_degc=at.heating.condensing_degc,
        heating_pa=float(known.dew_pressure(at.heating.condensing_degc)),
        heating_discharge_degc=at.heating.discharge_degc,
    )


def label_of(result: SystemResult, added_kg: float | None) -> Label:
    """The label for a charge that was weighed in on site [kg]: total = factory + added, t CO2e = total x GWP / 1000."""
    name, factory = result.state.ground.book.book.refrigerant, result.charge.factory_kg
    total = None if added_kg is None else factory + added_kg
    potentials = {basis: gwp(name, basis) for basis in BASES}
    weights = {
        basis: None if total is None or potential is None else tonnes(total, potential)
        for basis, potential in potentials.items()
    }
    return Label(name, factory, added_kg, total, potentials, weights, _fluorinated(name))


def _fluorinated(name: str) -> bool:
    known = designation(Basis.COMPOSITION, name)
    return known is not None and known not in ("R-290", "R-744") and bool(published(Basis.COMPOSITION)[known])
