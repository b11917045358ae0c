"""What stands at a path of a YAML file, read without the program's own loader."""

import re
from pathlib import Path
from typing import Any

import yaml

#: SI value of one of each unit that the demonstration files use, exact by definition.
SI = {
    "m": 1.0,
    "mm": 1e-3,
    "W": 1.0,
    "kW": 1e3,
    "kg": 1.0,
    "kg/m": 1.0,
    "C": 1.0,
    "K": 1.0,
    "Fdeg": 5 / 9,
    "kg/m3": 1.0,
    "m2": 1.0,
    "m3/h": 1 / 3600,
    "%": 1e-2,
    "": 1.0,
    "g": 1e-3,
    "Pa": 1.0,
    "MPa": 1e6,
    "ft": 0.3048,
    "in": 0.0254,
    "ft2": 0.3048**2,
    "MBH": 1055.05585262 / 3.6,
    "lb": 0.45359237,
    "lb/ft": 0.45359237 / 0.3048,
    "W/(m K)": 1.0,
    "W/(m2 K)": 1.0,
    "Btu in/(h ft2 F)": 1055.05585262 / 3600 * 0.0254 / 0.3048**2 * 1.8,
    "psi": 4.4482216152605 / 0.0254**2,
}
QUANTITY = re.compile(r"([-+]?\d+(?:\.\d+)?)\s*(\S.*|)")
INCHES = re.compile(r"(?:(\d+)-)?(\d+)/(\d+) in")


class NotWrittenError(LookupError):
    """Nothing stands at a path; `rest` is the part of it that was not found."""

    def __init__(self, rest: str) -> None:
        super().__init__(rest)
        self.rest = rest


def read(path: Path) -> Any:  # noqa: ANN401 - any YAML value
    """A YAML file, every scalar as it is written."""
    return yaml.load(path.read_text(encoding="utf-8"), yaml.BaseLoader)  # noqa: S506 - texts only


def at(document: Any, path: str) -> Any:  # noqa: ANN401 - any YAML value
    """What stands at a path such as `systems[0].runs[2].length`; keys may hold dots (`charge.liquid.6.35 mm`).

    Raises NotWrittenError.
    """
    if not path:
        return document
    if isinstance(document, list):
        found = re.match(r"\[(\d+)\]\.?", path)
        if found is None or int(found[1]) >= len(document):
            raise NotWrittenError(path)
        return at(document[int(found[1])], path[found.end() :])
    keys = [key for key in document if re.match(rf"{re.escape(key)}(?=[.\[]|$)", path)] if document else []
    if not isinstance(document, dict) or not keys:
        raise NotWrittenError(path)
    key = max(keys, key=len)
    return at(document[key], path[len(key) :].removeprefix("."))


def si(text: str) -> float | None:
    """A written quantity in SI, none where the text is no quantity."""
    inches = INCHES.fullmatch(text)
    if inches is not None:
        return (int(inches[1] or 0) + int(inches[2]) / int(inches[3])) * SI["in"]
    found = QUANTITY.fullmatch(text)
    if found is not None and found[2] == "F":
        return (float(found[1]) - 32) / 1.8
    return float(found[1]) * SI[found[2]] if found is not None and found[2] in SI else None
