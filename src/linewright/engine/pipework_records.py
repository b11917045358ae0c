"""What an evaluation holds of pipework; only where the design states how it is judged."""

from __future__ import annotations

from typing import NamedTuple

from linewright.engine.records import Check
from linewright.model.pipework import Pipework
from linewright.model.values import Role
from linewright.standards.pipework.terms import Term


class Line(NamedTuple):
    """One tube of one run or module pipe.

    place : `outdoors`, `indoors`, or `either` where that is not stated or it is a shaft
    od_from, length_from : where its size and its length stand, as sources of terms
    """

    run: str
    role: Role
    od_m: float | None
    length_m: float | None
    rise_m: float | None
    bends: int
    loops: int
    place: str
    od_from: str
    length_from: str


class DesignPressure(NamedTuple):
    """The gauge pressure that tube has to hold [Pa], by what; `doubts` name what of it rests on memory."""

    pressure_pa: float | None
    by: str
    terms: tuple[Term, ...]
    doubts: tuple[str, ...] = ()
    missing: str = ""


class Order(NamedTuple):
    """Tube to order: its wall [m], temper, and where that is from."""

    wall_m: float
    temper: str
    source: str


class TubeStrength(NamedTuple):
    """One size of tube: what it may hold [Pa] on the stated basis, or on each where none is stated.

    needed_wall_m : wall that is enough where it is thinnest; order : none where no wall that is sold is enough
    """

    check: Check
    od_m: float
    wall_m: float | None
    temper: str
    allowed_pa: dict[str, float]
    needed_wall_m: float | None
    order: Order | None
    runs: tuple[str, ...]
    terms: tuple[Term, ...]


class TestStage(NamedTuple):
    """One stage of the pressure test [Pa gauge] and what the gauge shows at another temperature."""

    number: int
    pressure_pa: float
    hold_s: float | None
    reading_pa: float | None
    per_kelvin_pa: float | None
    terms: tuple[Term, ...]
    missing: str = ""


class InsulationResult(NamedTuple):
    """Insulation of the tubes of one size, role and place. Thicknesses in m, heat in W for each metre."""

    check: Check
    role: Role
    od_m: float
    place: str
    dew_degc: float | None
    line_degc: float
    dry_m: float | None
    book_m: float | None
    code_m: float | None
    order_m: float | None
    heat_w_m: float | None
    runs: tuple[str, ...]
    terms: tuple[Term, ...]


class MoveResult(NamedTuple):
    """How one tube of a run moves between anchors at its ends, and its supports."""

    subject: str
    run: str
    role: Role
    od_m: float | None
    expansion_m: float | None
    offset_m: float | None
    radius_m: float | None
    spacing_m: float | None
    supports: int | None
    terms: tuple[Term, ...]
    missing: tuple[str, ...]
    doubts: tuple[str, ...]


class PipeworkResult(NamedTuple):
    """Pipework of one system; `design` is of the high side, by which tube is judged, `low` for information."""

    stated: Pipework
    design: DesignPressure
    low: DesignPressure
    tubes: tuple[TubeStrength, ...]
    test: tuple[TestStage, ...]
    insulation: tuple[InsulationResult, ...]
    moves: tuple[MoveResult, ...]
    others: tuple[Check, ...]

    @property
    def checks(self) -> tuple[Check, ...]:
        """All verdicts."""
        return (*(tube.check for tube in self.tubes), *(item.check for item in self.insulation), *self.others)
