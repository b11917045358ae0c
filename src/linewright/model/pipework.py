"""What a design states of its pipework: how tube is rated, in which air it lies, what is stocked, how it is hung."""

from __future__ import annotations

from enum import StrEnum

from linewright.model.values import value
from linewright.units import ConductivityWMK, LengthM, PressurePa, Ratio, SurfaceWM2K, TempC


class Basis(StrEnum):
    """On what the rating of tube rests: softened by brazing, hard to the last joint, or tested as a whole."""

    ANNEALED = "annealed"
    DRAWN = "drawn"
    LISTED = "listed"


class StrengthCode(StrEnum):
    """By which formula and stress tube is rated."""

    ASME = "asme-b31.5"
    EN = "en-1057"
    JIS = "jis"


class TubeForm(StrEnum):
    """Tube of ASTM B280 that is bought where the book states no wall."""

    STRAIGHT = "astm-b280-straight"
    COIL = "astm-b280-coil"


class Supports(StrEnum):
    """A table of the largest spacing of supports."""

    MSS = "mss-sp-58"
    PLUMBING = "plumbing"
    EN_378 = "en-378-2"


@value
class Air:
    """Air around pipe: its temperature [degC] and relative humidity."""

    temperature_degc: TempC | None = None
    humidity: Ratio | None = None


@value
class Pipework:
    """How pipework is judged. What is left out has a stated default, or is named and leaves things unjudged.

    conductivity : of the insulation [W/(m K)]; surface : heat that passes from its surface to the air [W/(m2 K)]
    movement : whether offsets, loops and anchors are provided as they are listed
    vapour_barrier : whether one without a break is provided over every cold line
    """

    basis: Basis | None = None
    code: StrengthCode = StrengthCode.ASME
    tube: TubeForm | None = None
    tube_temperature_degc: TempC | None = None
    wall_tolerance: Ratio | None = None
    stress_pa: PressurePa | None = None
    listed_pa: PressurePa | None = None
    design_pressure_pa: PressurePa | None = None
    ambient_degc: TempC | None = None
    filled_degc: TempC | None = None
    read_degc: TempC | None = None
    outdoor_air: Air | None = None
    indoor_air: Air | None = None
    conductivity: ConductivityWMK | None = None
    surface: SurfaceWM2K | None = None
    stock_m: tuple[LengthM, ...] = ()
    code_minimum: bool = False
    gas_line_degc: TempC | None = None
    liquid_line_degc: TempC | None = None
    hottest_gas_degc: TempC | None = None
    hottest_liquid_degc: TempC | None = None
    supports: Supports = Supports.MSS
    support_spacing_m: LengthM | None = None
    movement: bool = False
    vapour_barrier: bool = False
