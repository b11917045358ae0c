"""The JSON that commands really write, for every shipped design and for every stage of the tutorial."""

import json
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import Any

from click.testing import CliRunner

from linewright.app.project import open_project
from linewright.cli.main import cli
from linewright.units import UnitSystem
from linewright.web.tree import tree_json
from tests.docs import tutorial
from tests.explore import boat
from tests.handover.records import filled
from tests.house.files import ROOT

EXAMPLES = sorted((ROOT / "examples").rglob("*.design.yaml"))
#: Objects whose keys are names of the design or the book.
BY_NAME = ("books", "by_subject", "length_by_unit", "applied[]", "inverse[]", "gwp", "tonnes_co2e", "files")
#: Lists of edits, which have a page of their own.
EDITS = ("edits[]",)
EXPLORED = ("linewright/headroom/1", "linewright/sweep/1")
FAULTY = "linewright: design/1\nproject: Faulty\nsite: {}\nroom: []\n"


def run(*arguments: str | Path) -> Any:  # noqa: ANN401 - what a JSON document holds
    done = CliRunner().invoke(cli, [*map(str, arguments), "--json"])
    return json.loads(done.stdout)


@cache
def designs() -> tuple[str, ...]:
    """Texts of all designs that are looked at."""
    stages = dict.fromkeys(step.design for step in tutorial.steps() if "runs:" in step.design)
    return (*stages, *(path.read_text(encoding="utf-8") for path in EXAMPLES))


@cache
def documents(schema: str) -> tuple[Any, ...]:
    if schema == "linewright/remedies/1":
        return tuple(_remedies())
    if schema == "linewright/reading/1":
        return tuple(_readings())
    if schema == "linewright/record/1":
        return tuple(_records())
    with TemporaryDirectory() as folder:
        made = _explored if schema in EXPLORED else _documents
        return tuple(made(schema, Path(folder)))


def _remedies() -> Iterator[Any]:
    clinic = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"
    yield run("remedies", clinic, "--check", "room:laboratory", "--budget", "150")
    yield run("remedies", EXAMPLES[0], "--budget", "30")


def _readings() -> Iterator[Any]:
    works = ROOT / "examples" / "print-works" / "print-works.design.yaml"
    yield run("reading", works, "main", "--start", "600 psi, 84 F", "--now", "571 psi, 55 F", "--within", "5 psi")
    yield run("reading", works, "main", "--start", "600 psi, unknown", "--now", "571 psi, 55 F")


def _records() -> Iterator[Any]:
    clinic = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"
    entries = {
        ("ground", "charge", "charge", "weighed in"): "6.9",
        ("ground", "as built", "J1", "length"): "13 m",
        ("ground", "start-up", "cooling", "suction gauge"): "8.5",
    }
    with TemporaryDirectory() as folder:
        yield run("record", clinic, filled(clinic, UnitSystem.SI, entries, Path(folder)))


def _documents(schema: str, folder: Path) -> Iterator[Any]:
    if schema == "linewright/book-check/1":
        yield run("book", "check", "minimal")
        doubtful = folder / "doubtful.book.yaml"
        text = (ROOT / "books" / "minimal.book.yaml").read_text(encoding="utf-8")
        doubtful.write_text(text.replace("status: demonstration", "status: checked"), encoding="utf-8")
        yield run("book", "check", doubtful)
        return
    if schema == "linewright/groups/1":
        yield run("book", "groups", "minimal", "--index", "16")
        return
    if schema == "linewright/report/1":
        yield run("report", EXAMPLES[0], "-o", folder / "set")
        return
    if schema == "linewright/compare/1":
        yield run("compare", EXAMPLES[0], EXAMPLES[1])
        changed = folder / "changed.design.yaml"
        text = EXAMPLES[0].read_text(encoding="utf-8")
        changed.write_text(text.replace("to: J2, length: 6 m", "to: J2, length: 26 m"), encoding="utf-8")
        yield run("compare", EXAMPLES[0], changed)
        return
    if schema == "linewright/edits/1":
        edits = folder / "edits.yaml"
        edits.write_text("{edit: set, system: main, run: J2, length: 7 m}", encoding="utf-8")
        yield run("edit", EXAMPLES[0], edits, "--dry-run")
        return
    if schema == "linewright/book-edits/1":
        book, edits = folder / "my.book.yaml", folder / "edits.yaml"
        book.write_text((ROOT / "books" / "minimal.book.yaml").read_text(encoding="utf-8"), encoding="utf-8")
        edits.write_text("{edit: set, at: title, to: Another}", encoding="utf-8")
        yield run("book", "edit", book, edits, "--dry-run")
        return
    if schema == "linewright/tree/1":
        yield from (tree_json(open_project(path).evaluate()) for path in EXAMPLES)
        return
    for i, text in enumerate((FAULTY,) if schema == "linewright/faults/1" else designs()):
        path = folder / f"{i}.design.yaml"
        path.write_text(text, encoding="utf-8", newline="\n")
        if schema == "linewright/working/1":
            system = json.loads(CliRunner().invoke(cli, ["check", str(path), "--json"]).output)["systems"][0]["id"]
            yield run("why", path, f"{system}/charge")
            yield run("why", path, f"{system}/limit:after_first_branch")
        else:
            yield run("check", path, "--physics")


def _explored(schema: str, folder: Path) -> Iterator[Any]:
    """Of the boat house that holds: with something locked, with something unknown; and of the one that does not."""
    design, spec = folder / "boat.design.yaml", folder / "s.yaml"
    if schema == "linewright/headroom/1":
        locked = ("\nsystems:\n", '\nlocks: ["main/unit:U2.model"]\n\nsystems:\n')
        unknown = ("to: U2, length: 5 m", "to: U2, length: unknown")
        for change, options in ((locked, ("--only", "count")), (unknown, ("--only", "length", "--beside"))):
            design.write_text(boat.design_text(change), encoding="utf-8", newline="\n")
            yield run("headroom", design, *options)
        yield run("headroom", EXAMPLES[0])
        return
    design.write_text(boat.design_text(), encoding="utf-8", newline="\n")
    spec.write_text(
        "linewright: sweep/1\nvary:\n"
        "  - {name: U3, edit: {edit: set, system: main, run: U3, rise: $}, values: [1 m, 20 m]}\n",
        encoding="utf-8",
        newline="\n",
    )
    yield run("sweep", design, spec, "-o", folder / "t.csv")


def keys(value: object, at: str = "") -> Iterator[tuple[str, str]]:
    """Every key with the place of its object: `systems[].limits[]`; keys that are names stand as `*`."""
    if isinstance(value, list):
        for item in value:
            yield from keys(item, f"{at}[]")
    elif isinstance(value, dict):
        name = at.rpartition(".")[2]
        if name in EDITS:
            return
        for key, item in value.items():
            where = "*" if name in BY_NAME else key
            yield at, where
            yield from keys(item, f"{at}.{where}" if at else where)
