"""What pipework says of a run and of a system, in words: wall and temper, insulation, movement, supports."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.draw.plan import SheetLayout
from linewright.draw.wording import UNKNOWN
from linewright.engine.pipework_records import InsulationResult, MoveResult, PipeworkResult, TubeStrength
from linewright.units import Dimension, UnitSystem, at_least, same_tube, show, tube_name, unit_label

D = Dimension
#: Runs that move most, which are named below the lanes.
MOST_MOVES = 3


def pipework_of_runs(found: PipeworkResult | None, system: UnitSystem) -> dict[str, tuple[str, ...]] | None:
    """Say of each tube of each run what is bought for it, by run; None where pipework is not judged."""
    if found is None:
        return None
    said: dict[str, tuple[str, ...]] = {}
    for move in found.moves:
        if move.od_m is not None:
            said[move.run] = (*said.get(move.run, ()), _tube_of_run(found, move, system))
    return said


def _tube_of_run(found: PipeworkResult, move: MoveResult, system: UnitSystem) -> str:
    od_m = move.od_m or 0.0
    tube = next((one for one in found.tubes if same_tube(one.od_m, od_m)), None)
    wrap = next((one for one in found.insulation if one.role is move.role and move.run in one.runs), None)
    supports = UNKNOWN if move.supports is None else str(move.supports)
    parts = [
        f"{move.role.word} {_wall(tube, system)}",
        f"insulation {_thickness(wrap, system)}",
        f"moves {_least(move.expansion_m, D.TUBE, system)}",
        f"offset or loop {_least(move.offset_m, D.LENGTH, system)}",
        f"supports {supports}",
    ]
    return ", ".join(parts)


def pipework_words(sheet: SheetLayout, system: UnitSystem) -> Iterator[str]:
    """Say of a system which tube and insulation is bought, what moves most, and how many supports there are."""
    found = sheet.result.pipework
    if found is None:
        return
    for tube in found.tubes:
        yield f"{tube_name(tube.od_m, system)}: {_wall(tube, system)}, {tube.check.standing}"
    for item in found.insulation:
        size = f"{item.role.word} {tube_name(item.od_m, system)}"
        place = "anywhere" if item.place == "either" else item.place
        yield f"insulation {_thickness(item, system)} on {size} {place}, {item.check.standing}"
    known = [move for move in found.moves if move.expansion_m is not None]
    for move in sorted(known, key=lambda one: (-(one.expansion_m or 0.0), one.subject))[:MOST_MOVES]:
        grown, offset = _least(move.expansion_m, D.TUBE, system), _least(move.offset_m, D.LENGTH, system)
        yield f"{move.run} {move.role.word} moves {grown}, offset or loop {offset}"
    counted = [move.supports for move in found.moves if move.supports is not None]
    yield f"supports {sum(counted)} for {len(counted)} of {len(found.moves)} tubes"
    yield "anchors are taken at both ends of every run"


def _wall(tube: TubeStrength | None, system: UnitSystem) -> str:
    """The tube that is bought, else that of the book with what it lacks."""
    if tube is None:
        return UNKNOWN
    order = tube.order
    wall, temper = (tube.wall_m, tube.temper) if order is None else (order.wall_m, order.temper)
    said = UNKNOWN if wall is None else show(wall, D.TUBE, system)
    return f"wall {said} {temper or UNKNOWN}"


def _thickness(item: InsulationResult | None, system: UnitSystem) -> str:
    if item is None or item.order_m is None:
        return UNKNOWN
    return show(item.order_m, D.TUBE, system) if item.order_m else "none"


def _least(value: float | None, dimension: Dimension, system: UnitSystem) -> str:
    """A figure that must not be printed smaller than it is."""
    if value is None:
        return UNKNOWN
    places = 2 if dimension is D.LENGTH or system is UnitSystem.IP else 1
    return f"{at_least(value, dimension, system, places=places)} {unit_label(dimension, system)}"
