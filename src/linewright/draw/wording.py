"""How the sheet names measures, checks and standings, and prints quantities that may be unknown."""

from __future__ import annotations

from functools import cache

from linewright.book.measures import MeasureName
from linewright.engine.records import Check, CheckKind, MeasureResult, Sense, Standing
from linewright.units import Dimension, UnitSystem, show, show_number

UNKNOWN = "?"
NONE = "–"
OVER_SIGN = "▲"
UNJUDGED_SIGN = "?"
CONDITIONS_SIGN = "◇"
CONFIRM_SIGN = "□"

SIGNS = {
    Standing.OVER: OVER_SIGN,
    Standing.UNJUDGED: UNJUDGED_SIGN,
    Standing.TO_CONFIRM: CONFIRM_SIGN,
    Standing.ON_CONDITIONS: CONDITIONS_SIGN,
}

# Standings whose note on a limit is its variant; with the others it says why.
JUDGED = (Standing.WITHIN, Standing.ON_CONDITIONS, Standing.OVER, Standing.UNJUDGED)

_M = MeasureName
_MEASURES = frozenset(MeasureName)
NAMES = {
    _M.FARTHEST_ACTUAL: "farthest length",
    _M.FARTHEST_EQUIVALENT: "farthest length, equivalent",
    _M.AFTER_FIRST_BRANCH: "after first branch",
    _M.LAST_JOINT_TO_UNIT: "last joint to unit",
    _M.NEAREST_FARTHEST_DIFFERENCE: "nearest to farthest unit",
    _M.MAIN_LENGTH: "main",
    _M.JOINT_SPACING: "joint spacing",
    _M.STRAIGHT_BEFORE: "straight before a joint",
    _M.STRAIGHT_AFTER: "straight after a joint",
    _M.FITTING_INDEX: "index through a fitting",
    _M.HEADER_PORT_INDEX: "index through a header port",
    _M.ARM_INDEX_SHARE: "share of one arm of a joint",
    _M.FITTING_COUNT: "fittings on the way",
    _M.TOTAL_LENGTH: "total length",
    _M.MODULE_PIPE: "module pipe",
    _M.MODULE_PIPE_TOTAL: "module pipes, total",
    _M.MODULE_PIPE_DIFFERENCE: "module pipes, difference",
    _M.MODULE_PIPE_RISE: "module pipe, rise",
    _M.RISE_WITHOUT_TRAP: "rise without trap",
    _M.LEVEL_OUTDOOR_ABOVE: "level, outdoor above",
    _M.LEVEL_OUTDOOR_BELOW: "level, outdoor below",
    _M.LEVEL_BETWEEN_INDOOR: "level between indoor units",
    _M.LEVEL_BETWEEN_MODULES: "level between modules",
    _M.LEVEL_UNIT_TO_JOINT: "level, unit to joint",
    _M.HEADER_DEPTH: "branches after a header",
    _M.INDOOR_COUNT: "indoor units",
    _M.CONNECTION_RATIO: "connection ratio",
    _M.INDEX_SHARE: "share of some units",
    _M.SMALLEST_INDEX: "smallest index",
    _M.LARGEST_INDEX_SHARE: "largest share of one unit",
    _M.MODULE_ORDER: "modules out of order",
    _M.JOINT_TO_BOX: "joint to mode box",
    _M.BOX_TO_UNIT: "mode box to unit",
    _M.LEVEL_BETWEEN_BOXES: "level between mode boxes",
    _M.LEVEL_WITHIN_BOX: "level between units of a mode box",
    _M.BOX_INDEX: "index on a mode box",
    _M.THROUGH_INDEX: "index carried on by a mode box",
    _M.PORT_INDEX: "index on a port",
    _M.UNITS_PER_PORT: "units on a port",
    _M.BOXES_IN_SERIES: "mode boxes in series",
    _M.BOX_COUNT: "mode boxes",
    _M.ADDITIONAL_CHARGE: "additional charge",
    _M.TOTAL_CHARGE: "total charge",
    _M.CHARGE_PER_LENGTH: "charge per length",
}


