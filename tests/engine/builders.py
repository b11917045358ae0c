"""Small books and designs with round numbers, through the real loader and the real engine.

The plain book has no limits, no allowances, no capacity tables and no charge, so that every test adds what it
is about and its figures can be worked by hand. Indoor models are named after their index: `unit 2` is 2 kW in
cooling and heating, 1 kW sensible. Gas and liquid tubes of the main are 22.22 and 9.52 mm on an index of 10.
"""

import json
from collections.abc import Mapping, Sequence
from copy import deepcopy
from functools import cache
from typing import Any

from linewright.book.compiled import CompiledBook
from linewright.document.files import book_from_text, design_from_text, link
from linewright.engine import Evaluation, Library, evaluate
from linewright.engine.records import Check, RunResult, SystemResult, UnitResult
from linewright.model.values import Role

Doc = dict[str, Any]

SITE: Doc = {
    "cooling": {"outdoor_db": "35 C", "indoor_wb": "19 C"},
    "heating": {"outdoor_wb": "6 C", "indoor_db": "20 C"},
    "levels": [{"id": "ground", "elevation": "0 m"}],
}


def module(index: float, *, gas: str = "22.22 mm", liquid: str = "9.52 mm", factory: str = "3 kg") -> Doc:
    """An outdoor module whose capacity in kW is its index."""
    ports = {"gas": gas, "liquid": liquid}
    power = {"cooling": f"{index} kW", "heating": f"{index} kW"}
    return {"model": f"outdoor {index}", "index": index, "factory_charge": factory, **power, **ports}


def model(index: float, *, kind: str = "wall", name: str = "", gas: str = "12.7 mm", liquid: str = "6.35 mm") -> Doc:
    """An indoor model whose capacity in kW is its index, half of it sensible."""
    power = {"cooling": f"{index} kW", "sensible": f"{index / 2} kW", "heating": f"{index} kW"}
    return {"model": name or f"unit {index}", "kind": kind, "index": index, **power, "gas": gas, "liquid": liquid}


def upto(edge: float, gas: str, liquid: str) -> Doc:
    """A row of a size table that includes its edge."""
    return {"upto": edge, "gas": gas, "liquid": liquid}


PLAIN: Doc = {
    "linewright": "book/1",
    "id": "plain",
    "title": "Plain book of the tests, invented",
    "status": "demonstration",
    "document": {"title": "Invented", "edition": "1", "date": "2026-01-01", "typed_by": "tests"},
    "refrigerant": "R-32",
    "kind": "heat-pump",
    "index": {"unit": "kW"},
    "origin": "outdoor",
    "outdoor": {
        "modules": [module(10), module(20, gas="28.58 mm", liquid="12.7 mm")],
        "groups": [
            {"modules": ["outdoor 10"], "index": 10},
            {"modules": ["outdoor 20"], "index": 20},
            {"id": "twin", "modules": ["outdoor 10", "outdoor 10"], "index": 20},
        ],
    },
    "indoor": {"models": [model(index) for index in (1, 2, 3, 4, 5, 6, 10)]},
    "tubes": {
        "gas": ["9.52 mm", "12.7 mm", "15.88 mm", "19.05 mm", "22.22 mm", "25.4 mm", "28.58 mm"],
        "liquid": ["6.35 mm", "9.52 mm", "12.7 mm", "15.88 mm"],
    },
    "sizing": {
        "main": {"rows": [upto(10, "22.22 mm", "9.52 mm"), upto(20, "28.58 mm", "12.7 mm")]},
        "branch": {"rows": [upto(5, "15.88 mm", "6.35 mm"), upto(30, "19.05 mm", "9.52 mm")]},
        "unit": "ports",
        "cap": "main",
    },
    "fittings": {
        "first": {"rows": [{"upto": 30, "model": "first"}]},
        "joint": {"rows": [{"upto": 30, "model": "joint"}]},
        "header": {"rows": [{"upto": 30, "ports": 8, "model": "header 8"}]},
        "allowance": {"joint": "0 m", "header": "0 m", "outdoor_joint": "0 m"},
    },
    "limits": [],
    "capacity": {"cooling": {}, "heating": {}},
    "charge": {},
}


def book(changes: Mapping[str, Any] | None = None) -> Doc:
    """The plain book with some keys replaced, each named by its dotted path: `sizing.cap`."""
    return replaced(PLAIN, changes or {})


def replaced(plain: Doc, changes: Mapping[str, Any]) -> Doc:
    """A copy of a document with some keys replaced, each named by its dotted path."""
    made = deepcopy(plain)
    for path, value in changes.items():
        *way, last = path.split(".")
        at = made
        for key in way:
            at = at[key]
        at[last] = value
    return made


def run(
    from_: str,
    to: str,
    length: str,
    *,
    bends: int = 0,
    rise: str = "",
    items: Sequence[Doc] = (),
    gas: str = "",
    liquid: str = "",
    as_built: str = "",
) -> Doc:
    """One run; `gas` and `liquid` override its tubes."""
    override = {role: size for role, size in (("gas", gas), ("liquid", liquid)) if size}
    given: Doc = {"bends": bends, "rise": rise, "items": list(items), "override": override, "as_built": as_built}
    return {"from": from_, "to": to, "length": length} | {key: value for key, value in given.items() if value}


