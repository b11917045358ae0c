"""Refused texts: what is wrong and what would be right."""

import pytest

from linewright.units import Dimension, UnitFault, parse, parse_as

D = Dimension

REFUSED = [
    ("", "nothing is written"),
    ("   ", "nothing is written"),
    ("1,000", "write 1000 or 1.0"),
    ("1,000 m", "write 1000 or 1.0"),
    ("12,5 m", "write 1000 or 1.0"),
    ("NaN", "finite decimal number"),
    ("nan m", "finite decimal number"),
    ("inf", "finite decimal number"),
    ("-inf m", "finite decimal number"),
    ("Infinity", "finite decimal number"),
    (".inf", "finite decimal number"),
    ("1e999 m", "too large"),
    ("1e308 MPa", "too large"),
    ("0x10 m", "plain decimal number"),
    ("1_000 m", "plain decimal number"),
    ("\u0661\u0662 m", "finite decimal number"),  # Arabic-Indic digits
    ("m", "finite decimal number"),
    ("unknown", "finite decimal number"),
    ("- 5 m", "finite decimal number"),
    ("--5 m", "finite decimal number"),
    ("~12 m", "finite decimal number"),
    ("<= 12 m", "finite decimal number"),
    ("12..5 m", "not one number with one unit"),
    ("12 - 15 m", "not one number with one unit"),
    ("1 0000 m", "not one number with one unit"),
    ("1 00 m", "not one number with one unit"),
    ("12 34 m", "not one number with one unit"),
    ("5 furlong", "not a known unit"),
    ("1 000 furlong", "not one number with one unit"),
    ("5\u00b2 m", "not a known unit"),
    ("12 m 6", "not a known unit"),
    ("5 kw", "is kW meant?"),
    ("5 KW", "is kW meant?"),
    ("12 M", "is m meant?"),
    ("12 metres", "is m meant?"),
    ("24 m^2", "is m2 meant?"),
    ("600 psig", "is psi meant?"),
    ("12000 Btu", "is Btu/h meant?"),
    ("35 \u00b0", "is degC or degF meant?"),
    ("35 C\u00b0", "is degC meant?"),
    ("5/8", 'unit of "5/8" is missing'),
    ("1-1/8", 'unit of "1-1/8" is missing'),
    ("5/0 in", "divides by zero"),
    ("1-9/8 in", "not less than one"),
    ("1-8/8 in", "not less than one"),
    ("12'-6 9/8\"", "not less than one"),
    ("5/8 mm", "written in decimals"),
    ("1/2 kW", "written in decimals"),
    ("1-1/8 furlong", "not one number with one unit"),
    ("12'-12\"", "12 inches or more"),
    ("12'-14 1/2\"", "12 inches or more"),
    ("12'-6", "not a known unit"),
    ("12.5'-6\"", "not a known unit"),
    ("2 lb 16 oz", "16 ounces or more"),
    ("2 lb 4", "not a known unit"),
    ("\u00bd5 in", "not one number with one unit"),
    ("5 m; rm", "not a known unit"),
    ("1" * 61, "too long"),
    ("12 m" + " " * 60, "too long"),
]


@pytest.mark.parametrize(("text", "says"), REFUSED)
@pytest.mark.parametrize("dimension", [None, *Dimension])
def test_refused_text_says_why(text: str, says: str, dimension: Dimension | None) -> None:
    with pytest.raises(UnitFault) as caught:
        parse(text) if dimension is None else parse_as(text, dimension)
    assert says in caught.value.message
    assert " such as " in caught.value.expected


EXPECTED = {
    D.NUMBER: "a number without a unit such as 16",
    D.RATIO: "a ratio such as 115 % or 1.15",
    D.LENGTH: "a length such as 12 m, 40 ft or 12'-6\"",
    D.AREA: "an area such as 24 m2 or 260 ft2",
    D.VOLUME: "a volume such as 60 m3 or 2100 ft3",
    D.POWER: "a power such as 5.6 kW, 19.1 MBH or 18 tons",
    D.MASS: "a mass such as 4.2 kg, 9.3 lb or 2 lb 4 oz",
    D.LINEAR_MASS: "a mass per length such as 0.050 kg/m, 0.034 lb/ft or 0.54 oz/ft",
    D.TEMPERATURE: "a temperature such as 35 C or 95 F",
    D.TEMPERATURE_DIFFERENCE: "a temperature difference such as 5 K or 9 Fdeg",
    D.PRESSURE: "a pressure such as 4.15 MPa, 25 kPa, 42 bar or 600 psi",
    D.TIME: "a time such as 5 min or 24 h",
    D.FLOW: "an air flow such as 180 L/s, 650 m3/h or 380 cfm",
    D.VELOCITY: "a velocity such as 6.5 m/s or 1280 ft/min",
    D.MASS_FLOW: "a mass flow such as 90 kg/h or 200 lb/h",
    D.MASS_FLUX: "a mass flux such as 120 kg/(m2 s) or 88 000 lb/(ft2 h)",
    D.DENSITY: "a density such as 0.3 kg/m3, 61 g/m3 or 0.019 lb/ft3",
    D.VISCOSITY: "a viscosity such as 0.012 mPa s or 0.012 cP",
    D.ENTHALPY: "an enthalpy such as 425 kJ/kg or 183 Btu/lb",
    D.CONDUCTIVITY: "a conductivity such as 0.040 W/(m K) or 0.28 Btu in/(h ft2 F)",
    D.SURFACE: "a surface coefficient such as 6.8 W/(m2 K) or 1.2 Btu/(h ft2 F)",
    D.LINEAR_POWER: "a heat per length such as 5 W/m or 5.2 Btu/(h ft)",
    D.VOLTAGE: "a voltage such as 400 V or 208 V",
    D.CURRENT: "a current such as 16 A or 0.25 A",
    D.FREQUENCY: "a frequency such as 50 Hz or 60 Hz",
    D.ELECTRIC: "a power such as 40 W or 9.8 kW",
    D.TUBE: "a tube size such as 15.88 mm, 5/8 in or 1-1/8 in",
}


