"""What a take-off holds. Lengths are SI; `None` means not known."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from linewright.model.values import Role
from linewright.takeoff.settings import PriceList, Settings, Stock, StockForm


class Kind(StrEnum):
    """What a line of the take-off is about, in the order of the list."""

    OUTDOOR = "outdoor module"
    INDOOR = "indoor unit"
    JOINT = "joint"
    HEADER = "header"
    BOX = "mode box"
    OUTDOOR_JOINT = "outdoor joint"
    TUBE = "tube"
    COUPLING = "coupling"
    BEND = "bend"
    REDUCER = "reducer"
    ITEM = "item on a run"
    SUPPORT = "support"
    INSULATION = "insulation"
    REFRIGERANT = "refrigerant"
    NITROGEN = "nitrogen"


class Material(NamedTuple):
    """A tube as the book asks for it: outside diameter [m], least wall [m], temper ("" where it is not stated)."""

    od_m: float
    wall_m: float | None
    temper: str


class Line(NamedTuple):
    """One thing to buy.

    name : of a model, an item or a refrigerant; od_m, to_od_m : of a tube, and of the smaller end of a reducer [m]
    length_m : of one piece [m]; thickness_m : of insulation [m]; mass_kg : of one cylinder [kg]
    volume_m3, pressure_pa : of one cylinder of nitrogen [m3, Pa gauge]
    counted : as the design has it; count : with spares, or in pieces that are sold
    net : what the design needs of it, in metres, kilograms or cubic metres of free gas, where it is no count
    price, cost : of one and of all; `None` where no price is known
    """

    kind: Kind
    name: str = ""
    material: Material | None = None
    od_m: float | None = None
    to_od_m: float | None = None
    form: StockForm | None = None
    length_m: float | None = None
    thickness_m: float | None = None
    mass_kg: float | None = None
    volume_m3: float | None = None
    pressure_pa: float | None = None
    counted: int = 0
    count: int = 0  # type: ignore[assignment] # hides tuple.count, which nothing calls
    net: float | None = None
    price: float | None = None
    cost: float | None = None


class Cut(NamedTuple):
    """One tube of one run: its length as the design has it [m], and with the allowance for waste [mm]."""

    system: str
    run: str
    role: Role
    net_m: float
    need_mm: int


class Piece(NamedTuple):
    """One piece cut off a length: of which length (from 1) of its material, for which tube of which run [mm]."""

    length: int
    stock_mm: int
    form: StockForm
    cut: Cut
    part: int
    parts: int
    piece_mm: int


class Cutting(NamedTuple):
    """How one material is cut.

    bought : how many of each length [mm]; waste_mm : what is left over of them
    worth_mm : waste with each coupling as the length that it weighs; bound_mm : no plan is worth less
    short : runs with a piece below the least one
    """

    material: Material
    cuts: tuple[Cut, ...]
    pieces: tuple[Piece, ...]
    bought: tuple[tuple[StockForm, int, int], ...]
    couplings: int
    waste_mm: int
    worth_mm: int
    bound_mm: int
    short: tuple[str, ...]


class Gap(NamedTuple):
    """Something that the take-off leaves out, or took for granted.

    left_out : whether it is something to buy of which the take-off cannot tell how much
    """

    subject: str
    text: str
    left_out: bool = False


class TakeOff(NamedTuple):
    """The counted list, how tube is cut, what is left out, and with what it was made.

    complete : whether nothing that has to be bought is left out for want of a figure
    cost : of everything; `None` where a price is missing or something is left out
    """

    lines: tuple[Line, ...]
    cuttings: tuple[Cutting, ...]
    gaps: tuple[Gap, ...]
    notes: tuple[str, ...]
    settings: Settings
    stock: Stock | None
    prices: PriceList | None
    complete: bool
    priced: float | None
    cost: float | None
