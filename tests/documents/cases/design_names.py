"""Names of a design: twice, unknown, not fit to be one."""

from tests.documents.texts import DESIGN, case

ID_RULE = "letters, digits, spaces, dots, dashes and the like, without / : @ [ ]"
J1 = "{from: outdoor, to: J1, length: 24 m, bends: 4}"
U1 = "{from: J1, to: U1, length: 9 m, bends: 2}"
J2 = "{from: J1, to: J2, length: 6 m, bends: 1}"
U2 = "{from: J2, to: U2, length: 5 m}"
ROOM = "{id: store, level: ground, area: 20 m2, height: 3 m, cooling: 3.5 kW, sensible: 2.4 kW, heating: 2.5 kW}"
SYSTEM = DESIGN[DESIGN.index("  - id: main") :]

CASES = (
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
            "the id '1/2' holds '/', which separates the parts of a result's name",
            ID_RULE,
        ),
        ("systems[0].units[2].room", "store", "there is no room 'store'", "one of 1/2, office, workshop"),
    ),
    case(
        "id with a colon",
        "- id: main",
        "- id: «a:b",
        ("systems[0].id", "a:b", "the id 'a:b' holds ':', which separates the parts of a result's name", ID_RULE),
    ),
    case(
        "id with a line break",
        "- id: main",
        '- id: «"a\\nb"',
        ("systems[0].id", "a\nb", r"the id 'a\nb' holds '\n', which does not show", ID_RULE),
    ),
    case(
        "id with a letter that has no width",
        "- id: main",
        '- id: «"a\\u200bb"',
        ("systems[0].id", "a\u200bb", r"the id 'a\u200bb' holds '\u200b', which does not show", ID_RULE),
    ),
    case(
        "id with an at sign",
        "- id: main",
        "- id: «a@b",
        ("systems[0].id", "a@b", "the id 'a@b' holds '@', which separates the parts of a result's name", ID_RULE),
    ),
    case(
        "id with brackets",
        "- id: main",
        "- id: «a[0]",
        ("systems[0].id", "a[0]", "the id 'a[0]' holds '[', which separates the parts of a result's name", ID_RULE),
    ),
    case(
        "point of the pipe with a colon",
        "{from: J2, to: U3, length: 11 m}",
        "{from: J2, to: U3, length: 11 m}\n      - {from: J2, to: «'J:3', length: 1 m}",
        (
            "systems[0].runs[5].to",
            "J:3",
            "the id 'J:3' holds ':', which separates the parts of a result's name",
            ID_RULE,
        ),
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
    case(
        "module twice",
        "{modules: [outdoor 16], elevation: 8 m}",
        "{modules: «[{model: outdoor 16, id: A}, {model: outdoor 16, id: «A}], elevation: 8 m}",
        (
            "systems[0].outdoor.modules",
            "a list",
            "'outdoor 16 + outdoor 16' is no group in the book 'minimal'",
            "'outdoor 16'",
        ),
        ("systems[0].outdoor.modules[1].id", "A", "the name 'A' is used twice, first on line 21", "each name once"),
    ),
    case(
        "system twice",
        DESIGN[DESIGN.index("systems:") :],
        DESIGN[DESIGN.index("systems:") :] + SYSTEM.replace("id: main", "id: «main"),
        ("systems[1].id", "main", "the name 'main' is used twice, first on line 19", "each name once"),
    ),
)
