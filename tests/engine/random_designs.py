"""Random designs on one rich book, for properties that hold for every design.

Lengths are whole millimetres, elevations whole centimetres and powers whole watts.
"""

from collections.abc import Callable, Iterator
from copy import deepcopy
from typing import Any

from hypothesis import strategies as st

from linewright.engine import Evaluation
from linewright.report.check_json import check_json
from tests.engine.builders import Doc, book, design, room, run, system, unit, upto

INDICES = (1, 2, 3, 4, 5, 6)

TEMPERATURES = {
    "cooling": {"outdoor_db": ["25 C", "43 C"], "indoor_wb": ["17 C", "21 C"], "factor": [[0.99, 1.11], [0.87, 0.99]]},
    "heating": {"outdoor_wb": ["-10 C", "10 C"], "indoor_db": ["18 C", "22 C"], "factor": [[0.78, 0.74], [1.02, 0.98]]},
}


def length_table(basis: str = "farthest") -> Doc:
    """Falls with length at every level."""
    return {
        "basis": basis,
        "below_first": "hold",
        "equivalent": ["5 m", "60 m", "900 m"],
        "level": ["-40 m", "0 m", "40 m"],
        "factor": [[1.0, 1.0, 0.99], [0.94, 0.95, 0.93], [0.7, 0.72, 0.71]],
        "upsized_main": {1: 0.5},
    }


def rich_book(*, actions: bool = True, basis: str = "farthest", rounding: bool = True) -> Doc:
    """Allowances by diameter, limits with relaxed bounds, size actions, capacity tables and charge terms."""
    both = ["gas", "liquid"]
    elective = {"id": "between", "runs": "first-to-last-branch", "lines": both}
    long = {"measure": "farthest_equivalent", "over": "25 m"}
    mandatory = {"id": "long", "runs": "main", "lines": both, "when": long}
    needs = [{"action": "between"}, {"measure": "last_joint_to_unit", "max": "20 m"}]
    after = {"measure": "after_first_branch", "max": "12 m", "page": 3}
    limits = [
        {"measure": "farthest_actual", "max": "45 m"},
        {"measure": "farthest_equivalent", "max": "40 m", "upsized_main": {1: 0.5}},
        {"measure": "total_length", "max": "60 m"},
        after | ({"relaxed": [{"max": "45 m", "needs": needs}]} if actions else {}),
        {"measure": "last_joint_to_unit", "max": "15 m"},
        {"measure": "nearest_farthest_difference", "max": "15 m", "lengths": "equivalent"},
        {"measure": "level_outdoor_above", "max": "7 m"},
        {"measure": "level_outdoor_below", "max": "10 m"},
        {"measure": "level_between_indoor", "max": "2 m"},
        {"measure": "header_depth", "max": 0},
        {"measure": "connection_ratio", "min": "50 %", "max": "130 %"},
        {"measure": "additional_charge", "max": "2.5 kg"},
    ]
    charge: Doc = {
        "liquid": {"6.35 mm": "0.02 kg/m", "9.52 mm": "0.05 kg/m", "12.7 mm": "0.1 kg/m", "15.88 mm": "0.17 kg/m"},
        "group": {"outdoor 10": "0.4 kg"},
        "connection_ratio": [{"upto": "100 %", "add": "0 kg"}, {"upto": "400 %", "add": "0.5 kg"}],
        "indoor": {"unit 5": "0.1 kg"},
        "constant": "-0.2 kg",
        "multiplier": 1.05,
    }
    modes = {mode: {"temperature": TEMPERATURES[mode], "length": length_table(basis)} for mode in TEMPERATURES}
    return book(
        {
            "sizing.branch": {"rows": [upto(5, "15.88 mm", "6.35 mm"), upto(60, "19.05 mm", "9.52 mm")]},
            "sizing.actions": [elective, mandatory] if actions else [],
            "fittings.first": {"rows": [{"upto": 60, "model": "first"}]},
            "fittings.joint": {"rows": [{"upto": 8, "model": "small"}, {"upto": 60, "model": "large"}]},
            "fittings.header": {"rows": [{"upto": 60, "ports": 4, "model": "header 4"}]},
            "fittings.allowance": {
                "joint": "0.5 m",
                "header": "1 m",
                "bend": {
                    "12.7 mm": "0.2 m",
                    "15.88 mm": "0.25 m",
                    "19.05 mm": "0.3 m",
                    "22.22 mm": "0.4 m",
                    "25.4 mm": "0.5 m",
                },
            },
            "limits": limits,
            "capacity": modes,
            "charge": charge | ({"round": {"step": "0.1 kg", "mode": "half-up"}} if rounding else {}),
        }
    )


