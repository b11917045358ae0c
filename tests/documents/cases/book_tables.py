"""Capacity tables of a book: axes and factors."""

from tests.documents.texts import case

COOLING = "factor: [[0.99, 1.05, 1.11], [0.94, 1.00, 1.06], [0.87, 0.93, 0.99]]"
DEFROST = "{page: 9, outdoor_wb: [-10 C, -2 C, 6 C], factor: [0.96, 0.88, 1.00]}"

CASES = (
    case(
        "axis that does not ascend",
        "equivalent: [7.5 m, 45 m, 85 m]",
        "equivalent: [7.5 m, 85 m, «45 m]",
        (
            "capacity.cooling.length.equivalent[2]",
            "45 m",
            "the entry is not above the one before it",
            "entries in ascending order, each once",
        ),
    ),
    case(
        "axis entry twice",
        "outdoor_db: [25 C, 35 C, 43 C]",
        "outdoor_db: [25 C, «25 C, 43 C]",
        (
            "capacity.cooling.temperature.outdoor_db[1]",
            "25 C",
            "the entry is not above the one before it",
            "entries in ascending order, each once",
        ),
    ),
    case(
        "too few rows",
        COOLING,
        "factor: «[[0.99, 1.05, 1.11], [0.94, 1.00, 1.06]]",
        (
            "capacity.cooling.temperature.factor",
            "a list",
            "there are 2 rows of factors for 3 entries of outdoor_db",
            "3 rows of factors",
        ),
    ),
    case(
        "too many columns",
        COOLING,
        "factor: [[0.99, 1.05, 1.11], «[0.94, 1.00, 1.06, 1.1], [0.87, 0.93, 0.99]]",
        (
            "capacity.cooling.temperature.factor[1]",
            "a list",
            "the row has 4 factors for 3 entries of indoor_wb",
            "3 factors",
        ),
    ),
    case(
        "too many factors",
        DEFROST,
        "{page: 9, outdoor_wb: [-10 C, -2 C, 6 C], factor: «[0.96, 0.88, 1.00, 1.0]}",
        (
            "capacity.heating.defrost.factor",
            "a list",
            "there are 4 factors for 3 entries of outdoor_wb",
            "3 factors",
        ),
    ),
    case(
        "negative factor",
        DEFROST,
        "{page: 9, outdoor_wb: [-10 C, -2 C, 6 C], factor: [0.96, «-0.88, 1.00]}",
        ("capacity.heating.defrost.factor[1]", "-0.88", "the factor is negative", "zero or more"),
    ),
    case(
        "factor that is no number",
        DEFROST,
        "{page: 9, outdoor_wb: [-10 C, -2 C, 6 C], factor: [0.96, «.nan, 1.00]}",
        (
            "capacity.heating.defrost.factor[1]",
            ".nan",
            "'.nan' is not a number",
            "a number without a unit",
        ),
    ),
    case(
        "axis without entries",
        DEFROST,
        "{page: 9, outdoor_wb: «[], factor: []}",
        ("capacity.heating.defrost.outdoor_wb", "a list", "the axis outdoor_wb has no entries", "at least one"),
    ),
    case(
        "no axis",
        "      outdoor_db: [25 C, 35 C, 43 C]\n",
        "",
        (
            "capacity.cooling.temperature",
            "a mapping",
            "the table has no axis outdoor_db or outdoor_wb",
            "one of outdoor_db, outdoor_wb",
        ),
    ),
    case(
        "two axes",
        "      outdoor_db: [25 C, 35 C, 43 C]\n",
        "      outdoor_db: [25 C, 35 C, 43 C]\n      outdoor_wb: «[5 C, 6 C, 7 C]\n",
        (
            "capacity.cooling.temperature.outdoor_wb",
            "a list",
            "the table has two axes, outdoor_db and outdoor_wb",
            "one of outdoor_db, outdoor_wb",
        ),
    ),
    case(
        "table for a group that does not exist",
        "      outdoor_db: [25 C, 35 C, 43 C]\n",
        "      outdoor_db: [25 C, 35 C, 43 C]\n      groups: [«outdoor 61]\n",
        (
            "capacity.cooling.temperature.groups[0]",
            "outdoor 61",
            "there is no outdoor group 'outdoor 61' in this book",
            "'outdoor 16'",
        ),
    ),
    case(
        "main upsized by no step",
        "level: [-20 m, 0 m, 30 m]\n      factor: [[1.00, 1.00, 1.00], [0.94, 0.95, 0.95], [0.88, 0.90, 0.90]]\n"
        "      upsized_main: {1: 0.5}",
        "level: [-20 m, 0 m, 30 m]\n      factor: [[1.00, 1.00, 1.00], [0.94, 0.95, 0.95], [0.88, 0.90, 0.90]]\n"
        "      upsized_main: {0: «0.5}",
        (
            "capacity.cooling.length.upsized_main.0",
            "0.5",
            "a main that is no step up has no factor",
            "a number of steps, 1 or more",
        ),
    ),
    case(
        "list for a number",
        DEFROST,
        "{page: 9, outdoor_wb: [-10 C, -2 C, 6 C], factor: [0.96, «[0.88], 1.00]}",
        ("capacity.heating.defrost.factor[1]", "a list", "this is not a number", "a number without a unit"),
    ),
    case(
        "blank key",
        "indoor: {cassette 7.1: 0.1 kg}",
        "indoor: {cassette 7.1: 0.1 kg, «'': 0.2 kg}",
        ("charge.indoor.", "", "a key is blank", "a text"),
    ),
    case(
        "no entry",
        "level: [-20 m, 0 m, 30 m]\n      factor: [[1.00, 1.00, 1.00], [0.94, 0.95, 0.95], [0.88, 0.90, 0.90]]\n"
        "      upsized_main: {1: 0.5}",
        "level: [-20 m, 0 m, 30 m]\n      factor: [[1.00, 1.00, 1.00], [0.94, 0.95, 0.95], [0.88, 0.90, 0.90]]\n"
        "      upsized_main: «{}",
        ("capacity.cooling.length.upsized_main", "a mapping", "no entry is given", "entries such as 1: 0.5"),
    ),
)
