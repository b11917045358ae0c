"""What a book file can say. These declarations are the format; `compiled` makes them quick to look up.

Quantities are SI. A field named `outdoor_db_degc` is the key `outdoor_db` in the file: the unit suffix is dropped.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from enum import StrEnum
from typing import Annotated, TypeAlias

from linewright.book.measures import MeasureName
from linewright.model.values import Role, no_entries, value
from linewright.units import Amount, LengthM, LinearMassKgM, MassKg, PowerW, TempC, TubeM


class Inline:
    """Marks a mapping whose entries stand beside the other keys of its owner."""


class OneOrMany:
    """Marks a tuple for which a single value may be written without a list."""


ByRole: TypeAlias = Annotated[Mapping[Role, TubeM], Inline()]


class Status(StrEnum):
    """How far a book may be trusted."""

    DEMONSTRATION = "demonstration"
    TRANSCRIBED = "transcribed"
    CHECKED = "checked"


class Kind(StrEnum):
    """What the family does; heat recovery is not begun."""

    HEAT_PUMP = "heat-pump"


class Origin(StrEnum):
    """From where lengths are measured."""

    OUTDOOR = "outdoor"
    FIRST_OUTDOOR_JOINT = "first-outdoor-joint"
    FIRST_BRANCH = "first-branch"


class Lengths(StrEnum):
    """Which length of a run counts."""

    ACTUAL = "actual"
    EQUIVALENT = "equivalent"


class InOut(StrEnum):
    """Whether something is counted."""

    IN = "in"
    OUT = "out"


class FromGroup(StrEnum):
    """A bound that the outdoor group states."""

    GROUP = "group"


@value
class Document:
    """The maker's printed document and who typed it."""

    title: str
    edition: str
    date: str
    typed_by: str
    checked_by: str = ""


@value
class IndexUnit:
    """What the capacity index is counted in."""

    unit: str


@value
class Range:
    """Least and largest value that are allowed."""

    min: Amount | None = None
    max: Amount | None = None


@value
class OutdoorModule:
    """One outdoor cabinet."""

    model: str
    index: float
    cooling_w: PowerW
    heating_w: PowerW
    factory_charge_kg: MassKg
    ports: ByRole = field(default_factory=no_entries)
    page: int | None = None


@value
class Group:
    """Modules that act as one outdoor unit; ratings not given are the sums of its modules."""

    modules: tuple[str, ...]
    index: float
    id: str = ""
    cooling_w: PowerW | None = None
    heating_w: PowerW | None = None
    factory_charge_kg: MassKg | None = None
    indoor_count: Range = Range()
    connection_ratio: Range = Range()
    page: int | None = None


@value
class OutdoorTables:
    """Outdoor modules and the groups that may be formed of them."""

    modules: tuple[OutdoorModule, ...]
    groups: tuple[Group, ...]
    page: int | None = None


@value
class IndoorModel:
    """One indoor unit of the family, with its port sizes."""

    model: str
    kind: str
    index: float
    cooling_w: PowerW
    sensible_w: PowerW
    heating_w: PowerW
    ports: ByRole = field(default_factory=no_entries)
    page: int | None = None


@value
class IndoorTables:
    """Indoor units of the family."""

    models: tuple[IndoorModel, ...]
    page: int | None = None


@value
class Tubes:
    """Ladders of tube sizes by role, with the least wall and the temper by size."""

    ladders: Annotated[Mapping[Role, tuple[TubeM, ...]], Inline()]
    temper: Mapping[TubeM, str] = field(default_factory=no_entries)
    wall_m: Mapping[TubeM, LengthM] = field(default_factory=no_entries)
    page: int | None = None


class MainBy(StrEnum):
    """What the main's size is looked up by."""

    OUTDOOR_INDEX = "outdoor-index"
    GROUP = "group"
    INDOOR_INDEX = "indoor-index"
    SMALLER = "smaller"


@value
class Band:
    """A row that holds up to an edge; a stated lower edge must meet the row before."""

    upto: Amount | None = None
    below: Amount | None = None
    from_: Amount | None = None
    over: Amount | None = None


@value
class SizeRow(Band):
    """A band of indices (or a group) and its tubes."""

    group: str = ""
    sizes: ByRole


@value
class SizeTable:
    """Tube sizes by index."""

    rows: tuple[SizeRow, ...]
    by: MainBy = MainBy.OUTDOOR_INDEX
    page: int | None = None


class UnitSizing(StrEnum):
    """A unit's own run takes the unit's port sizes."""

    PORTS = "ports"


class Cap(StrEnum):
    """Whether a run may be larger than the main."""

    MAIN = "main"
    NONE = "none"


class Capped(StrEnum):
    """What happens to a size action whose run the cap holds back."""

    FAILS = "fails"
    COUNTS = "counts"
    RAISES_MAIN = "raises-main"


class ActionRuns(StrEnum):
    """Which runs a size action touches."""

    MAIN = "main"
    FIRST_TO_LAST_BRANCH = "first-to-last-branch"
    PATH = "path"
    UNIT_RUN = "unit-run"


