"""Runs and fittings of a design: what keeps them from being one tree."""

from tests.documents.texts import case

TREE = "a tree: no way back to where the pipe came from"
J1 = "{from: outdoor, to: J1, length: 24 m, bends: 4}"
U1 = "{from: J1, to: U1, length: 9 m, bends: 2}"
J2 = "{from: J1, to: J2, length: 6 m, bends: 1}"
U2 = "{from: J2, to: U2, length: 5 m}"
U3 = "{from: J2, to: U3, length: 11 m}"
RUNS = "systems[0].runs"

CASES = (
    case(
        "two parents",
        U3,
        U3 + "\n      - {from: J1, to: «U3, length: 4 m}",
        (f"{RUNS}[5].to", "U3", "'U3' has two parents, 'J2' (on line 31) and 'J1'", "one run into each point"),
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
        f"    runs:\n      - {J1}\n      - {U1}\n      - {J2}\n      - {U2}\n      - {U3}",
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
        ("systems[0].fittings[0].kind", "module", "no fitting is a module", "one of joint, header, box, coupling"),
    ),
)
