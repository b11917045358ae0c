"""Pipework as JSON; stands in a system only where the design states how it is judged."""

from __future__ import annotations

from typing import Any

from linewright.engine.pipework_records import (
    InsulationResult,
    MoveResult,
    Order,
    PipeworkResult,
    TestStage,
    TubeStrength,
)

Json = dict[str, Any]


def pipework_json(found: PipeworkResult) -> Json:
    """One system's pipework: what tube holds, the test, insulation, movement and supports."""
    stated = found.stated
    return {
        "basis": None if stated.basis is None else stated.basis.value,
        "code": stated.code.value,
        "design_pressure_pa": found.design.pressure_pa,
        "design_pressure_by": found.design.by,
        "low_side_pressure_pa": found.low.pressure_pa,
        "low_side_pressure_by": found.low.by,
        "tubes": [_tube(tube) for tube in found.tubes],
        "test": [_stage(stage) for stage in found.test],
        "insulation": [_insulation(item) for item in found.insulation],
        "movement": [_move(move) for move in sorted(found.moves, key=lambda move: move.subject)],
    }


def _tube(tube: TubeStrength) -> Json:
    return {
        "subject": tube.check.subject,
        "standing": tube.check.standing.value,
        "od_m": tube.od_m,
        "wall_m": tube.wall_m,
        "temper": tube.temper or None,
        "allowed_annealed_pa": tube.allowed_pa.get("annealed"),
        "allowed_drawn_pa": tube.allowed_pa.get("drawn"),
        "allowed_listed_pa": tube.allowed_pa.get("listed"),
        "needed_wall_m": tube.needed_wall_m,
        "order": None if tube.order is None else _order(tube.order),
        "runs": sorted(tube.runs),
        "needs": sorted(tube.check.missing),
        "note": tube.check.note,
    }


def _order(order: Order) -> Json:
    return {"wall_m": order.wall_m, "temper": order.temper or None, "from": order.source}


def _stage(stage: TestStage) -> Json:
    return {
        "stage": stage.number,
        "pressure_pa": stage.pressure_pa,
        "hold_s": stage.hold_s,
        "reading_pa": stage.reading_pa,
        "change_pa_per_k": stage.per_kelvin_pa,
        "needs": [stage.missing] if stage.missing else [],
    }


def _insulation(item: InsulationResult) -> Json:
    return {
        "subject": item.check.subject,
        "standing": item.check.standing.value,
        "role": item.role.value,
        "od_m": item.od_m,
        "place": item.place,
        "line_degc": item.line_degc,
        "dew_point_degc": item.dew_degc,
        "dry_m": item.dry_m,
        "book_m": item.book_m,
        "code_m": item.code_m,
        "order_m": item.order_m,
        "heat_gain_w_per_m": item.heat_w_m,
        "runs": sorted(item.runs),
        "needs": sorted(item.check.missing),
        "note": item.check.note,
    }


def _move(move: MoveResult) -> Json:
    return {
        "subject": move.subject,
        "run": move.run,
        "role": move.role.value,
        "expansion_m": move.expansion_m,
        "offset_m": move.offset_m,
        "ring_radius_m": move.radius_m,
        "support_spacing_m": move.spacing_m,
        "supports": move.supports,
        "needs": sorted(move.missing),
        "rests_on": sorted(move.doubts),
    }