class Paths(StrEnum):
    """To which units the touched runs lead."""

    EACH_FAR = "each-far"
    LONGEST = "longest"
    ALL = "all"


class UpLine(StrEnum):
    """Which line of the main must be up for the main to count as upsized."""

    GAS = "gas"
    LIQUID = "liquid"
    BOTH = "both"


class UpCounts(StrEnum):
    """Whether each upsized run of the main counts, or only a main that is up as a whole."""

    PART = "part"
    WHOLE = "whole"


@value
class UpsizedMain:
    """By how much the main's equivalent length is multiplied when it is so many steps up."""

    factors: Annotated[Mapping[int, float], Inline()]
    line: UpLine = UpLine.BOTH
    counts: UpCounts = UpCounts.PART


class CountBy(StrEnum):
    """What a connection ratio sums."""

    INDEX = "index"
    COOLING = "cooling"
    HEATING = "heating"


class Below(StrEnum):
    """Whether a unit hangs somewhere below a header."""

    HEADER = "header"
    JOINT = "joint"


class Side(StrEnum):
    """Whether the outdoor group stands above or below a unit."""

    ABOVE = "above"
    BELOW = "below"


@value
class Where:
    """A filter on the series of a measure."""

    kind: tuple[str, ...] = ()
    exclude_kind: tuple[str, ...] = ()
    model: tuple[str, ...] = ()
    below: Below | None = None
    outdoor: Side | None = None


@value
class MeasureUse:
    """A measure with its variant."""

    measure: MeasureName
    lengths: Lengths | None = None
    origin: Origin | None = None
    upsized_main: UpsizedMain | None = None
    upsized_twice: bool = False
    module_pipes: InOut = InOut.OUT
    each_tube: bool = False
    first_branch_allowance: InOut = InOut.OUT
    in_all: bool = False
    count_by: CountBy = CountBy.INDEX
    where: Where | None = None


@value
class Condition(MeasureUse):
    """When a limit applies or an action is due."""

    over: Amount | None = None
    under: Amount | None = None
    at_least: Amount | None = None
    at_most: Amount | None = None


@value
class Need(MeasureUse):
    """One condition of a relaxed bound: a measure within bounds, an action or a declaration."""

    measure: MeasureName | None = None  # type: ignore[assignment]
    max: Amount | None = None
    min: Amount | None = None
    action: str = ""
    declared: str = ""


@value
class Relaxed:
    """A wider bound and all that it needs."""

    max: Amount | None = None
    min: Amount | None = None
    needs: tuple[Need, ...]
    page: int | None = None
    note: str = ""


@value
class BoundRow(Band):
    """A band of another measure and the bound that holds in it."""

    bound: Amount


@value
class BoundTable:
    """A bound that depends on another measure."""

    by: MeasureName
    rows: tuple[BoundRow, ...]


@value
class Limit(MeasureUse):
    """A bound on a measure."""

    max: Amount | FromGroup | BoundTable | None = None
    min: Amount | FromGroup | BoundTable | None = None
    page: int | None = None
    when: Annotated[tuple[Condition, ...], OneOrMany()] = ()
    relaxed: tuple[Relaxed, ...] = ()
    note: str = ""


@value
class SizeAction:
    """Tubes that go up along the ladder: mandatory when `when` holds, elective without it."""

    id: str
    runs: ActionRuns
    lines: tuple[Role, ...]
    steps: int = 1
    when: Condition | None = None
    paths: Paths = Paths.EACH_FAR
    unit_run: bool = False
    page: int | None = None
    note: str = ""


@value
class Sizing:
    """How tube sizes are chosen."""

    main: SizeTable
    branch: SizeTable
    unit: UnitSizing | SizeTable = UnitSizing.PORTS
    module: SizeTable | None = None
    cap: Cap = Cap.MAIN
    capped: Capped = Capped.FAILS
    actions: tuple[SizeAction, ...] = ()


class FittingBy(StrEnum):
    """What a fitting is looked up by: index, entering gas tube, or whichever row is later."""

    INDEX = "index"
    TUBE = "tube"
    LARGER = "larger"


@value
class FittingRow(Band):
    """A band of indices and/or the largest entering gas tube, and the fitting for it."""

    model: str
    gas: TubeM | None = None


@value
class FittingTable:
    """Fittings by index or by tube."""

    rows: tuple[FittingRow, ...]
    by: FittingBy = FittingBy.INDEX
    page: int | None = None


@value
class HeaderRow(Band):
    """A header: largest index through it, its ports, largest index through one port."""

    model: str
    ports: int
    port_index: float | None = None


@value
class HeaderTable:
    """Headers by index and ports."""

    rows: tuple[HeaderRow, ...]
    page: int | None = None


class AllowanceLine(StrEnum):
    """The line whose diameter decides an allowance; `both` judges the longer of the two."""

    GAS = "gas"
    LIQUID = "liquid"
    BOTH = "both"


class AllowanceAt(StrEnum):
    """Which run carries the allowance of a branch fitting."""

    ENTERS = "enters"
    LEAVES = "leaves"
    SPLIT = "split"


