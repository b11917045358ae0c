"""What an evaluation holds. Every value is SI; `None` means it could not be computed.

Records keep the intermediates that the working shows; nothing is computed twice for display.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from enum import StrEnum
from typing import TYPE_CHECKING, Generic, NamedTuple, TypeVar

from linewright.book.roles import GAS_SIDE, LIQUID_SIDE
from linewright.engine.capacity_records import SystemCapacity
from linewright.engine.figures import ChargeResult, Series, TableRow
from linewright.engine.outdoor_records import OutdoorResult
from linewright.engine.state import State
from linewright.model.design import Design, System
from linewright.model.tree import Tree
from linewright.model.values import NodeKind, Role
from linewright.units import Dimension

if TYPE_CHECKING:
    from linewright.engine.hydraulics_records import Hydraulics
    from linewright.engine.pipework_records import PipeworkResult
    from linewright.engine.safety_records import SafetyResult

T = TypeVar("T")


class Standing(StrEnum):
    """The verdict on a check."""

    WITHIN = "within"
    ON_CONDITIONS = "on conditions"
    OVER = "over"
    UNJUDGED = "unjudged"
    TO_CONFIRM = "to confirm"
    NOT_APPLICABLE = "not applicable"
    UNSTATED = "unstated"


class Sense(StrEnum):
    """Whether a bound is a largest or a least value."""

    MAX = "max"
    MIN = "min"


class CheckKind(StrEnum):
    """What a check is about."""

    LIMIT = "limit"
    ROOM = "room"
    CAPACITY = "capacity"
    CHARGE = "charge"
    SIZE = "size"
    OVERRIDE = "override"
    ACTION = "action"
    FITTING = "fitting"
    GROUP = "group"
    REQUIREMENT = "requirement"
    OPERATION = "operation"
    OPTION = "option"
    REFRIGERANT = "refrigerant"
    PIPEWORK = "pipework"
    FLOW = "flow"


class NeedResult(NamedTuple):
    """One condition of a relaxed bound and whether it holds (`None`: cannot be judged)."""

    text: str
    value: float | None
    bound: float | None
    dimension: Dimension
    holds: bool | None
    missing: tuple[str, ...] = ()


class RelaxedResult(NamedTuple):
    """A relaxed bound that was tried, and its conditions."""

    bound: float
    page: int | None
    needs: tuple[NeedResult, ...]
    holds: bool | None


class Check(NamedTuple):
    """One verdict: on a limit, a room, a capacity, a size, a fitting or the charge.

    `left` is what an unjudged largest bound leaves for what is missing.
    """

    subject: str
    kind: CheckKind
    measure: str
    dimension: Dimension
    sense: Sense
    standing: Standing
    value: float | None = None
    bound: float | None = None
    margin: float | None = None
    governs: tuple[str, ...] = ()
    page: int | None = None
    plain_bound: float | None = None
    relaxed: tuple[RelaxedResult, ...] = ()
    missing: tuple[str, ...] = ()
    note: str = ""
    path: str = ""
    left: float | None = None


class MeasureResult(NamedTuple):
    """A measure that the book names, with its variant in words."""

    name: str
    key: str
    variant: str
    dimension: Dimension
    series: Series


class TubeSize(NamedTuple):
    """How one tube of a run came to its size."""

    role: Role
    table_m: float | None
    row: TableRow | None
    source: str
    steps: int
    action: str
    override_m: float | None
    capped_at_m: float | None
    od_m: float | None


class RunResult(NamedTuple):
    """One run: its lengths, what flows through it and its tubes."""

    id: str
    from_: str
    to: str
    length_m: float | None
    equivalent_m: float | None
    rise_m: float | None
    assumed_rise: bool
    downstream_index: float
    is_main: bool
    bends_allowance_m: float | None
    items_allowance_m: float | None
    fitting_allowance_m: float | None
    tubes: Mapping[Role, TubeSize]
    ports: tuple[int, ...] = ()

    @property
    def gas_side(self) -> TubeSize | None:
        """The tube on the gas side: the gas line, or the one that stands for it before a mode box."""
        return _first_of(self.tubes, GAS_SIDE)

    @property
    def liquid_side(self) -> TubeSize | None:
        """The tube on the liquid side."""
        return _first_of(self.tubes, LIQUID_SIDE)


def _first_of(tubes: Mapping[Role, TubeSize], roles: tuple[Role, ...]) -> TubeSize | None:
    for role in roles:
        if role in tubes:
            return tubes[role]
    return None


class FittingResult(NamedTuple):
    """One fitting: its kind, the index through it, and the model the book gives."""

    id: str
    kind: NodeKind
    index: float  # type: ignore[assignment] # hides tuple.index, which nothing calls
    ports_used: int
    model: str
    ports: int | None
    row: TableRow | None
    elevation_m: float | None
    assumed_elevation: bool


class ModeFigures(NamedTuple):
    """What a unit or a room needs and gets in one mode [W]."""

    needed_w: float | None
    rating_w: float | None
    delivered_w: float | None
    coincident_w: float | None


class UnitFigures(NamedTuple):
    """What every unit of a system needs and gets in one mode [W], in the order of the design."""

    needed_w: tuple[float | None, ...]
    rating_w: tuple[float | None, ...]
    delivered_w: tuple[float | None, ...]
    coincident_w: tuple[float | None, ...]

    def of(self, unit: int) -> ModeFigures:
        """Give the figures of one unit."""
        return ModeFigures(self.needed_w[unit], self.rating_w[unit], self.delivered_w[unit], self.coincident_w[unit])


class SystemFigures(NamedTuple):
    """Figures of all units of a system by mode."""

    cooling: UnitFigures
    sensible: UnitFigures
    heating: UnitFigures


class UnitResult(NamedTuple):
    """One indoor unit: where it is and what it delivers."""

    id: str
    model: str
    kind: str
    room: str
    index: float  # type: ignore[assignment] # hides tuple.index, which nothing calls
    reach_m: float | None
    equivalent_reach_m: float | None
    elevation_m: float | None
    cooling: ModeFigures
    sensible: ModeFigures
    heating: ModeFigures


class ActionResult(NamedTuple):
    """A size action: whether it is due or chosen, which runs it touches, whether it is carried out."""

    id: str
    mandatory: bool
    due: bool
    chosen: bool
    forbidden: bool
    runs: tuple[str, ...]
    carried_out: bool
    why_not: str
    page: int | None


class Note(NamedTuple):
    """Something the reader must know: an assumption, a warning, a thing not judged; or what the book wants printed."""

    subject: str
    text: str
    of_book: bool = False


class Deferred(Generic[T]):
    """Rows that are made of an evaluation's records when they are first asked for; the same every time."""

    __slots__ = ("_make", "_rows")

    def __init__(self, make: Callable[[], tuple[T, ...]]) -> None:
        """Keep how the rows are made."""
        self._make = make
        self._rows: tuple[T, ...] | None = None

    @property
    def rows(self) -> tuple[T, ...]:
        """The rows."""
        if self._rows is None:
            self._rows = self._make()
        return self._rows


