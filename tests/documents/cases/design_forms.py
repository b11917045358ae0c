"""Values of another form than is due."""

from tests.documents.texts import case

J1 = "{from: outdoor, to: J1, length: 24 m, bends: 4}"
U1 = "{from: J1, to: U1, length: 9 m, bends: 2}"
J2 = "{from: J1, to: J2, length: 6 m, bends: 1}"
U2 = "{from: J2, to: U2, length: 5 m}"
U3 = "{from: J2, to: U3, length: 11 m}"
RUNS = "systems[0].runs"

CASES = (
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
        "    name: x\n    units: «{}\n    zzz:\n",
        (
            "systems[0].units",
            "a mapping",
            "this is not a list",
            "a list, each entry with keys such as id, model, room, elevation",
        ),
        (
            "systems[0].zzz",
            "zzz",
            "the key 'zzz' is not known here",
            (
                "one of id, book, outdoor, units, runs, name, fittings, block, declared, options, confirmed, "
                "forbidden_actions and 3 more"
            ),
        ),
    ),
    case(
        "blank for a list",
        f"    runs:\n      - {J1}\n      - {U1}\n      - {J2}\n      - {U2}\n      - {U3}",
        "    runs:«",
        (RUNS, "", "nothing is written here", "a list, each entry with keys such as from, to, length, rise"),
    ),
    case(
        "blank for a mapping",
        "cooling: {outdoor_db: 35 C, indoor_wb: 19 C}",
        "cooling:«",
        ("site.cooling", "", "nothing is written here", "keys such as outdoor_db, indoor_wb, indoor_db"),
    ),
    case(
        "text for a mapping",
        "cooling: {outdoor_db: 35 C, indoor_wb: 19 C}",
        "cooling: «35 C",
        (
            "site.cooling",
            "35 C",
            "this is not a mapping of keys to values",
            "keys such as outdoor_db, indoor_wb, indoor_db",
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
        "temperature below any",
        "indoor_wb: 19 C",
        "indoor_wb: «-300 C",
        (
            "site.cooling.indoor_wb",
            "-300 C",
            "'-300 C' is below absolute zero",
            "a temperature such as 35 C or 95 F",
        ),
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
    case(
        "list for a word",
        "units: si",
        "units: «[si]",
        ("units", "a list", "this is not a word", "one of si, ip"),
    ),
    case(
        "list for a text of one's choice",
        "project: Boat house",
        "project: «[Boat house]",
        ("project", "a list", "this is not a text", "a text"),
    ),
)
