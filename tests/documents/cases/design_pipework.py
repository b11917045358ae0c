"""What is stated of pipework that cannot be: words that are not known, amounts that are none."""

from tests.documents.texts import case

UNITS = "units: si "


def stated(text: str) -> str:
    return f"pipework: {text}\n{UNITS}"


CASES = (
    case(
        "unknown basis",
        UNITS,
        stated("{basis: «welded}"),
        ("pipework.basis", "welded", "'welded' is not known here", "one of annealed, drawn, listed"),
    ),
    case(
        "unknown code of strength",
        UNITS,
        stated("{code: «b31}"),
        ("pipework.code", "b31", "'b31' is not known here", "one of asme-b31.5, en-1057, jis"),
    ),
    case(
        "conductivity without unit",
        UNITS,
        stated("{conductivity: «0.04}"),
        (
            "pipework.conductivity",
            "0.04",
            'the unit of "0.04" is missing',
            "a conductivity such as 0.040 W/(m K) or 0.28 Btu in/(h ft2 F)",
        ),
    ),
    case(
        "no conductivity",
        UNITS,
        stated("{conductivity: «0 W/(m K)}"),
        ("pipework.conductivity", "0 W/(m K)", "nothing here is as small as 0 W/(m K)", "more than zero"),
    ),
    case(
        "thickness below nothing",
        UNITS,
        stated("{stock: [13 mm, «-1 mm]}"),
        ("pipework.stock[1]", "-1 mm", "nothing here is as small as -1 mm", "more than zero"),
    ),
    case(
        "air without any water",
        UNITS,
        stated("{indoor_air: {humidity: «0 %}}"),
        ("pipework.indoor_air.humidity", "0 %", "nothing here is as small as 0 %", "more than zero"),
    ),
    case(
        "tolerance beyond any wall",
        UNITS,
        stated("{wall_tolerance: «60 %}"),
        ("pipework.wall_tolerance", "60 %", "no wall differs by 60 %", "a share of the wall such as 10 %"),
    ),
)