@st.composite
def designs(draw: st.DrawFn) -> Doc:
    """A system of one to six units on joints, headers and couplings, each unit in a room with loads."""
    count = draw(st.integers(1, 6))
    lengths = st.integers(0, 30_000).map(lambda mm: f"{mm / 1000:g} m")
    bends = st.integers(0, 4)
    runs: list[Doc] = []
    fittings: list[Doc] = []
    open_ends = [[f"U{i}" for i in range(1, count + 1)]]
    nodes = ["outdoor"]
    made = 0
    while open_ends:
        names, near = open_ends.pop(), nodes.pop()
        to = names[0]
        if len(names) > 1:
            made += 1
            to = f"N{made}"
            split = draw(st.integers(1, len(names) - 1))
            header = draw(st.booleans()) and draw(st.booleans())
            parts = [[name] for name in names] if header else [names[:split], names[split:]]
            if header:
                fittings.append({"id": to, "kind": "header"})
            open_ends += parts
            nodes += [to] * len(parts)
        runs.append(run(near, to, draw(lengths), bends=draw(bends)))
    levels = st.integers(-300, 300).map(lambda cm: f"{cm / 100:g} m")
    loads = st.integers(0, 7000).map(lambda watts: f"{watts} W")
    names = [f"U{i}" for i in range(1, count + 1)]
    length_to = {item["to"]: item for item in runs}
    units = [unit(name, draw(st.sampled_from(INDICES)), room=f"R{name}", elevation=draw(levels)) for name in names]
    rooms = [room(f"R{name}", draw(loads), sensible=draw(loads), heating=draw(loads)) for name in names]
    _lengthen_steep_runs(length_to, units)
    laid_out = system(runs, units, elevation="6 m", fittings=fittings)
    conditions = {
        "cooling": {"outdoor_db": "33 C", "indoor_wb": "18 C"},
        "heating": {"outdoor_wb": "-4 C", "indoor_db": "21 C"},
        "levels": [{"id": "ground", "elevation": "0 m"}],
    }
    return design([laid_out], rooms=rooms, site=conditions)


def _lengthen_steep_runs(into: dict[str, Doc], units: list[Doc]) -> None:
    """A single run from the outdoor unit to a unit must be as long as its two stated elevations are apart."""
    for item in units:
        own = into[item["id"]]
        if own["from"] == "outdoor" and float(own["length"].split()[0]) < 10:
            own["length"] = "10 m"


def shown(evaluation: Evaluation) -> Doc:
    """Everything the evaluation says of systems and rooms, as JSON."""
    whole = check_json(evaluation)
    return {key: whole[key] for key in ("standing", "systems", "rooms")}


def changed(designed: Doc, change: Callable[[Doc], None]) -> Doc:
    """A changed copy."""
    made = deepcopy(designed)
    change(made)
    return made


def differences(one: object, two: object, path: str = "") -> Iterator[str]:
    """Where two JSON values differ: numbers by more than 1e-9 of the larger (of one at least)."""
    if isinstance(one, dict) and isinstance(two, dict):
        for key in one.keys() | two.keys():
            yield from differences(one.get(key, "(none)"), two.get(key, "(none)"), f"{path}.{key}")
    elif isinstance(one, list) and isinstance(two, list):
        if len(one) != len(two):
            yield f"{path}: {len(one)} and {len(two)} entries"
        for i, (first, second) in enumerate(zip(one, two, strict=False)):
            yield from differences(first, second, f"{path}[{i}]")
    elif isinstance(one, int | float) and isinstance(two, int | float):
        if abs(one - two) > 1e-9 * max(1.0, abs(one), abs(two)):
            yield f"{path}: {one!r} and {two!r}"
    elif one != two:
        yield f"{path}: {one!r} and {two!r}"


def without(value: Any, *keys: str) -> Any:  # noqa: ANN401 - any JSON value
    """A copy of a JSON value without these keys, wherever they stand."""
    if isinstance(value, dict):
        return {key: without(part, *keys) for key, part in value.items() if key not in keys}
    return [without(part, *keys) for part in value] if isinstance(value, list) else value