@pytest.mark.parametrize("dimension", Dimension)
def test_what_would_be_right_is_itself_accepted(dimension: Dimension) -> None:
    with pytest.raises(UnitFault) as caught:
        parse_as("nonsense", dimension)
    assert caught.value.expected == EXPECTED[dimension]
    examples = EXPECTED[dimension].partition(" such as ")[2].replace(" or ", ", ").split(", ")
    assert examples
    for example in examples:
        parse_as(example, dimension)


SAMPLE = {
    D.NUMBER: "16",
    D.RATIO: "115 %",
    D.LENGTH: "12 m",
    D.AREA: "24 m2",
    D.VOLUME: "60 m3",
    D.POWER: "5.6 kW",
    D.MASS: "4.2 kg",
    D.LINEAR_MASS: "0.05 kg/m",
    D.TEMPERATURE: "35 C",
    D.TEMPERATURE_DIFFERENCE: "5 K",
    D.PRESSURE: "25 kPa",
    D.TIME: "5 min",
    D.FLOW: "180 L/s",
    D.VELOCITY: "6.5 m/s",
    D.MASS_FLOW: "90 kg/h",
    D.MASS_FLUX: "120 kg/(m2 s)",
    D.DENSITY: "0.3 kg/m3",
    D.VISCOSITY: "0.012 mPa s",
    D.ENTHALPY: "425 kJ/kg",
    D.CONDUCTIVITY: "0.040 W/(m K)",
    D.SURFACE: "6.8 W/(m2 K)",
    D.LINEAR_POWER: "5 W/m",
    D.VOLTAGE: "400 V",
    D.CURRENT: "16 A",
    D.FREQUENCY: "50 Hz",
}
TAKEN_AS = {(D.LENGTH, D.TUBE), (D.NUMBER, D.RATIO), (D.POWER, D.ELECTRIC)}


@pytest.mark.parametrize("wanted", Dimension)
@pytest.mark.parametrize(("found", "text"), SAMPLE.items())
def test_another_dimension_is_refused(found: Dimension, text: str, wanted: Dimension) -> None:
    if found is wanted or (found, wanted) in TAKEN_AS:
        parse_as(text, wanted)
        return
    with pytest.raises(UnitFault) as caught:
        parse_as(text, wanted)
    assert text in caught.value.message
    assert caught.value.expected == EXPECTED[wanted]


@pytest.mark.parametrize(
    ("text", "dimension", "message"),
    [
        ("12", D.LENGTH, 'the unit of "12" is missing'),
        ("0", D.LENGTH, 'the unit of "0" is missing'),
        ("12 kW", D.LENGTH, '"12 kW" is a power, not a length'),
        ("9 F", D.TEMPERATURE_DIFFERENCE, '"9 F" is a temperature, not a temperature difference'),
        ("5 C", D.TEMPERATURE_DIFFERENCE, '"5 C" is a temperature, not a temperature difference'),
        ("300 K", D.TEMPERATURE, '"300 K" is a temperature difference, not a temperature'),
        ("16 A", D.ELECTRIC, '"16 A" is a current, not a power'),
        ("400", D.VOLTAGE, 'the unit of "400" is missing'),
        ("16 kW", D.NUMBER, '"16 kW" is a power, not a number without a unit'),
    ],
)
def test_message_of_a_mismatch(text: str, dimension: Dimension, message: str) -> None:
    with pytest.raises(UnitFault) as caught:
        parse_as(text, dimension)
    assert caught.value.message == message


def test_fault_reads_as_one_sentence_and_hides_control_characters() -> None:
    with pytest.raises(UnitFault) as caught:
        parse_as("5 \x1b[31mm", D.LENGTH)
    text = str(caught.value)
    assert text == f"{caught.value.message}; expected {caught.value.expected}"
    assert text.isprintable()


def test_a_hostile_text_is_shortened() -> None:
    with pytest.raises(UnitFault) as caught:
        parse("9" * 1_000_000)
    assert len(str(caught.value)) < 250
