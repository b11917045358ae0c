"""Electrical and condensate data of a book that cannot be."""

from tests.documents.texts import Case, case

SUPPLY = "what the document prints of the supply"


def indoor(name: str, row: str, *faults: tuple[str, str, str, str]) -> Case:
    """One row of supplies of indoor units."""
    return _of("indoor:\n  page: 3\n", f"  electrical: {{page: 9, rows: [{row}]}}\n", name, *faults)


def outdoor(name: str, row: str, *faults: tuple[str, str, str, str]) -> Case:
    return _of("outdoor:\n  page: 2\n", f"  electrical: {{page: 9, rows: [{row}]}}\n", name, *faults)


def drain(name: str, rows: str, *faults: tuple[str, str, str, str]) -> Case:
    return _of("indoor:\n  page: 3\n", f"  condensate: {{page: 9, rows: [{rows}]}}\n", name, *faults)


def _of(head: str, text: str, name: str, *faults: tuple[str, str, str, str]) -> Case:
    return case(name, f"\n{head}", f"\n{head}{text}", *faults)


ROW = "indoor.electrical.rows[0]"
DRAIN = "indoor.condensate.rows[0]"
CASES = (
    indoor(
        "a voltage that is a current",
        "{model: cassette 3.6, voltage: «230 A}",
        (f"{ROW}.voltage", "230 A", '"230 A" is a current, not a voltage', "a voltage such as 400 V or 208 V"),
    ),
    indoor(
        "a current without its unit",
        "{model: cassette 3.6, min_circuit_current: «16}",
        (
            f"{ROW}.min_circuit_current",
            "16",
            'the unit of "16" is missing',
            "a current such as 16 A or 0.25 A",
        ),
    ),
    indoor(
        "an input in volts",
        "{model: cassette 3.6, input: «40 V}",
        (f"{ROW}.input", "40 V", '"40 V" is a voltage, not a power', "a power such as 40 W or 9.8 kW"),
    ),
    indoor(
        "a key that is not known",
        "{model: cassette 3.6, «volts: 230 V, phases: 1}",
        (
            f"{ROW}.volts",
            "volts",
            "the key 'volts' is not known here",
            "'voltage'",
        ),
    ),
    indoor(
        "a current of nought",
        "{model: cassette 3.6, max_overcurrent: «0 A}",
        (f"{ROW}.max_overcurrent", "0 A", "'max_overcurrent' is not above zero", "more than zero"),
    ),
    indoor(
        "a negative voltage among several",
        "{model: cassette 3.6, voltage: [208 V, «-230 V]}",
        (f"{ROW}.voltage[1]", "-230 V", "'voltage[1]' is not above zero", "more than zero"),
    ),
    indoor(
        "two phases",
        "{model: cassette 3.6, phases: «2}",
        (f"{ROW}.phases", "2", "a supply has one phase or three", "1 or 3"),
    ),
    indoor(
        "a range that falls",
        "{model: cassette 3.6, voltage: 240 V, voltage_to: «220 V}",
        (
            f"{ROW}.voltage_to",
            "220 V",
            "'voltage_to' ends a range that begins with one lower 'voltage'",
            "voltage: 380 V, voltage_to: 415 V",
        ),
    ),
    indoor(
        "a range behind several voltages",
        "{model: cassette 3.6, voltage: [208 V, 230 V], voltage_to: «240 V}",
        (
            f"{ROW}.voltage_to",
            "240 V",
            "'voltage_to' ends a range that begins with one lower 'voltage'",
            "voltage: 380 V, voltage_to: 415 V",
        ),
    ),
    indoor(
        "a supply of a model that is not there",
        "{model: [cassette 3.6, «cassette 9], phases: 1}",
        (
            f"{ROW}.model[1]",
            "cassette 9",
            "there is no indoor model 'cassette 9' in this book",
            "'cassette 3.6'",
        ),
    ),
    indoor(
        "a supply of no model",
        "{model: «[], phases: 1}",
        (f"{ROW}.model", "a list", "the row is for no model", "at least one"),
    ),
    indoor(
        "a row that says nothing",
        "«{model: cassette 3.6, page: 9}",
        (ROW, "a mapping", "the row says nothing but which model it is for", SUPPLY),
    ),
    outdoor(
        "an outdoor unit supplied from itself",
        "{model: outdoor 16, from: «outdoor}",
        (
            "outdoor.electrical.rows[0].from",
            "outdoor",
            "an outdoor unit is not supplied from itself",
            "own, or no such key",
        ),
    ),
    drain(
        "a lift by gravity",
        "{model: cassette 3.6, drain: gravity, lift: «640 mm}",
        (
            f"{DRAIN}.lift",
            "640 mm",
            "what drains by gravity lifts nothing",
            "drain: pump or pump-kit, or no lift",
        ),
    ),
    drain(
        "condensate of a model twice",
        "{model: [cassette 3.6, cassette 5.6], drain: pump}, {model: «cassette 3.6, connection: 3/4 in NPT}",
        (
            "indoor.condensate.rows[1].model",
            "cassette 3.6",
            "the condensate of 'cassette 3.6' stands in indoor.condensate.rows[0] already",
            "each model once",
        ),
    ),
    drain(
        "a table of condensate without rows",
        "",
        ("indoor.condensate.rows", "a list", "the table has no rows", "at least one row"),
    )._replace(new="\nindoor:\n  page: 3\n  condensate: {rows: «[]}\n"),
)