_NO_HYDRAULICS: Deferred[Hydraulics] = Deferred(tuple)


class SystemResult(NamedTuple):
    """Everything about one system. Limits keep the book's order; other lists are sorted by id.

    `rejected` holds, by path of a limit that is over, the state in which its wider bound was tried.
    """

    id: str
    name: str
    book: str
    group: str
    outdoor_index: float
    indoor_index: float
    system: System
    tree: Tree
    state: State
    rejected: Mapping[str, State]
    deferred_measures: Deferred[MeasureResult]
    limits: tuple[Check, ...]
    checks: tuple[Check, ...]
    unstated: tuple[str, ...]
    actions: tuple[ActionResult, ...]
    deferred_runs: Deferred[RunResult]
    fittings: tuple[FittingResult, ...]
    outdoor: OutdoorResult
    figures: SystemFigures
    deferred_units: Deferred[UnitResult]
    cooling: SystemCapacity | None
    heating: SystemCapacity | None
    charge: ChargeResult
    notes: tuple[Note, ...]
    deferred_hydraulics: Deferred[Hydraulics] = _NO_HYDRAULICS
    safety: SafetyResult | None = None
    pipework: PipeworkResult | None = None

    @property
    def hydraulics(self) -> Hydraulics:
        """What flows in the system, from first principles: beside the results of the book, judged by nothing."""
        return self.deferred_hydraulics.rows[0]

    @property
    def measures(self) -> tuple[MeasureResult, ...]:
        """Every measure that the book's limits name, once in each variant, in book order."""
        return self.deferred_measures.rows

    def measured(self, check: Check) -> MeasureResult | None:
        """Give the measure behind a limit."""
        named = [measure for measure in self.measures if check.measure in (measure.name, measure.key)]
        return next((measure for measure in named if measure.variant == check.note), named[0] if named else None)

    @property
    def runs(self) -> tuple[RunResult, ...]:
        """Every run with its lengths and tubes."""
        return self.deferred_runs.rows

    @property
    def units(self) -> tuple[UnitResult, ...]:
        """Every unit with where it is and what it delivers."""
        return self.deferred_units.rows


class RoomResult(NamedTuple):
    """One room over all systems that serve it."""

    id: str
    name: str
    level: str
    units: tuple[str, ...]
    cooling: ModeFigures
    sensible: ModeFigures
    heating: ModeFigures
    checks: tuple[Check, ...]


class Evaluation(NamedTuple):
    """A design judged against its books."""

    design: Design
    systems: tuple[SystemResult, ...]
    deferred_rooms: Deferred[RoomResult]
    standing: Standing
    books: Mapping[str, str]
    cautions: tuple[str, ...]

    @property
    def rooms(self) -> tuple[RoomResult, ...]:
        """Every room over all systems that serve it, with its verdicts."""
        return self.deferred_rooms.rows
