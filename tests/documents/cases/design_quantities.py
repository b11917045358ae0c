"""Quantities and counts of a design."""

from tests.documents.texts import case

LENGTH = "a length such as 12 m, 40 ft or 12'-6\""
POWER = "a power such as 5.6 kW, 19.1 MBH or 18 tons"
COUNT = "a whole number, 0 or more"
J1 = "{from: outdoor, to: J1, length: 24 m, bends: 4}"
U1 = "{from: J1, to: U1, length: 9 m, bends: 2}"
RUNS = "systems[0].runs"

CASES = (
    case(
        "missing unit",
        "length: 9 m",
        "length: «9",
        (f"{RUNS}[1].length", "9", 'the unit of "9" is missing', LENGTH),
    ),
    case(
        "unit of another dimension",
        "length: 9 m",
        "length: «9 kg",
        (f"{RUNS}[1].length", "9 kg", '"9 kg" is a mass, not a length', LENGTH),
    ),
    case(
        "unit that is spelt otherwise",
        "cooling: 6.4 kW",
        "cooling: «6.4 kw",
        ("rooms[0].cooling", "6.4 kw", '"kw" in "6.4 kw" is not a known unit; is kW meant?', POWER),
    ),
    case(
        "decimal comma",
        "length: 9 m",
        'length: «"9,5 m"',
        (
            f"{RUNS}[1].length",
            "9,5 m",
            'the comma in "9,5 m" may be a decimal or a thousands sign: write 1000 or 1.0',
            LENGTH,
        ),
    ),
    case(
        "negative length",
        "length: 9 m",
        "length: «-9 m",
        (f"{RUNS}[1].length", "-9 m", "the length -9 m is negative", "zero or more"),
    ),
    case(
        "negative area",
        "area: 60 m2",
        "area: «-60 m2",
        ("rooms[0].area", "-60 m2", "the area -60 m2 is negative", "zero or more"),
    ),
    case(
        "not a number",
        "length: 9 m",
        "length: «.nan",
        (f"{RUNS}[1].length", ".nan", '".nan" does not begin with a finite decimal number', LENGTH),
    ),
    case(
        "infinity",
        "length: 9 m",
        "length: «.inf m",
        (f"{RUNS}[1].length", ".inf m", '".inf m" does not begin with a finite decimal number', LENGTH),
    ),
    case(
        "huge number",
        "length: 9 m",
        "length: «1e308 m",
        (f"{RUNS}[1].length", "1e308 m", "'1e308 m' is too large for anything that is built", LENGTH),
    ),
    case(
        "number beyond any float",
        "length: 9 m",
        "length: «1e999 m",
        (f"{RUNS}[1].length", "1e999 m", "the number is too large", LENGTH),
    ),
    case(
        "tiny number",
        "length: 9 m",
        "length: «1e-30 m",
        (f"{RUNS}[1].length", "1e-30 m", "'1e-30 m' is too small for anything that is built", LENGTH),
    ),
    case(
        "underscore in a number",
        "length: 9 m",
        "length: «1_000 m",
        (f"{RUNS}[1].length", "1_000 m", '"1_000 m" does not begin with a plain decimal number', LENGTH),
    ),
    case(
        "hexadecimal number",
        "length: 9 m",
        "length: «0x10 m",
        (f"{RUNS}[1].length", "0x10 m", '"0x10 m" does not begin with a plain decimal number', LENGTH),
    ),
    case(
        "blank value",
        "length: 9 m",
        "length: «",
        (f"{RUNS}[1].length", "", "nothing is written", LENGTH),
    ),
    case(
        "quantity too long to be one",
        "length: 9 m",
        f"length: «{'9' * 5000} m",
        (f"{RUNS}[1].length", "9" * 59 + "…", f'"{"9" * 60}…" is too long for a quantity', LENGTH),
    ),
    case(
        "list for a quantity",
        "length: 9 m",
        "length: «[9 m]",
        (f"{RUNS}[1].length", "a list", "this is not a quantity", LENGTH),
    ),
    case("negative count", "bends: 4", "bends: «-4", (f"{RUNS}[0].bends", "-4", "'-4' is negative", COUNT)),
    case(
        "fraction of a count",
        "bends: 4",
        "bends: «4.5",
        (f"{RUNS}[0].bends", "4.5", "'4.5' is not a whole number", COUNT),
    ),
    case(
        "count with an exponent",
        "bends: 4",
        "bends: «1e3",
        (f"{RUNS}[0].bends", "1e3", "'1e3' is not a whole number", COUNT),
    ),
    case(
        "count that is too large",
        "bends: 4",
        "bends: «99999999999",
        (f"{RUNS}[0].bends", "99999999999", "'99999999999' is too large", COUNT),
    ),
    case(
        "count in digits of another script",
        "bends: 4",
        "bends: «²",
        (f"{RUNS}[0].bends", "²", "'²' is not a whole number", COUNT),
    ),
    case("no count", "bends: 4", "bends: «NO", (f"{RUNS}[0].bends", "NO", "'NO' is not a whole number", COUNT)),
    case("blank count", "bends: 4", "bends: «", (f"{RUNS}[0].bends", "", "nothing is written here", COUNT)),
    case(
        "list for a count",
        "bends: 4",
        "bends: «[4]",
        (f"{RUNS}[0].bends", "a list", "this is not a whole number", COUNT),
    ),
    case(
        "rise longer than its run",
        U1,
        "{from: J1, to: U1, length: 9 m, bends: 2, rise: «-12 m}",
        (
            f"{RUNS}[1].rise",
            "-12 m",
            "the rise -12 m is longer than the run, which is 9 m with its vertical part",
            "at most 9 m up or down",
        ),
    ),
    case(
        "levels farther apart than the run is long",
        f"    runs:\n      - {J1}\n      - {U1}",
        "    fittings: [{id: J1, elevation: 12 m}]\n    runs:\n"
        f"      - {J1}\n      - {{from: J1, to: U1, length: «9 m, bends: 2}}",
        (
            f"{RUNS}[1].length",
            "9 m",
            "the levels of the ends are 9.30 m apart: the rise is longer than the run of 9 m",
            "at least 9.30 m, or other levels",
        ),
    ),
    case(
        "rise that is not that of the levels",
        f"    runs:\n      - {J1}\n      - {U1}",
        "    fittings: [{id: J1, elevation: 5 m}]\n    runs:\n"
        f"      - {J1}\n      - {{from: J1, to: U1, length: 9 m, bends: 2, rise: «3 m}}",
        (
            f"{RUNS}[1].rise",
            "3 m",
            "the rise 3 m is not that of the stated levels",
            "-2.30 m, or other levels",
        ),
    ),
    case(
        "tube of no size",
        U1,
        "{from: J1, to: U1, length: 9 m, bends: 2, override: {gas: «0 mm}}",
        (f"{RUNS}[1].override.gas", "0 mm", "no tube has a size of 0 mm", "a tube size such as 15.88 mm"),
    ),
)
