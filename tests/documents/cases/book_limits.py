"""Limits and size actions of a book."""

from tests.documents.texts import case

LENGTH = "a length such as 12 m, 40 ft or 12'-6\""

TOTAL = "{measure: total_length, max: 120 m, page: 7}"
NEED = "{measure: last_joint_to_unit, max: 15 m}"

CASES = (
    case(
        "unknown measure, whose bound is then not judged",
        TOTAL,
        "{measure: «total_lenght, max: 120 kg, page: 7}",
        ("limits[2].measure", "total_lenght", "'total_lenght' is not known here", "'total_length'"),
    ),
    case(
        "bound of another dimension",
        TOTAL,
        "{measure: total_length, max: «120 kg, page: 7}",
        ("limits[2].max", "120 kg", "this is a mass, not a length", LENGTH),
    ),
    case(
        "bound without a unit",
        TOTAL,
        "{measure: total_length, max: «120, page: 7}",
        ("limits[2].max", "120", "this is a number without a unit, not a length", LENGTH),
    ),
    case(
        "bound that is negative",
        TOTAL,
        "{measure: total_length, max: «-120 m, page: 7}",
        ("limits[2].max", "-120 m", "the bound is negative, which no measure is", "zero or more"),
    ),
    case(
        "no bound",
        TOTAL,
        "«{measure: total_length, page: 7}",
        ("limits[2]", "a mapping", "the limit has no bound", "max: or min:"),
    ),
    case(
        "bound that no group states",
        TOTAL,
        "{measure: total_length, max: «group, page: 7}",
        (
            "limits[2].max",
            "group",
            "an outdoor group states no bound on total_length",
            "a value, or one of indoor_count, connection_ratio",
        ),
    ),
    case(
        "word for a bound",
        TOTAL,
        "{measure: total_length, max: «grupp, page: 7}",
        (
            "limits[2].max",
            "grupp",
            "'grupp' is not known here",
            (
                "a number with its unit such as 12 m, 40 ft, 5.6 kW or 35 C, or 'group', or 'box', or keys such as by, "
                "rows"
            ),
        ),
    ),
    case(
        "relaxed bound that is no wider",
        "- max: 30 m",
        "- max: «15 m",
        (
            "limits[3].relaxed[0].max",
            "15 m",
            "the relaxed bound is not wider than the plain one",
            "more than 15 m",
        ),
    ),
    case(
        "relaxed bound on the other side",
        "- max: 30 m",
        "- min: «30 m",
        ("limits[3].relaxed[0].min", "30 m", "the limit has no min that could be relaxed", "a limit with min:"),
    ),
    case(
        "need of two things",
        NEED,
        "«{measure: last_joint_to_unit, declared: x, max: 15 m}",
        (
            "limits[3].relaxed[0].needs[0]",
            "a mapping",
            "a need is one thing, this is measure and declared",
            "one of measure:, action:, declared:, option:",
        ),
    ),
    case(
        "need without a bound",
        NEED,
        "«{measure: last_joint_to_unit}",
        (
            "limits[3].relaxed[0].needs[0]",
            "a mapping",
            "the measure that is needed has no bound",
            "max: or min:",
        ),
    ),
    case(
        "condition with two bounds",
        "when: {measure: farthest_equivalent, over: 60 m}",
        "when: {measure: farthest_equivalent, over: 60 m, at_least: 60 m}",
        (
            "sizing.actions[0].when",
            "a mapping",
            "the condition has the bounds over and at_least",
            "one of over:, under:, at_least:, at_most:",
        ),
    ),
    case(
        "size action on a line that a heat pump lacks",
        "lines: [gas, liquid]",
        "lines: [gas, «suction]",
        ("sizing.actions[0].lines[1]", "suction", "a heat pump has no suction line", "gas or liquid"),
    ),
    case(
        "size action of no step",
        "steps: 1\n",
        "steps: «0\n",
        ("sizing.actions[0].steps", "0", "the size action goes up no step", "1 or more"),
    ),
    case(
        "actual length times a factor",
        "{measure: farthest_actual, max: 70 m, page: 7}",
        "{measure: nearest_farthest_difference, lengths: actual, upsized_main: «{1: 0.5}, max: 70 m, page: 7}",
        ("limits[0].upsized_main", "a mapping", "an actual length is never multiplied", "an equivalent length"),
    ),
    case(
        "variant of another measure",
        "{measure: farthest_actual, max: 70 m, page: 7}",
        "{measure: farthest_actual, upsized_main: «{1: 0.5}, max: 70 m, page: 7}",
        (
            "limits[0].upsized_main",
            "a mapping",
            "the measure farthest_actual takes no upsized_main",
            "it takes origin, where",
        ),
    ),
    case(
        "variant of a measure that has none",
        "{measure: header_depth, max: 0, page: 7}",
        "{measure: header_depth, each_tube: «yes, max: 0, page: 7}",
        ("limits[8].each_tube", "yes", "the measure header_depth takes no each_tube", "it takes no variant"),
    ),
    case(
        "filter beside all fittings",
        "{measure: header_depth, max: 0, page: 7}",
        "{measure: fitting_count, in_all: true, where: «{kind: [cassette]}, max: 9, page: 7}",
        (
            "limits[8].where",
            "a mapping",
            "with in_all the fittings of the whole system count, whatever the units",
            "no where",
        ),
    ),
    case(
        "far units of a measure without units",
        "when: {measure: farthest_equivalent, over: 60 m}\n      runs: main ",
        "when: {measure: total_length, over: 60 m}\n      paths: «each-far\n      runs: unit-run ",
        (
            "sizing.actions[0].paths",
            "each-far",
            "which units are far does not follow from total_length",
            "paths: all, or a when: on a measure that runs over units",
        ),
    ),
    case(
        "too many elective size actions",
        "  actions:\n",
        "  actions:\n" + "".join(f"    - {{id: a{i}, runs: main, lines: [gas]}}\n" for i in range(7)),
        (
            "sizing.actions",
            "a list",
            "7 size actions are elective (without when:)",
            "at most 6: every subset of them is tried",
        ),
    ),
    case(
        "size action on no line",
        "lines: [gas, liquid]",
        "lines: «[]",
        ("sizing.actions[0].lines", "a list", "the size action touches no line", "gas, liquid or both"),
    ),
    case(
        "relaxed bound of two sides",
        "- max: 30 m",
        "- «max: 30 m\n        min: 1 m",
        ("limits[3].relaxed[0]", "a mapping", "a relaxed limit has one bound", "either max: or min:"),
    ),
    case(
        "need of a declaration with a bound",
        NEED,
        "{declared: high lift, max: «15 m}",
        (
            "limits[3].relaxed[0].needs[0].max",
            "15 m",
            "a need of declared has no bound",
            "a bound only beside measure:",
        ),
    ),
    case(
        "flag that is neither yes nor no",
        TOTAL,
        "{measure: total_length, upsized_twice: «maybe, max: 120 m, page: 7}",
        ("limits[2].upsized_twice", "maybe", "'maybe' is neither yes nor no", "yes or no"),
    ),
    case(
        "list for a flag",
        TOTAL,
        "{measure: total_length, upsized_twice: «[yes], max: 120 m, page: 7}",
        ("limits[2].upsized_twice", "a list", "this is neither yes nor no", "yes or no"),
    ),
)
