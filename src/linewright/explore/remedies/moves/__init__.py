"""Moves by what fails: which generators are asked, in which order. Each gives moves, none of them proven yet."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from linewright.book.measures import MeasureName
from linewright.engine.records import CheckKind
from linewright.explore.remedies.at import At
from linewright.explore.remedies.moves.actions import actions, less_action
from linewright.explore.remedies.moves.fittings import fittings
from linewright.explore.remedies.moves.lengths import lengths, shorter_main
from linewright.explore.remedies.moves.moving import move_units
from linewright.explore.remedies.moves.outdoor import groups, module_order, place
from linewright.explore.remedies.moves.pipework import pipework
from linewright.explore.remedies.moves.safety import safety
from linewright.explore.remedies.moves.shifts import shifts
from linewright.explore.remedies.moves.sizes import for_flow, overrides_off, sizes
from linewright.explore.remedies.moves.splitting import splits
from linewright.explore.remedies.moves.trees import rehangs
from linewright.explore.remedies.moves.units import enough, next_sizes, smaller
from linewright.explore.remedies.records import Move

Generator = Callable[[At], Iterator[Move]]
_M = MeasureName
_REACH = (_M.FARTHEST_ACTUAL, _M.FARTHEST_EQUIVALENT, _M.AFTER_FIRST_BRANCH, _M.NEAREST_FARTHEST_DIFFERENCE)
_MODULES = (_M.MODULE_PIPE, _M.MODULE_PIPE_TOTAL, _M.MODULE_PIPE_DIFFERENCE, _M.MODULE_ORDER, _M.MODULE_PIPE_RISE)
_COUNTED = (_M.INDOOR_COUNT, _M.CONNECTION_RATIO, _M.INDEX_SHARE, _M.SMALLEST_INDEX, _M.LARGEST_INDEX_SHARE)
_LEVELS = (_M.LEVEL_OUTDOOR_ABOVE, _M.LEVEL_OUTDOOR_BELOW, _M.LEVEL_BETWEEN_INDOOR, _M.LEVEL_UNIT_TO_JOINT)
_BRANCHES = (
    *(_M.HEADER_DEPTH, _M.HEADER_PORT_INDEX, _M.FITTING_INDEX, _M.FITTING_COUNT, _M.ARM_INDEX_SHARE),
    *(_M.STRAIGHT_BEFORE, _M.STRAIGHT_AFTER),
)
_CHARGE = (_M.ADDITIONAL_CHARGE, _M.TOTAL_CHARGE, _M.CHARGE_PER_LENGTH)

_OF_MEASURE: dict[MeasureName, tuple[Generator, ...]] = {
    **dict.fromkeys(_REACH, (actions, shifts, sizes, place, rehangs, lengths, move_units, splits)),
    **dict.fromkeys(_MODULES, (actions, module_order, lengths, groups)),
    **dict.fromkeys(_COUNTED, (actions, groups, smaller, next_sizes, move_units, splits)),
    **dict.fromkeys(_CHARGE, (actions, less_action, overrides_off, groups, shorter_main, move_units, splits)),
    **dict.fromkeys(_LEVELS, (actions, place, rehangs, move_units, splits)),
    **dict.fromkeys(_BRANCHES, (actions, fittings, rehangs, next_sizes, move_units)),
    _M.LAST_JOINT_TO_UNIT: (actions, shifts, sizes, rehangs, lengths),
    _M.MAIN_LENGTH: (actions, shifts, place, groups, lengths),
    _M.JOINT_SPACING: (actions, shifts, fittings, rehangs, lengths),
    _M.TOTAL_LENGTH: (actions, rehangs, lengths, move_units, splits),
}
_OTHERWISE: tuple[Generator, ...] = (actions, fittings, shifts, rehangs, lengths, groups, move_units)
_OF_KIND: dict[CheckKind, tuple[Generator, ...]] = {
    CheckKind.ROOM: (actions, enough, groups, sizes, smaller, shorter_main, move_units),
    CheckKind.CAPACITY: (actions, groups, sizes, place, smaller, shorter_main, move_units, splits),
    CheckKind.CHARGE: (actions, less_action, overrides_off, groups, shorter_main, move_units, splits),
    CheckKind.SIZE: (groups, overrides_off, rehangs, smaller, move_units, splits),
    CheckKind.OVERRIDE: (overrides_off, sizes, actions),
    CheckKind.ACTION: (actions, overrides_off),
    CheckKind.FITTING: (fittings, rehangs, groups, module_order, move_units),
    CheckKind.OPTION: (actions,),
    CheckKind.OPERATION: (actions,),
    CheckKind.REFRIGERANT: (safety, overrides_off, less_action, shorter_main, move_units, splits),
    CheckKind.FLOW: (for_flow, actions, overrides_off, shifts, place, shorter_main, groups, move_units),
    CheckKind.PIPEWORK: (pipework, groups, overrides_off),
}


def moves_for(at: At) -> Iterator[Move]:
    """Give moves that may cure a check: one of each generator in turn, those that change least first."""
    if at.check.kind is CheckKind.LIMIT:
        generators = _OF_MEASURE.get(MeasureName(at.check.measure), _OTHERWISE)
    else:
        generators = _OF_KIND.get(at.check.kind, ())
    sources = [generator(at) for generator in generators]
    while sources:
        for source in list(sources):
            move = next(source, None)
            if move is None:
                sources.remove(source)
            else:
                yield move
