"""Tube and insulation: joints that are not brazed, a thickness of insulation that is stocked beside the others."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace

from linewright.engine.records import CheckKind
from linewright.explore.remedies.at import At
from linewright.explore.remedies.phrases import phrase, tube
from linewright.explore.remedies.records import Duty, Move, MoveKind
from linewright.explore.remedies.weights import weight
from linewright.model.edits import Kind, Set
from linewright.model.pipework import Basis, Pipework

#: Thicknesses of insulation are whole multiples of this [m]; assumed.
STEP_M = 0.001


def pipework(at: At) -> Iterator[Move]:
    """For tube that does not hold: no joint heated; for insulation: the thickness that is needed, on stock."""
    stated = at.design.pipework
    if stated is None or at.check.kind is not CheckKind.PIPEWORK:
        return
    if at.check.measure == "strength" and stated.basis is Basis.ANNEALED:
        yield Move(
            kind=MoveKind.PIPEWORK,
            edits=(_set(replace(stated, basis=Basis.DRAWN)),),
            words=phrase("no joint brazed in the whole project: pressed, flared or screwed (basis: drawn)"),
            duties=(Duty.CARRY_OUT,),
            weight=weight(MoveKind.PIPEWORK),
        )
    needed = max((check.value or 0.0 for check in at.failing if check.measure == "insulation"), default=0.0)
    if at.check.measure == "insulation" and needed:
        thickness = round(math.ceil(needed / STEP_M - 1e-9) * STEP_M, 6)
        yield Move(
            kind=MoveKind.PIPEWORK,
            edits=(_set(replace(stated, stock_m=tuple(sorted({*stated.stock_m, thickness})))),),
            words=phrase("insulation {} thick on stock beside what is stated", tube(thickness)),
            duties=(Duty.SELECT,),
            weight=weight(MoveKind.PIPEWORK),
        )


def _set(stated: Pipework) -> Set:
    return Set(kind=Kind.PROJECT, values={"pipework": stated})
