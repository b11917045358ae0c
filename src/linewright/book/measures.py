"""The names of all measures: what a limit, a condition or a need may be put on."""

from __future__ import annotations

from enum import StrEnum
from typing import NamedTuple

from linewright.units import Dimension


class Over(StrEnum):
    """What the series of a measure runs over."""

    UNITS = "units"
    RUNS = "runs"
    FITTINGS = "fittings"
    MODULES = "modules"
    SYSTEM = "system"


class MeasureName(StrEnum):
    """Every measure that the engine knows."""

    FARTHEST_ACTUAL = "farthest_actual"
    FARTHEST_EQUIVALENT = "farthest_equivalent"
    AFTER_FIRST_BRANCH = "after_first_branch"
    LAST_JOINT_TO_UNIT = "last_joint_to_unit"
    NEAREST_FARTHEST_DIFFERENCE = "nearest_farthest_difference"
    MAIN_LENGTH = "main_length"
    JOINT_SPACING = "joint_spacing"
    STRAIGHT_BEFORE = "straight_before"
    STRAIGHT_AFTER = "straight_after"
    FITTING_INDEX = "fitting_index"
    HEADER_PORT_INDEX = "header_port_index"
    ARM_INDEX_SHARE = "arm_index_share"
    FITTING_COUNT = "fitting_count"
    TOTAL_LENGTH = "total_length"
    MODULE_PIPE = "module_pipe"
    MODULE_PIPE_TOTAL = "module_pipe_total"
    MODULE_PIPE_DIFFERENCE = "module_pipe_difference"
    MODULE_PIPE_RISE = "module_pipe_rise"
    RISE_WITHOUT_TRAP = "rise_without_trap"
    LEVEL_OUTDOOR_ABOVE = "level_outdoor_above"
    LEVEL_OUTDOOR_BELOW = "level_outdoor_below"
    LEVEL_BETWEEN_INDOOR = "level_between_indoor"
    LEVEL_BETWEEN_MODULES = "level_between_modules"
    LEVEL_UNIT_TO_JOINT = "level_unit_to_joint"
    HEADER_DEPTH = "header_depth"
    INDOOR_COUNT = "indoor_count"
    CONNECTION_RATIO = "connection_ratio"
    INDEX_SHARE = "index_share"
    SMALLEST_INDEX = "smallest_index"
    LARGEST_INDEX_SHARE = "largest_index_share"
    MODULE_ORDER = "module_order"
    JOINT_TO_BOX = "joint_to_box"
    BOX_TO_UNIT = "box_to_unit"
    LEVEL_BETWEEN_BOXES = "level_between_boxes"
    LEVEL_WITHIN_BOX = "level_within_box"
    BOX_INDEX = "box_index"
    THROUGH_INDEX = "through_index"
    PORT_INDEX = "port_index"
    UNITS_PER_PORT = "units_per_port"
    BOXES_IN_SERIES = "boxes_in_series"
    BOX_COUNT = "box_count"
    ADDITIONAL_CHARGE = "additional_charge"
    TOTAL_CHARGE = "total_charge"
    CHARGE_PER_LENGTH = "charge_per_length"


class MeasureFacts(NamedTuple):
    """Dimension of a measure, what its series runs over, and what it is in one sentence."""

    dimension: Dimension
    over: Over
    text: str


_LENGTH, _NUMBER, _RATIO, _MASS = Dimension.LENGTH, Dimension.NUMBER, Dimension.RATIO, Dimension.MASS
_M = MeasureName

