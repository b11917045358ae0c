"""Moves by what fails: which generators are asked, in which order. Each gives moves, none of them proven yet."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from linewright.book.measures import MeasureName
from linewright.engine.records import CheckKind
from linewright.explore.remedies.at import At
from linewright.explore.remedies.moves.actions import actions, less_action
from linewright.explore.remedies.moves.lengths import lengths, shorter_main
from linewright.explore.remedies.moves.outdoor import groups, module_order, place
from linewright.explore.remedies.moves.sizes import overrides_off, sizes
from linewright.explore.remedies.moves.units import enough, next_sizes, smaller
from linewright.explore.remedies.records import Move

Generator = Callable[[At], Iterator[Move]]
_M = MeasureName
_REACH = (_M.FARTHEST_ACTUAL, _M.FARTHEST_EQUIVALENT, _M.AFTER_FIRST_BRANCH, _M.NEAREST_FARTHEST_DIFFERENCE)
_MODULES = (_M.MODULE_PIPE, _M.MODULE_PIPE_TOTAL, _M.MODULE_PIPE_DIFFERENCE, _M.MODULE_ORDER, _M.MODULE_PIPE_RISE)
_COUNTED = (_M.INDOOR_COUNT, _M.CONNECTION_RATIO, _M.INDEX_SHARE, _M.SMALLEST_INDEX, _M.LARGEST_INDEX_SHARE)
_CHARGE = (_M.ADDITIONAL_CHARGE, _M.TOTAL_CHARGE, _M.CHARGE_PER_LENGTH)

_OF_MEASURE: dict[MeasureName, tuple[Generator, ...]] = {
    **dict.fromkeys(_REACH, (actions, sizes, place, lengths)),
    **dict.fromkeys(_MODULES, (actions, module_order, lengths, groups)),
    **dict.fromkeys(_COUNTED, (actions, groups, smaller, next_sizes)),
    **dict.fromkeys(_CHARGE, (actions, less_action, overrides_off, groups, shorter_main, lengths)),
    _M.LAST_JOINT_TO_UNIT: (actions, sizes, lengths),
    _M.MAIN_LENGTH: (actions, place, groups, lengths),
    _M.JOINT_SPACING: (lengths, actions),
    _M.TOTAL_LENGTH: (actions, sizes, lengths),
    _M.LEVEL_OUTDOOR_ABOVE: (actions, place),
    _M.LEVEL_OUTDOOR_BELOW: (actions, place),
}
_OTHERWISE: tuple[Generator, ...] = (actions, lengths, groups)
_OF_KIND: dict[CheckKind, tuple[Generator, ...]] = {
    CheckKind.ROOM: (actions, enough, groups, sizes, smaller, shorter_main),
    CheckKind.CAPACITY: (actions, groups, sizes, place, shorter_main),
    CheckKind.CHARGE: (actions, less_action, overrides_off, groups, shorter_main),
    CheckKind.SIZE: (groups, overrides_off, smaller),
    CheckKind.OVERRIDE: (overrides_off, sizes),
    CheckKind.ACTION: (actions, overrides_off),
    CheckKind.FITTING: (groups, module_order),
    CheckKind.OPTION: (actions,),
    CheckKind.OPERATION: (actions,),
}


def moves_for(at: At) -> Iterator[Move]:
    """Give moves that may cure a check, those that change least first within each generator."""
    if at.check.kind is CheckKind.LIMIT:
        generators = _OF_MEASURE.get(MeasureName(at.check.measure), _OTHERWISE)
    else:
        generators = _OF_KIND.get(at.check.kind, ())
    for generator in generators:
        yield from generator(at)
