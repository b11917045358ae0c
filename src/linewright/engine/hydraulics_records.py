"""What is found to flow in a system: records, and what is always said beside them."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from linewright.engine.records import Deferred

if TYPE_CHECKING:
    from linewright.engine.hydraulics_modules import ModuleLoss
    from linewright.engine.hydraulics_sizes import SizeByLoss
    from linewright.physics.compressor import CoolingAt, Rating
    from linewright.physics.cooling import Cooled
    from linewright.physics.heating import Heated, HeatingAt
    from linewright.physics.network import Forest
    from linewright.physics.oil import OilDensity
    from linewright.physics.series import Array

#: Traditional least velocity of gas in risers, 1000 ft/min (common practice, from memory) [m/s]: 2 to 4 times that of
#: the margin for R-410A.
RISER_M_S = 5.08
#: Below this margin of oil return oil may stay behind, below the second it likely does: a judgement, no source.
WARN, FLAG = 1.25, 1.0
#: What is always said beside such figures.
ADVISORY = "From first principles, beside the book; advisory, and judged by nothing."
#: Equivalent length at which makers' capacities are commonly rated (common practice, no source) [m].
RATED_LENGTH_M = 7.5


class RunFlow(NamedTuple):
    """One run: velocities [m/s], loss of saturation [K], fall of pressure of liquid going outward [Pa], oil margins.

    Pressures [Pa] and subcooling left [K] stand for its far end, in cooling.

    A margin is the least flow over the least that carries oil up; `None` where gas does not rise, or the book states no
    least capacity. Beside it the velocity of gas at that least flow, in every run.
    """

    id: str
    cooling_gas_m_s: float
    cooling_loss_k: float
    cooling_liquid_pa: float
    gas_at_pa: float
    liquid_at_pa: float
    subcooling_at_k: float
    cooling_oil: float | None
    cooling_least_m_s: float | None
    heating_gas_m_s: float
    heating_loss_k: float
    heating_oil: float | None
    heating_least_m_s: float | None


class UnitFlow(NamedTuple):
    """One unit: share of its rated cooling and heating that the pipe leaves, subcooling left at its valve [K].

    heating_share : none where the unit only cools

    vapour : share by mass that has boiled before the valve, at the least
    """

    id: str
    cooling_share: float
    heating_share: float | None
    subcooling_left_k: float
    vapour: float


class Conditions(NamedTuple):
    """What was assumed: conditions of both modes, whether the book states the subcooling, its least capacity, its oil.

    oil_named : kind of oil that the book states, or "" where it names none; oil_stated : whether it states the density

    The rest of the conditions is of the order of catalogue conditions (common practice, no source).
    """

    cooling: CoolingAt
    heating: HeatingAt
    subcooling_stated: bool
    least_capacity: float | None
    without_level: tuple[str, ...]
    oil: OilDensity
    oil_named: str
    oil_stated: bool


class Shares(NamedTuple):
    """Share of the rated cooling that the pipe leaves, over the tree and lumped; what is left at either end.

    lumped : were all load at the end of the longest way, in the size of the main, the evaporating temperature floating
    fixed, held : the same were that of the coil fixed, or were suction pressure held; none where no balance is found
    heating : share of the rated heating, over the tree, pressure held where the hot gas leaves
    suction_pa, superheat_k : of the gas at the outdoor group; liquid_pa : of the liquid that leaves it
    """

    tree: float
    lumped: float
    fixed: float | None
    held: float | None
    heating: float
    suction_pa: float
    liquid_pa: float
    suction_degc: float
    superheat_k: float
    heating_left_k: float


_NO_SIZES: Deferred[SizeByLoss] = Deferred(tuple)


class Solved(NamedTuple):
    """A tree of its own, worked out so far that each figure follows from the others to the last digits printed.

    refrigerant : as the book names it; rated_w, load_w : of each unit in cooling and in heating
    """

    refrigerant: str
    forest: Forest
    rated_w: Array
    load_w: Array
    rating: Rating
    cooled: Cooled
    heated: Heated


_NOT_SOLVED: Deferred[Solved] = Deferred(tuple)


class Hydraulics(NamedTuple):
    """What flows in one system; where something is missing, nothing else but sizes by loss."""

    system: str
    missing: tuple[str, ...]
    conditions: Conditions
    shares: Shares | None = None
    runs: tuple[RunFlow, ...] = ()
    units: tuple[UnitFlow, ...] = ()
    sizes: Deferred[SizeByLoss] = _NO_SIZES
    modules: ModuleLoss | None = None
    solved: Deferred[Solved] = _NOT_SOLVED
