"""Keys of a design: unknown, missing, twice, of no use."""

from tests.documents.texts import case

LENGTH = "a length such as 12 m, 40 ft or 12'-6\""
J1 = "{from: outdoor, to: J1, length: 24 m, bends: 4}"
J2 = "{from: J1, to: J2, length: 6 m, bends: 1}"
U2 = "{from: J2, to: U2, length: 5 m}"
RUNS = "systems[0].runs"

CASES = (
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
        ("site.levels[1].zzz", "zzz", "the key 'zzz' is not known here", "one of id, elevation, name, underground"),
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
        "project: Boat house\n? «[x, y]\n: 1",
        ("", "a list", "a key is not a plain word", "a key such as length"),
    ),
)
