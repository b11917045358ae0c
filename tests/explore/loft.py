"""The sail loft of the tests: with six faults, and without them. Invented."""

from pathlib import Path

ROOT = Path(__file__).parents[2]
SIX = (Path(__file__).parent / "data" / "six-faults.design.yaml").read_text(encoding="utf-8")
#: The sail loft without its faults.
SOUND = (
    SIX.replace("    forbidden_actions: [long-unit-run]\n", "")
    .replace(
        "      - {from: J2, to: J3, length: 7 m, override: {gas: 12.7 mm}}", "      - {from: J3, to: J6, length: 7 m}"
    )
    .replace("      - {from: J2, to: U2, length: 4 m, bends: 2}", "      - {from: J2, to: J3, length: 1 m}")
    .replace("      - {from: J3, to: U4,", "      - {from: J3, to: U2, length: 4 m}\n      - {from: J6, to: U4,")
    .replace("      - {from: J3, to: J4, length: 4 m}", "      - {from: J6, to: J4, length: 4 m}")
    .replace("      - {from: J4, to: J5, length: 3 m}\n", "")
    .replace("      - {from: J5, to: U6, length: 27 m, bends: 2}", "      - {from: J4, to: U6, length: 8 m, bends: 2}")
    .replace("      - {from: J5, to: X9, length: 2 m}\n", "")
    .replace("cooling: 3.1 kW, sensible: 2.2 kW", "cooling: 2.4 kW, sensible: 1.6 kW")
)