FACTS: dict[MeasureName, MeasureFacts] = {
    _M.FARTHEST_ACTUAL: MeasureFacts(_LENGTH, Over.UNITS, "actual reach of each unit from the origin; largest"),
    _M.FARTHEST_EQUIVALENT: MeasureFacts(_LENGTH, Over.UNITS, "equivalent reach of each unit from the origin; largest"),
    _M.AFTER_FIRST_BRANCH: MeasureFacts(_LENGTH, Over.UNITS, "length from the first branch to each unit; largest"),
    _M.LAST_JOINT_TO_UNIT: MeasureFacts(
        _LENGTH, Over.UNITS, "length from each unit back to the branch fitting nearest to it; largest"
    ),
    _M.NEAREST_FARTHEST_DIFFERENCE: MeasureFacts(
        _LENGTH, Over.UNITS, "reach of the farthest unit minus reach of the nearest"
    ),
    _M.MAIN_LENGTH: MeasureFacts(
        _LENGTH, Over.SYSTEM, "length from the outdoor unit or first outdoor joint to the first branch"
    ),
    _M.JOINT_SPACING: MeasureFacts(_LENGTH, Over.RUNS, "length between consecutive branch fittings; smallest"),
    _M.STRAIGHT_BEFORE: MeasureFacts(
        _LENGTH, Over.FITTINGS, "straight length before each branch fitting, as stated; smallest"
    ),
    _M.STRAIGHT_AFTER: MeasureFacts(
        _LENGTH, Over.FITTINGS, "straight length after each branch fitting, as stated; smallest"
    ),
    _M.FITTING_INDEX: MeasureFacts(
        _NUMBER, Over.FITTINGS, "sum of indoor indices through each branch fitting; largest"
    ),
    _M.HEADER_PORT_INDEX: MeasureFacts(_NUMBER, Over.RUNS, "sum of indoor indices through each header port; largest"),
    _M.ARM_INDEX_SHARE: MeasureFacts(
        _RATIO, Over.RUNS, "index of each arm of a joint over the index of the joint; largest"
    ),
    _M.FITTING_COUNT: MeasureFacts(_NUMBER, Over.UNITS, "branch fittings on the way to each unit; largest"),
    _M.TOTAL_LENGTH: MeasureFacts(_LENGTH, Over.RUNS, "all runs beyond the origin, each once; sum"),
    _M.MODULE_PIPE: MeasureFacts(_LENGTH, Over.MODULES, "length from the first outdoor joint to each module; largest"),
    _M.MODULE_PIPE_TOTAL: MeasureFacts(_LENGTH, Over.SYSTEM, "all pipes between the outdoor modules, each once; sum"),
    _M.MODULE_PIPE_DIFFERENCE: MeasureFacts(
        _LENGTH, Over.MODULES, "longest minus shortest length from the first outdoor joint to a module"
    ),
    _M.MODULE_PIPE_RISE: MeasureFacts(
        _LENGTH, Over.MODULES, "level of each module above the first outdoor joint; largest, never below zero"
    ),
    _M.RISE_WITHOUT_TRAP: MeasureFacts(
        _LENGTH, Over.RUNS, "upward rise on the way outward since the last oil trap; largest"
    ),
    _M.LEVEL_OUTDOOR_ABOVE: MeasureFacts(
        _LENGTH, Over.UNITS, "outdoor level minus level of each unit; largest, never below zero"
    ),
    _M.LEVEL_OUTDOOR_BELOW: MeasureFacts(
        _LENGTH, Over.UNITS, "level of each unit minus outdoor level; largest, never below zero"
    ),
    _M.LEVEL_BETWEEN_INDOOR: MeasureFacts(_LENGTH, Over.UNITS, "highest minus lowest indoor unit"),
    _M.LEVEL_BETWEEN_MODULES: MeasureFacts(_LENGTH, Over.MODULES, "highest minus lowest outdoor module"),
    _M.LEVEL_UNIT_TO_JOINT: MeasureFacts(
        _LENGTH,
        Over.UNITS,
        "level difference between each unit and the branch fitting nearest to it; largest",
    ),
    _M.HEADER_DEPTH: MeasureFacts(_NUMBER, Over.FITTINGS, "branch fittings that split again after a header; count"),
    _M.INDOOR_COUNT: MeasureFacts(_NUMBER, Over.UNITS, "indoor units; count"),
    _M.CONNECTION_RATIO: MeasureFacts(_RATIO, Over.UNITS, "sum of indoor indices over the outdoor index"),
    _M.INDEX_SHARE: MeasureFacts(
        _RATIO, Over.UNITS, "sum of the indices of the units that a filter keeps over the sum of all"
    ),
    _M.SMALLEST_INDEX: MeasureFacts(_NUMBER, Over.UNITS, "index of each unit; smallest"),
    _M.LARGEST_INDEX_SHARE: MeasureFacts(_RATIO, Over.UNITS, "index of each unit over the outdoor index; largest"),
    _M.MODULE_ORDER: MeasureFacts(
        _NUMBER,
        Over.MODULES,
        "modules larger than the one before them, seen outward from the first outdoor joint",
    ),
    _M.JOINT_TO_BOX: MeasureFacts(
        _LENGTH, Over.FITTINGS, "length from each mode box back to the branch fitting before it, or the root; largest"
    ),
    _M.BOX_TO_UNIT: MeasureFacts(_LENGTH, Over.UNITS, "length from its mode box to each unit behind one; largest"),
    _M.LEVEL_BETWEEN_BOXES: MeasureFacts(_LENGTH, Over.FITTINGS, "highest minus lowest mode box"),
    _M.LEVEL_WITHIN_BOX: MeasureFacts(
        _LENGTH, Over.FITTINGS, "highest minus lowest unit behind each mode box; largest"
    ),
    _M.BOX_INDEX: MeasureFacts(
        _NUMBER, Over.FITTINGS, "sum of indoor indices on the own ports of each mode box; largest"
    ),
    _M.THROUGH_INDEX: MeasureFacts(
        _NUMBER, Over.FITTINGS, "sum of indoor indices that each mode box carries on to boxes behind it; largest"
    ),
    _M.PORT_INDEX: MeasureFacts(
        _NUMBER, Over.RUNS, "sum of indoor indices on each port of a mode box, joined ports as one; largest"
    ),
    _M.UNITS_PER_PORT: MeasureFacts(
        _NUMBER, Over.RUNS, "units on each port of a mode box, joined ports as one; largest"
    ),
    _M.BOXES_IN_SERIES: MeasureFacts(
        _NUMBER, Over.FITTINGS, "mode boxes on the way to each mode box, with itself; largest"
    ),
    _M.BOX_COUNT: MeasureFacts(_NUMBER, Over.SYSTEM, "mode boxes; count"),
    _M.ADDITIONAL_CHARGE: MeasureFacts(_MASS, Over.SYSTEM, "refrigerant to be added on site"),
    _M.TOTAL_CHARGE: MeasureFacts(_MASS, Over.SYSTEM, "factory charge plus additional charge"),
    _M.CHARGE_PER_LENGTH: MeasureFacts(
        Dimension.LINEAR_MASS, Over.SYSTEM, "additional charge over the sum of the lengths of the runs"
    ),
}

