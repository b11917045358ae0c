"""A small heat-recovery book with round numbers, and systems with mode boxes on it.

Three tubes lead to the boxes and two from there. The main of an index of 10 has suction 22.22, high_low 19.05 and
liquid 9.52 mm; before the boxes an index up to 5 has 15.88, 12.7 and 6.35 mm. Indoor models are those of
the plain book: `unit 2` has an index of 2, gas 12.7 and liquid 6.35 mm.
"""

from collections.abc import Mapping, Sequence
from copy import deepcopy
from typing import Any

from linewright.engine import Evaluation
from tests.engine import builders
from tests.engine.builders import PLAIN, Doc, upto


def outer(edge: float, suction: str, high_low: str, liquid: str) -> Doc:
    """A row of sizes for pipe that leads to boxes."""
    return {"upto": edge, "suction": suction, "high_low": high_low, "liquid": liquid}


def module(index: float) -> Doc:
    """An outdoor module whose capacity in kW is its index."""
    ports = {"suction": "22.22 mm", "high_low": "19.05 mm", "liquid": "9.52 mm"}
    power = {"cooling": f"{index} kW", "heating": f"{index} kW"}
    return {"model": f"outdoor {index}", "index": index, "factory_charge": "3 kg", **power, **ports}


BOXES: Doc = {
    "page": 40,
    "models": [
        {"model": "box 1", "ports": 1, "index": 6, "units_per_port": 2},
        {
            "model": "box 4",
            "ports": 4,
            "index": 12,
            "port_index": 5,
            "units_per_port": 2,
            "joined": {"ports": 2, "index": 10, "units": 3},
            "series_index": 8,
        },
        {"model": "box 8", "ports": 8, "index": 20, "port_index": 6, "units_per_port": 3, "page": 41},
    ],
}

RECOVERY: Doc = deepcopy(PLAIN) | {"kind": "heat-recovery", "boxes": BOXES}
RECOVERY["outdoor"] = deepcopy(PLAIN["outdoor"]) | {"modules": [module(10), module(20)]}
RECOVERY["tubes"] = deepcopy(PLAIN["tubes"]) | {
    "suction": ["12.7 mm", "15.88 mm", "19.05 mm", "22.22 mm", "25.4 mm", "28.58 mm", "31.75 mm"],
    "high_low": ["12.7 mm", "15.88 mm", "19.05 mm", "22.22 mm", "25.4 mm"],
}
RECOVERY["sizing"] = {
    "main": {"rows": [outer(10, "22.22 mm", "19.05 mm", "9.52 mm"), outer(20, "28.58 mm", "22.22 mm", "12.7 mm")]},
    "branch": {"rows": [outer(5, "15.88 mm", "12.7 mm", "6.35 mm"), outer(30, "19.05 mm", "15.88 mm", "9.52 mm")]},
    "below_box": {
        "page": 42,
        "rows": [upto(4, "15.88 mm", "6.35 mm"), upto(10, "19.05 mm", "9.52 mm")],
    },
    "unit": "ports",
    "cap": "main",
}
RECOVERY["fittings"] = deepcopy(PLAIN["fittings"]) | {
    "below_box": {"page": 43, "rows": [{"upto": 10, "model": "small joint"}]},
    "allowance": {"joint": "0 m", "header": "0 m", "outdoor_joint": "0 m", "box": "0 m"},
}


def book(changes: Mapping[str, Any] | None = None) -> Doc:
    """The recovery book with some keys replaced, each named by its dotted path."""
    return builders.replaced(RECOVERY, changes or {})


def run(from_: str, to: str, length: str = "1 m", *, ports: Sequence[int] = (), **more: object) -> Doc:
    """One run; `ports` are those of the box that it leaves."""
    made: Doc = {"from": from_, "to": to, "length": length, **more}
    return made | ({"ports": list(ports)} if ports else {})


def box(name: str, model: str = "", *, elevation: str = "") -> Doc:
    """A mode box, of a model where the designer has chosen one."""
    given = {"model": model, "elevation": elevation}
    return {"id": name, "kind": "box"} | {key: value for key, value in given.items() if value}


def one_box(indices: Mapping[str, float], *, model: str = "", ports: Mapping[str, Sequence[int]] | None = None) -> Doc:
    """A main of 10 m to one box B1, and from there a run of 2 m to each unit."""
    runs = [run("outdoor", "B1", "10 m")]
    runs += [run("B1", name, "2 m", ports=(ports or {}).get(name, ())) for name in indices]
    units = [builders.unit(name, index) for name, index in indices.items()]
    return builders.system(runs, units, fittings=[box("B1", model)])


def in_series(first: Mapping[str, float], second: Mapping[str, float], *, models: tuple[str, str] = ("", "")) -> Doc:
    """A main of 10 m to B1, from there 4 m of through pipe to B2; 2 m from each box to each of its units."""
    runs = [run("outdoor", "B1", "10 m"), *(run("B1", name, "2 m") for name in first)]
    runs += [run("B1", "B2", "4 m"), *(run("B2", name, "2 m") for name in second)]
    units = [builders.unit(name, index) for name, index in {**first, **second}.items()]
    return builders.system(runs, units, fittings=[box("B1", models[0]), box("B2", models[1])])


def judged(laid_out: Doc, changes: Mapping[str, Any] | None = None) -> Evaluation:
    """Judge one system on the recovery book."""
    return builders.judge(builders.design([laid_out]), book(changes))


def boxes(changes: Mapping[str, Any]) -> Doc:
    """The boxes of the book with some keys beside the models."""
    return {"boxes": {**BOXES, **changes}}


def notes_on(found: Evaluation, subject: str) -> list[str]:
    """What the checks on a subject say, in the order of their measures."""
    checks = builders.the_system(found).checks
    return [check.note for check in checks if check.subject == f"main/{subject}"]
