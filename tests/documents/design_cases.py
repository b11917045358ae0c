"""Everything that can be wrong with a design, each alone in a design that is right otherwise."""

from tests.documents.texts import case

LENGTH = "a length such as 12 m, 40 ft or 12'-6\""
POWER = "a power such as 5.6 kW, 19.1 MBH or 18 tons"
COUNT = "a whole number, 0 or more"
TREE = "a tree: no way back to where the pipe came from"
ID_RULE = "letters, digits, spaces, dots, dashes and the like, without / and :"
J1 = "{from: outdoor, to: J1, length: 24 m, bends: 4}"
U1 = "{from: J1, to: U1, length: 9 m, bends: 2}"
J2 = "{from: J1, to: J2, length: 6 m, bends: 1}"
U2 = "{from: J2, to: U2, length: 5 m}"
U3 = "{from: J2, to: U3, length: 11 m}"
RUNS = "systems[0].runs"
ROOM = "{id: store, level: ground, area: 20 m2, height: 3 m, cooling: 3.5 kW, sensible: 2.4 kW, heating: 2.5 kW}"

KEYS = (
    case(
        "unknown key, near a known one",
        J1,
        "{from: outdoor, to: J1, «lenght: 24 m, bends: 4}",
        (f"{RUNS}[0].lenght", "lenght", "the key 'lenght' is not known here", "'length'"),
    ),
    case(
        "unknown key, near none",
        "id: roof, elevation",
        "id: roof, «zzz: 1, elevation",
        ("site.levels[1].zzz", "zzz", "the key 'zzz' is not known here", "one of id, elevation, name"),
    ),
    case(
        "key in capitals",
        "id: roof, elevation",
        "id: roof, «ELEVATION",
        ("site.levels[1].ELEVATION", "ELEVATION", "the key 'ELEVATION' is not known here", "'elevation'"),
    ),
    case(
        "missing key",
        U2,
        "«{from: J2, to: U2}",
        (f"{RUNS}[3].length", "", "the key 'length' is missing", f"{LENGTH} or 'unknown'"),
    ),
    case(
        "key twice",
        J1,
        "{from: outdoor, to: J1, length: 24 m, bends: 4, «length: 25 m}",
        (f"{RUNS}[0].length", "length", "the key 'length' stands twice, first on line 27", "each key once"),
    ),
    case(
        "key that is no scalar",
        "project: Boat house",
        "project: Boat house\n«? [x, y]\n: 1",
        ("", "a list", "a key is not a plain word", "a key such as length"),
    ),
)

