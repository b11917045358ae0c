"""What is stated of refrigerant in rooms: unknown profiles, editions, rules, rooms; spaces that are none."""

from tests.documents.texts import case

UNITS = "units: si "
ROOF = "{id: roof, elevation: 8 m}"
ROOMS = "\nrooms:\n"
SYSTEM = "  - id: main\n"
STORE = "{id: store, level: ground, area: 20 m2, height: 3 m,"


def chosen(text: str) -> str:
    return f"refrigerant: {text}\n{UNITS}"


CASES = (
    case(
        "unknown profile",
        UNITS,
        chosen("{profile: «din-1}"),
        ("refrigerant.profile", "din-1", "'din-1' is not known here", "one of ashrae-15, en-378, iec-60335-2-40"),
    ),
    case(
        "unknown edition",
        UNITS,
        chosen("{profile: ashrae-15, edition: «1994}"),
        ("refrigerant.edition", "1994", "ashrae-15 has no edition '1994' here", "one of 2019, 2022, 2024"),
    ),
    case(
        "edition of another standard",
        UNITS,
        chosen("{profile: en-378, edition: «2022}"),
        ("refrigerant.edition", "2022", "en-378 has no edition '2022' here", "'2016+A1:2020'"),
    ),
    case(
        "no date",
        UNITS,
        chosen("{profile: en-378, installed: «next spring}"),
        ("refrigerant.installed", "next spring", "'next spring' is no date", "a date such as 2027-05-01"),
    ),
    case(
        "unknown rule",
        UNITS,
        chosen("{profile: ashrae-15, read: [«edcv]}"),
        ("refrigerant.read[0]", "edcv", "ashrae-15 has no rule 'edcv' that could be read", "'edvc'"),
    ),
    case(
        "unknown access",
        UNITS,
        chosen("{profile: en-378, access: «everybody}"),
        (
            "refrigerant.access",
            "everybody",
            "'everybody' is not known here",
            "one of authorised, general, supervised",
        ),
    ),
    case(
        "space of one room",
        ROOMS,
        "\nspaces: [{id: all, joined_by: duct, rooms: «[office]}]\nrooms:\n",
        ("spaces[0].rooms", "a list", "one room alone is not joined to anything", "two rooms or more"),
    ),
    case(
        "space with an unknown room",
        ROOMS,
        "\nspaces: [{id: all, joined_by: duct, rooms: [office, «attic]}]\nrooms:\n",
        ("spaces[0].rooms[1]", "attic", "there is no room 'attic'", "one of office, store, workshop"),
    ),
    case(
        "room in two spaces",
        ROOMS,
        "\nspaces: [{id: a, joined_by: duct, rooms: [office, store]},"
        " {id: b, joined_by: duct, rooms: [«store, workshop]}]\nrooms:\n",
        (
            "spaces[1].rooms[0]",
            "store",
            "the room 'store' is joined twice, first on line 13",
            "each room in one space",
        ),
    ),
    case(
        "space twice",
        ROOMS,
        "\nspaces:\n  - {id: a, joined_by: duct, rooms: [office, store]}\n"
        "  - {id: «a, joined_by: duct, rooms: [workshop, «hut]}\nrooms:\n",
        ("spaces[1].id", "a", "the name 'a' is used twice, first on line 14", "each name once"),
        ("spaces[1].rooms[1]", "hut", "there is no room 'hut'", "one of office, store, workshop"),
    ),
    case(
        "opening below nothing",
        STORE,
        STORE + " opening: «-1 m2,",
        ("rooms[2].opening", "-1 m2", "the opening -1 m2 is negative", "zero or more"),
    ),
    case(
        "exhaust without unit",
        STORE,
        STORE + " exhaust: «200,",
        (
            "rooms[2].exhaust",
            "200",
            'the unit of "200" is missing',
            "an air flow such as 180 L/s, 650 m3/h or 380 cfm",
        ),
    ),
    case(
        "less than nothing can be released",
        SYSTEM,
        SYSTEM + "    releasable: {store: «-2 kg}\n",
        ("systems[0].releasable.store", "-2 kg", "no room gets -2 kg", "zero or more"),
    ),
    case(
        "released into an unknown room",
        SYSTEM,
        SYSTEM + "    releasable: {shop: «2 kg}\n",
        ("systems[0].releasable.shop", "2 kg", "there is no room 'shop'", "'workshop'"),
    ),
    case(
        "run in an unknown room",
        "{from: J2, to: U2, length: 5 m}",
        "{from: J2, to: U2, length: 5 m, crosses: [office, «stores]}",
        ("systems[0].runs[3].crosses[1]", "stores", "there is no room 'stores'", "'store'"),
    ),
    case(
        "fitting in an unknown room",
        "    runs:\n",
        "    fittings: [{id: J1, room: «stores}]\n    runs:\n",
        ("systems[0].fittings[0].room", "stores", "there is no room 'stores'", "'store'"),
    ),
    case(
        "neither above nor below the ground",
        ROOF,
        "{id: roof, elevation: 8 m, underground: «maybe}",
        ("site.levels[1].underground", "maybe", "'maybe' is neither yes nor no", "yes or no"),
    ),
    case(
        "unknown mounting",
        "model: cassette 3.6, room: store",
        "model: cassette 3.6, mounting: «hung, room: store",
        ("systems[0].units[2].mounting", "hung", "'hung' is not known here", "one of ceiling, floor, wall, window"),
    ),
)
