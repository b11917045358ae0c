"""Numbers and sizes of a book that cannot be."""

from tests.documents.texts import case

CASES = (
    case(
        "index of zero",
        "{modules: [outdoor 16], index: 16,",
        "{modules: [outdoor 16], index: «0,",
        ("outdoor.groups[0].index", "0", "'index' is not above zero", "more than zero"),
    ),
    case(
        "negative rating",
        "cooling: 3.6 kW, sensible",
        "cooling: «-3.6 kW, sensible",
        ("indoor.models[0].cooling", "-3.6 kW", "'cooling' is not above zero", "more than zero"),
    ),
    case(
        "sensible above total",
        "sensible: 2.7 kW",
        "sensible: «3.7 kW",
        (
            "indoor.models[0].sensible",
            "3.7 kW",
            "the sensible capacity is more than the total, of which it is a part",
            "less",
        ),
    ),
    case(
        "negative charge",
        "group: {outdoor 16: 0.4 kg}",
        "group: {outdoor 16: «-0.4 kg}",
        ("charge.group.outdoor 16", "-0.4 kg", "the charge is negative", "zero or more"),
    ),
    case(
        "negative equivalent length",
        "bend: 0.3 m",
        "bend: «-0.3 m",
        ("fittings.allowance.bend", "-0.3 m", "an equivalent length is negative", "zero or more"),
    ),
    case(
        "size that is not on the ladder",
        "{upto: 16, gas: 22.22 mm",
        "{upto: 16, gas: «22.5 mm",
        (
            "sizing.main.rows[0].gas",
            "22.5 mm",
            "22.5 mm is not on the ladder of gas tubes",
            "a size that stands under tubes",
        ),
    ),
    case(
        "size twice on the ladder, in another system of units",
        "liquid: [6.35 mm, 9.52 mm, 12.7 mm]",
        "liquid: [6.35 mm, 9.52 mm, «3/8 in, 12.7 mm]",
        ("tubes.liquid[2]", "3/8 in", "the size stands twice on the ladder", "each size once"),
    ),
    case(
        "size twice among keys, in another system of units",
        "liquid: {6.35 mm: 0.020 kg/m,",
        "liquid: {6.35 mm: 0.020 kg/m, «1/4 in: 0.020 kg/m,",
        ("charge.liquid.1/4 in", "1/4 in", "'1/4 in' stands twice, once in another spelling", "each key once"),
    ),
    case(
        "key that is no tube size",
        "liquid: {6.35 mm: 0.020 kg/m,",
        "liquid: {«6.35: 0.020 kg/m,",
        (
            "charge.liquid.6.35",
            "6.35",
            'the unit of "6.35" is missing',
            "a tube size such as 15.88 mm, 5/8 in or 1-1/8 in",
        ),
    ),
    case(
        "no size for a line",
        "- {upto: 16, gas: 22.22 mm, liquid: 9.52 mm}",
        "- «{upto: 16, gas: 22.22 mm}",
        ("sizing.main.rows[0].liquid", "a mapping", "there is no liquid size", "liquid: a tube size"),
    ),
    case(
        "line misspelt, of which no more is said",
        "- {upto: 16, gas: 22.22 mm, liquid: 9.52 mm}",
        "- {upto: 16, gas: 22.22 mm, «liqid: 9.52 mm}",
        ("sizing.main.rows[0].liqid", "liqid", "the key 'liqid' is not known here", "'liquid'"),
    ),
    case(
        "header of one port",
        "ports: 4,",
        "ports: «1,",
        ("fittings.header.rows[0].ports", "1", "a header has at least two ports", "2 or more"),
    ),
    case(
        "table by tube, without tubes",
        "first: {rows: [{upto: 16, model: joint B}]}",
        "first: {by: tube, rows: [«{upto: 16, model: joint B}]}",
        (
            "fittings.first.rows[0].gas",
            "a mapping",
            "the table is by tube, and the row names no gas tube",
            "gas: the largest tube that enters the fitting",
        ),
    ),
    case(
        "main by group, without groups",
        "      - {upto: 16, gas: 22.22 mm, liquid: 9.52 mm}\n  branch",
        "      - «{upto: 16, gas: 22.22 mm, liquid: 9.52 mm}\n    by: group\n  branch",
        (
            "sizing.main.rows[0].group",
            "a mapping",
            "the main is looked up by group, and the row names none",
            "group: the name of a group",
        ),
    ),
    case(
        "rounding step that is none",
        "round: {step: 0.1 kg",
        "round: {step: «0 kg",
        ("charge.round.step", "0 kg", "'0 kg' is not a step", "a mass above zero such as 0.1 kg or 0.1 lb"),
    ),
    case(
        "least value above the largest",
        "{min: 50 %, max: 130 %}",
        "{min: «150 %, max: 130 %}",
        (
            "outdoor.groups[0].connection_ratio.min",
            "150 %",
            "the least value is above the largest",
            "min below max",
        ),
    ),
    case(
        "wall that fills its tube",
        "wall: {6.35 mm: 0.8 mm,",
        "wall: {6.35 mm: 8 mm,",
        ("tubes.wall", "a mapping", "a tube of 6.35 mm cannot have a wall of 8 mm", "a wall"),
    ),
    case(
        "least charge above the largest",
        "  max: 8 kg",
        "  min: «9 kg\n  max: 8 kg",
        ("charge.min", "9 kg", "the least charge is above the largest", "min below max"),
    ),
    case(
        "negative rate of charge",
        "12.7 mm: 0.095 kg/m}",
        "12.7 mm: -0.095 kg/m}",
        (
            "charge.liquid",
            "a mapping",
            "a tube of 12.7 mm cannot hold -0.095 kg/m",
            "zero or more for a tube of a size",
        ),
    ),
    case(
        "branches by something else than their index",
        "  branch:                        # by the sum of indoor indices downstream\n",
        "  branch:\n    by: «smaller\n",
        (
            "sizing.branch.by",
            "smaller",
            "only the main is looked up by something else than its index",
            "no key 'by' here",
        ),
    ),
    case(
        "row for one group among rows for indices",
        "- {upto: 16, gas: 22.22 mm, liquid: 9.52 mm}",
        "- {group: «outdoor 16, upto: 16, gas: 22.22 mm, liquid: 9.52 mm}",
        (
            "sizing.main.rows[0].group",
            "outdoor 16",
            "a row is for one group only where the main is looked up by group",
            "sizing.main with by: group",
        ),
    ),
    case(
        "main by group, without a row for one",
        "      - {upto: 16, gas: 22.22 mm, liquid: 9.52 mm}\n  branch",
        "      - {group: other, upto: 16, gas: 22.22 mm, liquid: 9.52 mm}\n    by: group\n  branch",
        (
            "outdoor.groups[0]",
            "a mapping",
            "no row of sizing.main is for the group 'outdoor 16'",
            "a row for each group",
        ),
        ("sizing.main.rows[0].group", "other", "there is no outdoor group 'other' in this book", "'outdoor 16'"),
    ),
    case(
        "no ladder for a line",
        "  gas: [12.7 mm, 15.88 mm, 19.05 mm, 22.22 mm, 25.4 mm]\n",
        "  gas: «[]\n",
        ("tubes.gas", "a list", "there is no ladder of gas tubes", "gas: a list of tube sizes"),
    ),
    case(
        "tube of no size",
        "liquid: [6.35 mm, 9.52 mm, 12.7 mm]",
        "liquid: [«0 mm, 6.35 mm, 9.52 mm, 12.7 mm]",
        ("tubes.liquid[0]", "0 mm", "a tube has no size", "a tube size such as 15.88 mm"),
    ),
)