def chain(from_: str, to: str, lengths: Sequence[str], *, rises: Sequence[str] = ()) -> list[Doc]:
    """Runs end to end through couplings, one for each length."""
    nodes = [from_, *(f"{to}-c{i}" for i in range(1, len(lengths))), to]
    rise = list(rises) or [""] * len(lengths)
    return [run(nodes[i], nodes[i + 1], lengths[i], rise=rise[i]) for i in range(len(lengths))]


def unit(name: str, index: float | str, *, room: str = "", elevation: str = "0 m") -> Doc:
    """An indoor unit of the plain book, by the index of its model (or the model's name)."""
    made: Doc = {"id": name, "model": index if isinstance(index, str) else f"unit {index}"}
    return made | {key: value for key, value in (("room", room), ("elevation", elevation)) if value}


def room(name: str, cooling: str = "0 W", *, sensible: str = "0 W", heating: str = "0 W") -> Doc:
    """A room by its loads."""
    return {"id": name, "level": "ground", "cooling": cooling, "sensible": sensible, "heating": heating}


def system(
    runs: Sequence[Doc],
    units: Sequence[Doc],
    *,
    name: str = "main",
    modules: Sequence[Any] = ("outdoor 10",),
    elevation: str = "0 m",
    pipes: Sequence[Doc] = (),
    fittings: Sequence[Doc] = (),
    block: Doc | None = None,
    declared: Sequence[str] = (),
    forbidden: Sequence[str] = (),
) -> Doc:
    """One system on the plain book."""
    outdoor = {"modules": list(modules), "pipes": list(pipes)}
    made: Doc = {
        "id": name,
        "book": "plain",
        "outdoor": outdoor | ({"elevation": elevation} if elevation else {}),
        "units": list(units),
        "runs": list(runs),
        "fittings": list(fittings),
        "declared": list(declared),
        "forbidden_actions": list(forbidden),
    }
    return made | ({"block": block} if block else {})


def design(systems: Sequence[Doc], *, rooms: Sequence[Doc] = (), site: Doc | None = None) -> Doc:
    """A design of these systems; without a site no capacity is judged."""
    bare: Doc = {"levels": SITE["levels"]}
    head: Doc = {"linewright": "design/1", "project": "Test", "site": bare if site is None else site}
    return head | {"rooms": list(rooms), "systems": list(systems)}


def judge(designed: Doc, used: Doc | None = None) -> Evaluation:
    """Load, link and evaluate a design on a book, as the program does with files."""
    loaded = design_from_text(json.dumps(designed), "test.design.yaml")
    compiled = {"plain": _compiled(json.dumps(used if used is not None else PLAIN))}
    link(loaded, compiled)
    return evaluate(loaded.design, Library.of(compiled))


@cache
def _compiled(text: str) -> CompiledBook:
    return book_from_text(text, "plain.book.yaml").compiled


def the_system(evaluation: Evaluation, name: str = "main") -> SystemResult:
    """The system of that id."""
    return next(system for system in evaluation.systems if system.id == name)


def the_limit(evaluation: Evaluation, measure: str, *, nth: int = 0) -> Check:
    """The n-th limit on a measure, in book order."""
    return [check for check in the_system(evaluation).limits if check.measure == measure][nth]


def the_check(evaluation: Evaluation, subject: str) -> Check:
    """The one check of the system on a subject such as `run:J1.gas`."""
    found = [check for check in the_system(evaluation).checks if check.subject == f"main/{subject}"]
    assert len(found) == 1, [check.subject for check in the_system(evaluation).checks]
    return found[0]


def subjects(evaluation: Evaluation) -> list[str]:
    """Subjects of all checks of the system beside its limits."""
    return [check.subject.removeprefix("main/") for check in the_system(evaluation).checks]


def the_run(evaluation: Evaluation, name: str) -> RunResult:
    """The run that ends at that node."""
    return next(run for run in the_system(evaluation).runs if run.id == name)


def tube_mm(evaluation: Evaluation, name: str, role: str = "gas") -> float | None:
    """Outside diameter of one tube of a run [mm], rounded to a hundredth."""
    od_m = the_run(evaluation, name).tubes[Role(role)].od_m
    return None if od_m is None else round(od_m * 1000, 2)


def the_unit(evaluation: Evaluation, name: str, *, of: str = "main") -> UnitResult:
    """The unit of that id."""
    return next(unit for unit in the_system(evaluation, of).units if unit.id == name)


def room_checks(evaluation: Evaluation, name: str) -> dict[str, Check]:
    """Checks of one room by mode."""
    return {check.measure: check for found in evaluation.rooms if found.id == name for check in found.checks}


def one_unit(length: str = "10 m", *, index: float = 5) -> tuple[list[Doc], list[Doc]]:
    """The least system: one run to one unit."""
    return [run("outdoor", "U1", length)], [unit("U1", index)]


def two_units(first: str, second: str, main: str = "10 m") -> tuple[list[Doc], list[Doc]]:
    """A main, one joint, two units."""
    runs = [run("outdoor", "J1", main), run("J1", "U1", first), run("J1", "U2", second)]
    return runs, [unit("U1", 5), unit("U2", 5)]
