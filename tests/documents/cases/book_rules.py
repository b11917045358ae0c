"""Conditions, options, requirements, pressures and charge terms of a book."""

from tests.documents.texts import case

RATIO = "{measure: connection_ratio, min: group, max: group, page: 2}"
WHEN = "when: {measure: farthest_equivalent, over: 60 m}"
MAX = "max: 8 kg                      # additional charge"
CONDITION = "one of measure:, declared:, option:, not_option:, site:"
SHAPE = "rate:, add:, each: or rows:"


def term(name: str, text: str, *faults: tuple[str, str, str, str]) -> object:
    """One charge term in place of the cap."""
    return case(name, f"  {MAX}", f"  terms: [{text}]", *faults)


CASES = (
    case(
        "condition of two things",
        WHEN,
        "when: «{measure: farthest_equivalent, declared: lifted, over: 60 m}",
        ("sizing.actions[0].when", "a mapping", "a condition is one thing, this is measure and declared", CONDITION),
    ),
    case(
        "condition of a declaration with a bound",
        WHEN,
        "when: {declared: lifted, over: «60 m}",
        (
            "sizing.actions[0].when.over",
            "60 m",
            "a condition of declared has no bound",
            "a bound only beside measure: or site:",
        ),
    ),
    case(
        "condition on an option that is none",
        WHEN,
        "when: {option: «high-lift}",
        (
            "sizing.actions[0].when.option",
            "high-lift",
            "there is no option 'high-lift' in this book",
            "no option: the book has none",
        ),
    ),
    case(
        "load of some rooms",
        RATIO,
        "{measure: connection_ratio, count_by: simultaneous, where: «{kind: [cassette]}, max: 1.2, page: 2}",
        ("limits[10].where", "a mapping", "the load of the rooms is that of all units", "no where"),
    ),
    case(
        "low side above the high side",
        "refrigerant: R-32\n",
        "refrigerant: R-32\npressures: {high: 4 MPa, low: «5 MPa}\n",
        (
            "pressures.low",
            "5 MPa",
            "the pressure of the low side is above that of the high side",
            "low below high",
        ),
    ),
    term(
        "charge term of no shape",
        "«{name: x}",
        ("charge.terms[0]", "a mapping", f"a charge term has one of {SHAPE}, this has none", SHAPE),
    ),
    term(
        "rate of a unit",
        "{name: x, per: «unit, rate: 0.1 kg/m}",
        ("charge.terms[0].per", "unit", "a term with rate: is not per unit", "per: length and rate: go together"),
    ),
    term(
        "length of no line",
        "«{name: x, per: length, rate: 0.1 kg/m}",
        ("charge.terms[0].lines", "a mapping", "a term per length names no line", "lines: [liquid], say"),
    ),
    term(
        "beyond a length with rates by tube",
        "{name: x, per: length, lines: [liquid], beyond: «9 m, rate: {9.52 mm: 0.1 kg/m}}",
        (
            "charge.terms[0].beyond",
            "9 m",
            "only a term per length with a single rate is beyond a length",
            "no beyond here",
        ),
    ),
    term(
        "names of a system",
        "{name: x, each: «{main: 1 kg}}",
        ("charge.terms[0].each", "a mapping", "a term per system has no names", "per: unit, module, box or group"),
    ),
    term(
        "bands of nothing",
        "{name: x, rows: «[{upto: 9, add: 1 kg}]}",
        (
            "charge.terms[0].rows",
            "a list",
            "bands are of a measure, or of the index of a unit, module or box",
            "by: a measure",
        ),
    ),
    term(
        "charge that hangs on the charge",
        "{name: x, by: «total_charge, rows: [{upto: 9 kg, add: 1 kg}]}",
        ("charge.terms[0].by", "total_charge", "a charge term cannot hang on the charge", "another measure"),
    ),
)