QUANTITIES = (
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
        "fraction of a count", "bends: 4", "bends: «4.5", (f"{RUNS}[0].bends", "4.5", "'4.5' is not a whole number", COUNT)
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
        "list for a count", "bends: 4", "bends: «[4]", (f"{RUNS}[0].bends", "a list", "this is not a whole number", COUNT)
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

PIPES = (
    case(
        "two parents",
        U3,
        U3 + "\n      - {from: J1, to: «U3, length: 4 m}",
        (f"{RUNS}[5].to", "U3", "'U3' has two parents, 'J2' (line 31) and 'J1'", "one run into each point"),
    ),
    case(
        "loop that closes on the way",
        U3,
        U3 + "\n      - {from: J2, to: «J1, length: 4 m}",
        (f"{RUNS}[5].to", "J1", "the run closes a loop: 'J1' leads to 'J2' already", TREE),
    ),
    case(
        "loop that nothing leads to",
        U3,
        U3 + "\n      - {from: J8, to: «J9, length: 4 m}\n      - {from: J9, to: J8, length: 4 m}",
        (f"{RUNS}[5].to", "J9", "the runs go round in a loop: 'J9', 'J8', 'J9'", TREE),
    ),
    case(
        "run to itself",
        U3,
        U3 + "\n      - {from: J9, to: «J9, length: 4 m}",
        (f"{RUNS}[5].to", "J9", "the run leads from 'J9' to itself", "two different points"),
    ),
    case(
        "orphan run, two of them from one place",
        J2,
        J2.replace("J2", "J7"),
        (f"{RUNS}[3].from", "J2", "no run leads to 'J2'", "a run with to: J2; or is 'J7' meant?"),
    ),
    case(
        "orphan unit",
        "      - " + U3,
        "",
        (
            "systems[0].units[2].id",
            "U3",
            "no run leads to the indoor unit 'U3'",
            "a run with to: U3",
        ),
    ),
    case(
        "unit whose run is misspelt",
        U3,
        U3.replace("U3", "U33"),
        (
            "systems[0].units[2].id",
            "U3",
            "no run leads to the indoor unit 'U3'",
            "a run with to: U3; the one to 'U33' on line 31 leads to no indoor unit",
        ),
    ),
    case(
        "outdoor group misspelt",
        J1,
        J1.replace("outdoor", "«outdor"),
        (f"{RUNS}[0].from", "outdor", "no run leads to 'outdor'", "a run with to: outdor; or is 'outdoor' meant?"),
    ),
    case(
        "second run out of the outdoor group",
        J2,
        J2.replace("from: J1", "from: «outdoor"),
        (
            f"{RUNS}[2].from",
            "outdoor",
            "a second run leaves 'outdoor', the first is on line 27",
            "one run from 'outdoor', and a fitting where it branches",
        ),
    ),
    case(
        "run written backwards",
        U1,
        "{from: «U1, to: J1, length: 9 m, bends: 2}",
        (f"{RUNS}[1].from", "U1", "a run leads away from the indoor unit 'U1'", "from: J1, to: U1"),
    ),
    case(
        "run into the outdoor group",
        J1,
        "{from: J1, to: «outdoor, length: 24 m, bends: 4}",
        (f"{RUNS}[0].to", "outdoor", "a run leads into 'outdoor'", "from: outdoor, to: J1"),
    ),
    case(
        "run out of a unit",
        J2,
        J2.replace("from: J1", "from: «U1"),
        (
            f"{RUNS}[2].from",
            "U1",
            "a run leaves the indoor unit 'U1', where the pipe ends",
            "runs that leave 'outdoor' or a fitting",
        ),
    ),
    case(
        "no runs",
        "    runs:\n      - " + "\n      - ".join((J1, U1, J2, U2, U3)),
        "    runs: «[]",
        (RUNS, "a list", "the system has no run", "at least one run, from: outdoor"),
    ),
    case(
        "pipe to no module",
        "elevation: 8 m}\n    units",
        "elevation: 8 m, pipes: [{from: outdoor, to: M2, length: 1 m}]}\n    units",
        (
            "systems[0].outdoor.modules[0]",
            "outdoor 16",
            "no module pipe leads to the outdoor module 'M1'",
            "a module pipe with to: M1; the one to 'M2' on line 21 leads to no outdoor module",
        ),
    ),
    case(
        "fitting that no run ends at",
        "    runs:",
        "    fittings: [{id: «J3, kind: joint}]\n    runs:",
        ("systems[0].fittings[0].id", "J3", "there is no far end of a run 'J3'", "one of J1, J2"),
    ),
    case(
        "fitting that is a unit",
        "    runs:",
        "    fittings: [{id: «U1, kind: joint}]\n    runs:",
        (
            "systems[0].fittings[0].id",
            "U1",
            "'U1' is an indoor unit, not a fitting",
            "the far end of a run that is no unit",
        ),
    ),
    case(
        "kind that no fitting is",
        "    runs:",
        "    fittings: [{id: J1, kind: «module}]\n    runs:",
        ("systems[0].fittings[0].kind", "module", "no fitting is a module", "one of joint, header, coupling"),
    ),
)

NAMES = (
    case(
        "level twice",
        "id: roof",
        "id: «ground",
        ("site.levels[1].id", "ground", "the name 'ground' is used twice, first on line 10", "each name once"),
    ),
    case(
        "room twice",
        ROOM,
        ROOM + "\n  - " + ROOM.replace("id: store", "id: «store"),
        ("rooms[3].id", "store", "the name 'store' is used twice, first on line 16", "each name once"),
    ),
    case(
        "unit twice",
        "id: U2, model",
        "id: «U1, model",
        ("systems[0].units[1].id", "U1", "the name 'U1' is used twice, first on line 23", "each name once"),
    ),
    case(
        "fitting twice",
        "    runs:",
        "    fittings: [{id: J1}, {id: «J1}]\n    runs:",
        ("systems[0].fittings[1].id", "J1", "the name 'J1' is used twice, first on line 26", "each name once"),
    ),
    case(
        "unknown level",
        "id: store, level: ground",
        "id: store, level: «grund",
        ("rooms[2].level", "grund", "there is no level 'grund'", "'ground'"),
    ),
    case(
        "unknown room",
        "room: store",
        "room: «attic",
        ("systems[0].units[2].room", "attic", "there is no room 'attic'", "one of office, store, workshop"),
    ),
    case(
        "unknown book",
        "book: minimal",
        "book: «minimum",
        ("systems[0].book", "minimum", "there is no book 'minimum'", "'minimal'"),
    ),
    case(
        "unknown indoor model",
        "cassette 3.6",
        "«cassette 3.7",
        (
            "systems[0].units[2].model",
            "cassette 3.7",
            "there is no indoor model 'cassette 3.7' in the book 'minimal'",
            "'cassette 3.6'",
        ),
    ),
    case(
        "unknown outdoor model",
        "[outdoor 16]",
        "[«outdoor 61]",
        (
            "systems[0].outdoor.modules[0]",
            "outdoor 61",
            "there is no outdoor module 'outdoor 61' in the book 'minimal'",
            "'outdoor 16'",
        ),
    ),
    case(
        "modules that form no group",
        "[outdoor 16]",
        "«[outdoor 16, outdoor 16]",
        (
            "systems[0].outdoor.modules",
            "a list",
            "'outdoor 16 + outdoor 16' is no group in the book 'minimal'",
            "'outdoor 16'",
        ),
    ),
    case(
        "unknown size action",
        "    runs:",
        "    forbidden_actions: [«long-mane]\n    runs:",
        (
            "systems[0].forbidden_actions[0]",
            "long-mane",
            "there is no size action 'long-mane' in the book 'minimal'",
            "'long-main'",
        ),
    ),
    case(
        "declaration that no limit asks for",
        "    runs:",
        "    declared: [«high lift]\n    runs:",
        (
            "systems[0].declared[0]",
            "high lift",
            "there is no declaration 'high lift' in the book 'minimal'",
            "none: the book has no declaration",
        ),
    ),
    case(
        "blank id",
        "id: U2, model",
        "id: «'', model",
        ("systems[0].units[1].id", "", "nothing is written here", "a text"),
    ),
    case(
        "id with a slash",
        "{id: store, level",
        "{id: «1/2, level",
        (
            "rooms[2].id",
            "1/2",
            "the id '1/2' holds '/', which parts the names of results",
            ID_RULE,
        ),
        ("systems[0].units[2].room", "store", "there is no room 'store'", "one of 1/2, office, workshop"),
    ),
    case(
        "id with a colon",
        "- id: main",
        "- id: «a:b",
        ("systems[0].id", "a:b", "the id 'a:b' holds ':', which parts the names of results", ID_RULE),
    ),
    case(
        "id with a line break",
        "- id: main",
        '- id: «"a\\nb"',
        ("systems[0].id", "a\nb", r"the id 'a\nb' holds '\n', which parts the names of results", ID_RULE),
    ),
    case(
        "id that ends like a result",
        "- id: main",
        "- id: «main.cooling",
        (
            "systems[0].id",
            "main.cooling",
            "the id 'main.cooling' ends like the name of a result, with a dot and 'cooling'",
            "'main-cooling'",
        ),
    ),
    case(
        "id with a space at its end",
        "- id: main",
        "- id: «'main '",
        ("systems[0].id", "main ", "the id 'main ' begins or ends with a space", "'main'"),
    ),
    case(
        "id without end",
        "- id: main",
        f"- id: «{'m' * 61}",
        ("systems[0].id", "m" * 59 + "…", f"the id '{'m' * 60}…' has 61 characters", "at most 60"),
    ),
    case(
        "unit by the name of the outdoor group",
        "id: U2, model",
        "id: «outdoor, model",
        ("systems[0].units[1].id", "outdoor", "'outdoor' is the name of the outdoor group", "another id"),
    ),
)

OTHERS = (
    case(
        "word of a closed set",
        "units: si",
        "units: «metric",
        ("units", "metric", "'metric' is not known here", "one of ip, si"),
    ),
    case(
        "word of a closed set, misspelt",
        U1,
        "{from: J1, to: U1, length: 9 m, bends: 2, location: «indoor}",
        (f"{RUNS}[1].location", "indoor", "'indoor' is not known here", "'indoors'"),
    ),
    case(
        "mapping for a list",
        "    units:\n",
        "    name: x\n    units: «{}\n    ignored:\n",
        (
            "systems[0].units",
            "a mapping",
            "this is not a list",
            "a list, each entry keys such as id, model, room, elevation",
        ),
        (
            "systems[0].ignored",
            "ignored",
            "the key 'ignored' is not known here",
            "one of id, book, outdoor, units, runs, name, fittings, block, declared, forbidden_actions",
        ),
    ),
    case(
        "text for a mapping",
        "cooling: {outdoor_db: 35 C, indoor_wb: 19 C}",
        "cooling: «35 C",
        (
            "site.cooling",
            "35 C",
            "this is not a mapping of keys to values",
            "keys such as outdoor_db, indoor_wb",
        ),
    ),
    case(
        "mapping for a text",
        "project: Boat house",
        "project: «{name: Boat house}",
        ("project", "a mapping", "this is not a text", "a text"),
    ),
    case(
        "system without units",
        "    units:\n      - {id: U1, model: cassette 7.1, room: workshop, elevation: 2.7 m}\n"
        "      - {id: U2, model: cassette 5.6, room: office, elevation: 2.7 m}\n"
        "      - {id: U3, model: cassette 3.6, room: store, elevation: 2.5 m}\n",
        "    units: «[]\n",
        ("systems[0].units", "a list", "the system has no indoor unit", "at least one unit"),
    ),
    case(
        "group without modules",
        "[outdoor 16]",
        "«[]",
        ("systems[0].outdoor.modules", "a list", "the outdoor group has no module", "at least one module"),
    ),
    case(
        "alias",
        "room: store",
        "room: «*store",
        (
            "systems[0].units[2].room",
            "*store",
            "the alias '*store' stands for a value elsewhere",
            "the value written out (a text that begins with * or & stands in quotes)",
        ),
    ),
    case(
        "anchor",
        "project: Boat house",
        "project: «&name Boat house",
        (
            "project",
            "Boat house",
            "the anchor '&name' names a value; anchors and aliases are not used here",
            "the value written out (a text that begins with * or & stands in quotes)",
        ),
    ),
    case(
        "tag",
        "project: Boat house",
        "project: «!!binary aGVsbG8=",
        (
            "project",
            "aGVsbG8=",
            "the tag 'tag:yaml.org,2002:binary' says of which type a value is; tags are not used here",
            "the value alone (a text that begins with ! stands in quotes)",
        ),
    ),
)

DESIGN_CASES = (*KEYS, *QUANTITIES, *PIPES, *NAMES, *OTHERS)
