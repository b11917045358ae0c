"""What is asked of a compressor: conditions of cooling, a rating, and how its control holds on to it."""

from __future__ import annotations

from collections.abc import Sequence
from enum import IntEnum
from typing import NamedTuple

import numpy as np

from linewright.physics.flow import Ends, Pipe, square_loss
from linewright.physics.network import SWEEPS, TOLERANCE, Places
from linewright.physics.series import Array
from linewright.physics.states import States


class CoolingAt(NamedTuple):
    """Conditions of cooling: dew point at the coils, superheat there, bubble point and subcooling of the liquid.

    coil_air_degc : temperature of air that a coil is linear in (wet bulb)
    """

    evaporating_degc: float = 6.0
    superheat_k: float = 5.0
    condensing_degc: float = 46.0
    subcooling_k: float = 5.0
    coil_air_degc: float = 19.0

    @property
    def liquid_degc(self) -> float:
        """Temperature of the liquid that leaves the outdoor group."""
        return self.condensing_degc - self.subcooling_k


class Control(IntEnum):
    """What does not change when pipe is added.

    FLOATING : the volume that the compressor takes; coils grow colder and each gives what that lets it give
    FIXED_COILS : that volume, and the dew point in the coil that loses most; all coils give the same share
    HELD_SUCTION : the pressure at the compressor, whatever volume that takes
    """

    FLOATING = 0
    FIXED_COILS = 1
    HELD_SUCTION = 2


class Rating(NamedTuple):
    """Compressors where they give their rated capacity: volume flow [m3/s], pressure [Pa]; one each for a tree."""

    volume_m3_s: Array
    suction_pa: Array


class Compressors(NamedTuple):
    """One for each tree: its rating and its control."""

    rating: Rating
    control: Places

    @classmethod
    def of(cls, rated: Rating, controls: Sequence[Control]) -> Compressors:
        """Give every tree its control."""
        return cls(rated, np.array(controls, dtype=np.intp))


@np.errstate(invalid="ignore", divide="ignore")
def rating(
    states: States,
    rated_w: Array,
    at: CoolingAt,
    *,
    bore_m: Array,
    length_m: float = 7.5,
    tolerance: float = TOLERANCE,
) -> Rating:
    """The compressors that give the rated capacities at the end of plain mains; NaN where none does."""
    pipe = Pipe(bore_m, np.full(len(bore_m), length_m), np.zeros(len(bore_m)))
    coil = np.full(len(bore_m), float(states.dew_pressure(at.evaporating_degc)))
    h_gas, _ = states.coil(coil, at.superheat_k)
    flow = rated_w / (h_gas - float(states.liquid_enthalpy(at.liquid_degc)))
    suction = coil
    for _ in range(SWEEPS):
        before, suction = suction, np.sqrt(coil**2 - square_loss(states, Ends(suction, coil, flow, h_gas), pipe))
        if not np.any(np.abs(suction - before) > tolerance * before):
            break
    density, _ = states.gas_of_enthalpy(suction, h_gas)
    return Rating(flow / density, suction)
