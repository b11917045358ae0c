"""One tree at a time, out of the series or the tables."""

import numpy as np

from linewright.physics.compressor import Compressors, Control, CoolingAt, Rating, rating
from linewright.physics.cooling import Cooled, cool
from linewright.physics.heating import Heated, HeatingAt, heat
from linewright.physics.network import Tubes, forest_of
from linewright.physics.states import States


def rated_at(states: States, watts: float, at: CoolingAt, *, bore_m: float) -> Rating:
    """The compressor that gives so much at the end of a plain main."""
    return rating(states, np.array([watts]), at, bore_m=np.array([bore_m]))


def cool_one(
    states: States,
    tubes: Tubes,
    rated_w: np.ndarray,
    at: CoolingAt,
    compressor: Rating,
    control: Control = Control.FLOATING,
) -> Cooled:
    """Work out one tree in cooling."""
    return cool(states, forest_of([tubes]), rated_w, at, compressors=Compressors.of(compressor, [control]))


def heat_one(states: States, tubes: Tubes, load_w: np.ndarray, at: HeatingAt) -> Heated:
    """Work out one tree in heating."""
    return heat(states, forest_of([tubes]), load_w, at)
