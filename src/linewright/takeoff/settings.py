"""What a take-off is made with: allowances, the lengths that are sold, what they cost."""

from __future__ import annotations

from enum import StrEnum

from linewright.model.values import value
from linewright.units import LengthM, MassKg, PressurePa, Ratio, TubeM, UnitSystem, VolumeM3, from_unit


class StockForm(StrEnum):
    """How tube is delivered."""

    COIL = "coil"
    STRAIGHT = "straight"


@value
class StockRow:
    """A length of tube that is sold: its size [m], its length [m]; a wall [m] or a temper left out is not known."""

    od_m: TubeM
    form: StockForm
    length_m: LengthM
    wall_m: LengthM | None = None
    temper: str = ""


@value
class Stock:
    """The lengths that are sold; `file` is "" where they are assumed."""

    rows: tuple[StockRow, ...]
    file: str = ""


class Per(StrEnum):
    """What a price is for: one of an item as it is bought, or so much of it."""

    EACH = "each"
    METRE = "m"
    FOOT = "ft"
    KILOGRAM = "kg"
    POUND = "lb"
    CUBIC_METRE = "m3"


@value
class PriceRow:
    """What an item costs; it is named as the take-off names it, or by its kind alone."""

    item: str
    price: float
    per: Per = Per.EACH
    currency: str = ""


@value
class PriceList:
    """Prices by item; `file` names them, `invented` says that they are for demonstration only."""

    rows: tuple[PriceRow, ...]
    file: str
    invented: bool = False

    @property
    def currency(self) -> str:
        """The one currency of the list, or "" where it names none."""
        return next((row.currency for row in self.rows if row.currency), "")


@value
class Settings:
    """Allowances. All defaults are common practice, no source; the cylinder of refrigerant is invented.

    waste : of each run's length, for what cutting and handling lose, and of nitrogen
    spares : of couplings, bends, reducers and supports
    coupling_m : length of tube that one coupling weighs against, where tube is cut [m]
    least_piece_m : shorter pieces are avoided where that costs nothing, and named where they are left [m]
    cylinder_kg : refrigerant in one cylinder; insulation_m : length of one piece of insulation [m]
    nitrogen_m3, nitrogen_pa : a full cylinder of nitrogen: what it holds of water [m3], its gauge pressure [Pa]
    as_built : whether lengths as built go before those of the design
    """

    waste: Ratio = 0.05
    spares: Ratio = 0.0
    coupling_m: LengthM = 1.0
    least_piece_m: LengthM = 0.3
    cylinder_kg: MassKg = 10.0
    insulation_m: LengthM = 2.0
    nitrogen_m3: VolumeM3 = 0.050
    nitrogen_pa: PressurePa = 20.0e6
    as_built: bool = False


#: Lengths where no list is given (from memory; 50 ft and 20 ft also sizes.com): coils are annealed, all else straight.
_COILS_M = {UnitSystem.SI: (25.0, 50.0), UnitSystem.IP: (from_unit(50.0, "ft"),)}
_STRAIGHTS_M = {UnitSystem.SI: (4.0, 5.0), UnitSystem.IP: (from_unit(20.0, "ft"),)}
ANNEALED = "annealed"


def assumed_rows(od_m: float, wall_m: float | None, temper: str, system: UnitSystem) -> tuple[StockRow, ...]:
    """Lengths of a tube where no stock list is given: coils where it is annealed, else straight lengths."""
    coils = temper.casefold() == ANNEALED
    form = StockForm.COIL if coils else StockForm.STRAIGHT
    lengths = (_COILS_M if coils else _STRAIGHTS_M)[system]
    return tuple(StockRow(od_m=od_m, form=form, length_m=length, wall_m=wall_m, temper=temper) for length in lengths)
