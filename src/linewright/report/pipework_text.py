"""Pipework for people: tube to order, gauge readings of the test, insulation, and what moves most."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.engine.pipework_records import InsulationResult, MoveResult, PipeworkResult, TestStage, TubeStrength
from linewright.engine.records import Check, SystemResult
from linewright.report.page import Page
from linewright.report.reasons import UNKNOWN, number
from linewright.report.table import Cell, Column
from linewright.units import Dimension, UnitSystem, at_least, at_most, from_unit, show, tube_name, unit_label

D = Dimension
MOST_MOVES = 6
_TUBES = (
    Column("tube", right=True),
    Column("wall", right=True),
    Column("temper", most=10),
    Column("allowed", right=True, most=16),
    Column("standing", most=13),
    Column("order", most=26),
)
_STAGES = (
    Column("stage", right=True),
    Column("pressure", right=True),
    Column("hold", right=True),
    Column("gauge later", right=True),
    Column("each degree", right=True),
)
_WRAPS = (
    Column("line", most=22),
    Column("place", most=9),
    Column("dry at", right=True),
    Column("code", right=True),
    Column("order", right=True),
    Column("heat in", right=True),
    Column("standing", most=13),
)
_MOVES = (
    Column("run", most=14),
    Column("tube", most=18),
    Column("moves", right=True),
    Column("offset or loop", right=True),
    Column("supports", right=True),
)


def pipework(page: Page, result: SystemResult, system: UnitSystem) -> None:
    """Write the pipework of one system; nothing where the design does not state how it is judged."""
    found = result.pipework
    if found is None:
        return
    by = f" by {found.design.by}" if found.design.by else ""
    page.text(f"Pipework: design pressure {number(found.design.pressure_pa, D.PRESSURE, system)}{by}")
    low = f" by {found.low.by}" if found.low.by else ""
    said = f"low side {number(found.low.pressure_pa, D.PRESSURE, system)}{low}, by which no tube is judged"
    page.text(said, indent=2)
    page.table(_TUBES, [_tube(tube, system) for tube in found.tubes])
    for line in dict.fromkeys(line for tube in found.tubes for line in _because(tube.check)):
        page.text(line, indent=2)
    page.table(_STAGES, [_stage(stage, found, system) for stage in found.test])
    for missing in dict.fromkeys(stage.missing for stage in found.test if stage.missing):
        page.text(f"gauge not worked out without {missing}", indent=2)
    page.table(_WRAPS, [_wrap(item, system) for item in found.insulation])
    for line in dict.fromkeys(line for item in found.insulation for line in _because(item.check)):
        page.text(line, indent=2)
    _movement(page, found, system)
    for check in found.others:
        for line in _because(check):
            page.text(f"{check.subject.partition('/')[2]}: {line}", indent=2)
    page.blank()


def _because(check: Check) -> Iterator[str]:
    if check.missing:
        yield f"unjudged without {', '.join(check.missing)}"
    if check.note:
        yield check.note


def _tube(tube: TubeStrength, system: UnitSystem) -> list[Cell | str]:
    allowed = [
        f"{at_most(pa, D.PRESSURE, system, places=0)}" + ("" if len(tube.allowed_pa) == 1 else f" {basis}")
        for basis, pa in tube.allowed_pa.items()
    ]
    return [
        tube_name(tube.od_m, system),
        UNKNOWN if tube.wall_m is None else show(tube.wall_m, D.TUBE, system),
        tube.temper or UNKNOWN,
        f"{', '.join(allowed)} {unit_label(D.PRESSURE, system)}" if allowed else UNKNOWN,
        Cell(tube.check.standing.value, tube.check.standing.value),
        _order(tube, system),
    ]


def _order(tube: TubeStrength, system: UnitSystem) -> str:
    if tube.order is not None:
        return f"{show(tube.order.wall_m, D.TUBE, system)} {tube.order.temper}, {tube.order.source}".strip()
    if tube.needed_wall_m is None:
        return "-"
    needed = at_least(tube.needed_wall_m, D.TUBE, system, places=2 if system is UnitSystem.SI else 3)
    return f"none sold: {needed} {unit_label(D.TUBE, system)} at least"


def _stage(stage: TestStage, found: PipeworkResult, system: UnitSystem) -> list[Cell | str]:
    later = "-" if found.stated.read_degc is None else number(stage.reading_pa, D.PRESSURE, system)
    return [
        str(stage.number),
        show(stage.pressure_pa, D.PRESSURE, system),
        number(stage.hold_s, D.TIME, system),
        later,
        number(_per_degree(stage, system), D.PRESSURE, system),
    ]


def _per_degree(stage: TestStage, system: UnitSystem) -> float | None:
    """Change of the gauge for a degree of the scale that is printed."""
    each = stage.per_kelvin_pa
    return each if each is None or system is UnitSystem.SI else from_unit(each, "Fdeg")


def _wrap(item: InsulationResult, system: UnitSystem) -> list[Cell | str]:
    return [
        f"{item.role.word} {tube_name(item.od_m, system)}",
        item.place,
        _thick(item.dry_m, system),
        _thick(item.code_m, system),
        UNKNOWN if item.order_m is None else show(item.order_m, D.TUBE, system) if item.order_m else "none",
        number(item.heat_w_m, D.LINEAR_POWER, system),
        Cell(item.check.standing.value, item.check.standing.value),
    ]


def _thick(thickness_m: float | None, system: UnitSystem) -> str:
    """A least thickness, rounded up."""
    if thickness_m is None:
        return UNKNOWN
    places = 1 if system is UnitSystem.SI else 2
    return f"{at_least(thickness_m, D.TUBE, system, places=places)} {unit_label(D.TUBE, system)}"


def _movement(page: Page, found: PipeworkResult, system: UnitSystem) -> None:
    known = [move for move in found.moves if move.expansion_m is not None]
    ranked = sorted(known, key=lambda move: (-(move.expansion_m or 0.0), move.subject))
    page.table(_MOVES, [_move(move, system) for move in ranked[:MOST_MOVES]])
    if len(found.moves) > MOST_MOVES:
        page.text("Movement and supports of every run stand in --json.")
    counted = [move.supports for move in found.moves if move.supports is not None]
    page.text(f"Supports: {sum(counted)} for {len(counted)} of {len(found.moves)} tubes.")
    for missing in dict.fromkeys(name for move in found.moves for name in move.missing):
        page.text(f"not worked out without {missing}", indent=2)


def _move(move: MoveResult, system: UnitSystem) -> list[Cell | str]:
    return [
        move.run,
        f"{move.role.word} {tube_name(move.od_m or 0.0, system)}",
        _thick(move.expansion_m, system),
        f"{at_least(move.offset_m or 0.0, D.LENGTH, system, places=2)} {unit_label(D.LENGTH, system)}",
        UNKNOWN if move.supports is None else str(move.supports),
    ]