@cache
def measure_words(measure: str) -> str:
    """Give a measure's name in words; what is no measure is only freed of underscores."""
    head, _, rest = measure.partition(" ")
    name = NAMES[MeasureName(head)] if head in _MEASURES else head.replace("_", " ")
    return f"{name} {rest}" if rest else name


def limit_name(check: Check, measured: MeasureResult | None = None) -> str:
    """Give the name under which a limit stands on the sheet, with its variant."""
    variant = measured.variant if measured else check.note if check.standing in JUDGED else ""
    words = measure_words(check.measure)
    return f"{words}, {variant}" if variant else words


def check_name(check: Check) -> str:
    """Give the name of any check: what was judged, and of what."""
    match check.kind:
        case CheckKind.LIMIT:
            return limit_name(check)
        case CheckKind.ROOM:
            return f"{check.measure}, {check.governs[0]}" if check.governs else check.measure
        case CheckKind.CAPACITY:
            return f"{measure_words(check.measure)}, block load"
        case CheckKind.REFRIGERANT:
            return f"{measure_words(check.measure)}, {check.subject.partition('refrigerant')[2][1:]}"
        case CheckKind.PIPEWORK:
            what = check.subject.partition(":")[2].replace("_", " ")
            what = f"{what} mm" if check.measure == "strength" else what
            return f"{measure_words(check.measure)}, {what}" if what else measure_words(check.measure)
        case CheckKind.CHARGE:
            return measure_words(check.measure)
        case _:
            return f"{subject_words(check.subject)}, {measure_words(check.measure)}"


def subject_words(subject: str) -> str:
    """Give `run J2 gas` of `main/run:J2.gas`."""
    return subject.rpartition("/")[2].replace(":", " ").replace(".", " ")


def missing_words(missing: tuple[str, ...], *, most: int = 4) -> str:
    """Name what is missing, the first few where it is much."""
    rest = len(missing) - most
    words = ", ".join(missing[:most] if rest > 0 else missing)
    return f"{words} and {rest} more" if rest > 0 else words


def number(value: float | None, dimension: Dimension, system: UnitSystem, *, places: int | None = None) -> str:
    """Give a number without its unit, or the mark of the unknown."""
    return UNKNOWN if value is None else show_number(value, dimension, system, places=places)


def quantity(value: float | None, dimension: Dimension, system: UnitSystem) -> str:
    """Give a quantity with its unit, or the mark of the unknown."""
    return UNKNOWN if value is None else show(value, dimension, system)


def used_of_allowed(check: Check, system: UnitSystem) -> str:
    """Give what is used against what is allowed."""
    used = number(check.value, check.dimension, system)
    if check.value is not None and check.standing is Standing.UNJUDGED:
        used = f"at least {used}" if check.sense is Sense.MAX else f"so far {used}"
    if check.standing is Standing.TO_CONFIRM:
        used = f"advisory: {used}"
    if check.bound is None:
        return f"{quantity(check.value, check.dimension, system)}, no bound"
    bound = show(check.bound, check.dimension, system)
    return f"{used} of {bound}" if check.sense is Sense.MAX else f"{used}, needs {bound}"


def standing_words(check: Check, system: UnitSystem) -> str:
    """Say a standing other than `within` in words: by how much over, on which plain bound, what is missing."""
    match check.standing:
        case Standing.WITHIN:
            return ""
        case Standing.OVER:
            by = "" if check.margin is None else f" by {show(abs(check.margin), check.dimension, system)}"
            word = "over" if check.sense is Sense.MAX else "short"
            return word + by
        case Standing.ON_CONDITIONS:
            plain = "" if check.plain_bound is None else f", plain {show(check.plain_bound, check.dimension, system)}"
            return f"on conditions{plain}"
        case Standing.UNJUDGED:
            return _lacking("unjudged", check)
        case Standing.TO_CONFIRM:
            return _lacking("to confirm", check)
        case Standing.NOT_APPLICABLE | Standing.UNSTATED:
            return str(check.standing)


def _lacking(standing: str, check: Check) -> str:
    missing = missing_words(check.missing)
    return f"{standing}: {missing}" if missing else standing