_LENGTHS, _ORIGIN, _WHERE, _UPSIZED = "lengths", "origin", "where", "upsized_main"

#: The keys of a variant that a measure takes; any other beside it is a fault.
VARIANTS: dict[MeasureName, tuple[str, ...]] = {
    _M.FARTHEST_ACTUAL: (_ORIGIN, _WHERE),
    _M.FARTHEST_EQUIVALENT: (_ORIGIN, _UPSIZED, _WHERE),
    _M.NEAREST_FARTHEST_DIFFERENCE: (_LENGTHS, _ORIGIN, _UPSIZED, _WHERE),
    _M.AFTER_FIRST_BRANCH: (_LENGTHS, "first_branch_allowance", _WHERE),
    _M.LAST_JOINT_TO_UNIT: (_LENGTHS, _WHERE),
    _M.MAIN_LENGTH: (_LENGTHS,),
    _M.JOINT_SPACING: (_LENGTHS,),
    _M.TOTAL_LENGTH: (_LENGTHS, _ORIGIN, "upsized_twice", "module_pipes", "each_tube"),
    _M.FITTING_COUNT: ("in_all", _WHERE),
    _M.MODULE_PIPE: (_LENGTHS,),
    _M.MODULE_PIPE_TOTAL: (_LENGTHS,),
    _M.MODULE_PIPE_DIFFERENCE: (_LENGTHS,),
    _M.LEVEL_OUTDOOR_ABOVE: (_WHERE,),
    _M.LEVEL_OUTDOOR_BELOW: (_WHERE,),
    _M.LEVEL_BETWEEN_INDOOR: (_WHERE,),
    _M.LEVEL_UNIT_TO_JOINT: (_WHERE,),
    _M.JOINT_TO_BOX: (_LENGTHS,),
    _M.BOX_TO_UNIT: (_LENGTHS, _WHERE),
    _M.LEVEL_WITHIN_BOX: (_WHERE,),
    _M.INDOOR_COUNT: (_WHERE,),
    _M.CONNECTION_RATIO: ("count_by", _WHERE),
    _M.INDEX_SHARE: (_WHERE,),
    _M.SMALLEST_INDEX: (_WHERE,),
    _M.LARGEST_INDEX_SHARE: (_WHERE,),
}
