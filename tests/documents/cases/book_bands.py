"""Bands of a book: gaps, overlaps, edges."""

from tests.documents.texts import case

NUMBER = "a number without a unit such as 16"
EDGES = "either upto: (the edge belongs to the row) or below: (it does not)"
LOWER_EDGES = "either from: (the edge belongs to the row) or over: (it does not)"
ROW_1 = "{below: 6, gas: 15.88 mm, liquid: 6.35 mm}"
ROW_2 = "{below: 16, gas: 19.05 mm, liquid: 9.52 mm}"
ROW_3 = "{upto: 20.8, gas: 22.22 mm, liquid: 9.52 mm}"
SIZES = "gas: 22.22 mm, liquid: 9.52 mm"
BRANCH = "sizing.branch.rows"

CASES = (
    case(
        "gap between bands",
        ROW_2,
        f"{{from: «8, below: 16, {SIZES}}}",
        (f"{BRANCH}[1].from", "8", "there is a gap between 6 and 8", "from: 6"),
    ),
    case(
        "gap of a single value",
        ROW_2,
        f"{{over: «6, below: 16, {SIZES}}}",
        (f"{BRANCH}[1].over", "6", "6 itself is in neither row", "from: 6"),
    ),
    case(
        "overlap of bands",
        ROW_2,
        f"{{from: «5, below: 16, {SIZES}}}",
        (f"{BRANCH}[1].from", "5", "the rows overlap between 5 and 6", "from: 6"),
    ),
    case(
        "overlap of a single value",
        ROW_1 + "\n      - " + ROW_2,
        f"{{upto: 6, {SIZES}}}\n      - {{from: «6, below: 16, {SIZES}}}",
        (f"{BRANCH}[1].from", "6", "6 itself is in both rows", "over: 6"),
    ),
    case(
        "bands out of order",
        ROW_3,
        f"{{upto: «12, {SIZES}}}",
        (
            f"{BRANCH}[2].upto",
            "12",
            "the row ends at 12, not above 16 where the one before it ends: they overlap",
            "more than 16: rows in ascending order",
        ),
    ),
    case(
        "band that ends before it begins",
        ROW_1,
        f"{{from: 8, below: «6, {SIZES}}}",
        (
            f"{BRANCH}[0].below",
            "6",
            "the row ends at 6, not above 8 where the one before it ends: they overlap",
            "more than 8: rows in ascending order",
        ),
    ),
    case(
        "band without an edge",
        ROW_3,
        f"«{{{SIZES}}}",
        (f"{BRANCH}[2]", "a mapping", "the row has no upper edge", EDGES),
    ),
    case(
        "band with two edges",
        ROW_3,
        f"{{upto: 20.8, below: «21, {SIZES}}}",
        (f"{BRANCH}[2].below", "21", "the row has two upper edges, upto and below", EDGES),
    ),
    case(
        "band with two lower edges",
        ROW_3,
        f"{{from: 16, over: «16, upto: 20.8, {SIZES}}}",
        (f"{BRANCH}[2].over", "16", "the row has two lower edges, from and over", LOWER_EDGES),
    ),
    case(
        "edge of another dimension",
        ROW_3,
        f"{{upto: «20.8 kW, {SIZES}}}",
        (f"{BRANCH}[2].upto", "20.8 kW", "this is a power, not a number without a unit", NUMBER),
    ),
    case(
        "edge that is not understood",
        ROW_2,
        f"{{below: «sixteen, {SIZES}}}",
        (
            f"{BRANCH}[1].below",
            "sixteen",
            '"sixteen" does not begin with a finite decimal number',
            "a number with its unit such as 12 m, 40 ft, 5.6 kW or 35 C",
        ),
    ),
    case(
        "gap of ratios",
        "{upto: 115 %, add: 0.2 kg}",
        "{over: «110 %, upto: 115 %, add: 0.2 kg}",
        ("charge.connection_ratio[1].over", "110 %", "there is a gap between 100 % and 110 %", "over: 100 %"),
    ),
    case(
        "table without rows",
        "rows: [{upto: 16, model: joint B}]",
        "rows: «[]",
        ("fittings.first.rows", "a list", "the table has no rows", "at least one row"),
    ),
)