@value
class Fittings:
    """Fitting tables and equivalent lengths."""

    first: FittingTable
    joint: FittingTable
    header: HeaderTable | None = None
    outdoor_joint: FittingTable | None = None
    allowance: Mapping[str, LengthM | Mapping[TubeM, LengthM]] = field(default_factory=no_entries)
    allowance_line: AllowanceLine = AllowanceLine.GAS
    allowance_at: AllowanceAt = AllowanceAt.ENTERS
    page: int | None = None
    allowance_page: int | None = None


@value
class TemperatureTable:
    """Factor on a rated capacity by temperatures: rows outdoor, columns indoor."""

    outdoor_db_degc: tuple[TempC, ...] = ()
    outdoor_wb_degc: tuple[TempC, ...] = ()
    indoor_db_degc: tuple[TempC, ...] = ()
    indoor_wb_degc: tuple[TempC, ...] = ()
    factor: tuple[tuple[float, ...], ...]
    groups: tuple[str, ...] = ()
    defrost_included: bool = False
    page: int | None = None


@value
class RatioTable:
    """Factor on the system's capacity by connection ratio."""

    ratio: tuple[Amount, ...]
    factor: tuple[float, ...]
    groups: tuple[str, ...] = ()
    page: int | None = None


class Basis(StrEnum):
    """Whose length and level the length factor is taken at."""

    FARTHEST = "farthest"
    EACH = "each"


class BelowFirst(StrEnum):
    """What holds below the first row of a length table."""

    HOLD = "hold"
    UNJUDGED = "unjudged"


@value
class LengthTable:
    """Factor by equivalent length (rows) and level, outdoor above positive (columns)."""

    equivalent_m: tuple[LengthM, ...]
    level_m: tuple[LengthM, ...] = ()
    factor: tuple[tuple[float, ...], ...]
    basis: Basis = Basis.FARTHEST
    below_first: BelowFirst = BelowFirst.UNJUDGED
    upsized_main: UpsizedMain | None = None
    groups: tuple[str, ...] = ()
    page: int | None = None


@value
class DefrostTable:
    """Factor on heating capacity for defrost by outdoor wet bulb."""

    outdoor_wb_degc: tuple[TempC, ...]
    factor: tuple[float, ...]
    page: int | None = None


@value
class UnitTemperatureTable:
    """Factor on an indoor unit's rating by its own air temperature."""

    indoor_wb_degc: tuple[TempC, ...] = ()
    indoor_db_degc: tuple[TempC, ...] = ()
    total: tuple[float, ...]
    sensible: tuple[float, ...] = ()
    kind: tuple[str, ...] = ()
    page: int | None = None


@value
class CapacityMode:
    """How capacity follows conditions in one mode."""

    temperature: Annotated[tuple[TemperatureTable, ...], OneOrMany()] = ()
    ratio: Annotated[tuple[RatioTable, ...], OneOrMany()] = ()
    length: Annotated[tuple[LengthTable, ...], OneOrMany()] = ()
    defrost: DefrostTable | None = None
    unit_temperature: Annotated[tuple[UnitTemperatureTable, ...], OneOrMany()] = ()


@value
class Capacity:
    """Capacity tables by mode."""

    cooling: CapacityMode
    heating: CapacityMode | None = None


@value
class ChargeBand(Band):
    """A band of the connection ratio and the charge that it adds."""

    add_kg: MassKg


class RoundMode(StrEnum):
    """How a charge is rounded."""

    HALF_UP = "half-up"
    UP = "up"
    DOWN = "down"


class RoundAt(StrEnum):
    """Whether each term or the total is rounded."""

    TERM = "term"
    TOTAL = "total"


@value
class Rounding:
    """Step of a rounded charge, in the book's own unit, and how it is rounded."""

    step: str
    mode: RoundMode
    at: RoundAt = RoundAt.TOTAL


@value
class Charge:
    """Terms of the additional charge."""

    liquid: Mapping[TubeM, LinearMassKgM] = field(default_factory=no_entries)
    gas: Mapping[TubeM, LinearMassKgM] = field(default_factory=no_entries)
    group: Mapping[str, MassKg] = field(default_factory=no_entries)
    module: Mapping[str, MassKg] = field(default_factory=no_entries)
    connection_ratio: tuple[ChargeBand, ...] = ()
    indoor: Mapping[str, MassKg] = field(default_factory=no_entries)
    indoor_each_kg: MassKg | None = None
    constant_kg: MassKg | None = None
    multiplier: float | None = None
    min_kg: MassKg | None = None
    round: Rounding | None = None
    max_kg: MassKg | None = None
    page: int | None = None


@value
class Book:
    """One equipment family's published piping rules and tables."""

    id: str
    title: str
    status: Status
    document: Document
    refrigerant: str
    kind: Kind
    index: IndexUnit
    origin: Origin
    outdoor: OutdoorTables
    indoor: IndoorTables
    tubes: Tubes
    sizing: Sizing
    fittings: Fittings
    limits: tuple[Limit, ...]
    capacity: Capacity
    charge: Charge
    note: str = ""
