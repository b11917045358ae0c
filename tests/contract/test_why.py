"""`linewright why … --json`: steps that replay, with inputs that come from another subject or from a file."""

import json
import math
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from linewright.app.project import Project, open_project
from linewright.app.shipped import shipped
from linewright.engine.formulas import FORMULAS
from linewright.engine.working import subjects, working
from linewright.report.why_json import why_json
from tests.contract import written
from tests.contract.containing import Json, read_json
from tests.contract.program import DATA, MINIMAL, linewright

EXAMPLES = {path.parent.name: path for path in sorted(shipped("examples").glob("*/*.design.yaml"))}
#: What a key that a file leaves out stands for.
DEFAULTS = {"items": 0, "pipes": 0, "multiplier": 1, "min": 0}
#: Inputs whose name says what was done to the figure of the subject on the way: in the book's unit, less another
#: level, a share of it, so many times, as it is with a rejected action carried out, whether it was done at all.
WORKED_ON = re.compile(
    "^before rounding, in |^outdoor level less |^its part of | counted .* times$|, above$| carried out$"
    "| after its last trap$"
)
BENDS = re.compile(r"bends, (\d+) counted")
INPUT = {"name", "value", "unit", "from"}
STEP = {"formula", "inputs", "table", "row", "page", "result"}


class Explained(NamedTuple):
    """A project, the documents behind its file names, and the working of every subject that anything leads to."""

    project: Project
    documents: dict[str, Any]
    workings: dict[str, Json]

    def inputs(self) -> Iterator[tuple[str, Json]]:
        for subject, found in self.workings.items():
            for step in found["steps"]:
                yield from ((subject, item) for item in step["inputs"])

    def place(self, item: Json) -> tuple[str, str] | None:
        """File and path of an input, none where it comes from another subject."""
        file, _, path = item["from"].partition(":")
        return (file, path) if file in self.documents else None


@cache
def explained(name: str) -> Explained:
    project = open_project(EXAMPLES[name])
    evaluation, names = project.evaluate(), project.file_names()
    files = [project.loaded.source.file, *(book.source.file for book in project.books.values())]
    made = Explained(project, {Path(file).name: written.read(Path(file)) for file in files}, {})
    left = list(subjects(evaluation))
    while left:
        subject = left.pop()
        if subject in made.workings:
            continue
        found = read_json_again(why_json(working(evaluation, subject), names))
        made.workings[subject] = found
        inputs = [item for step in found["steps"] for item in step["inputs"]]
        left += [item["from"] for item in inputs if made.place(item) is None]
    return made


def read_json_again(value: Json) -> Json:
    """As a reader of the output gets it."""
    return read_json(json.dumps(value, allow_nan=False))


@pytest.fixture(params=list(EXAMPLES))
def example(request: pytest.FixtureRequest) -> Explained:
    """Every shipped design."""
    return explained(str(request.param))


def test_the_boat_house_and_the_clinic_are_explained() -> None:
    assert set(EXAMPLES) >= {"boat-house", "harbour-clinic"}
    assert len(explained("boat-house").workings) > 100
    assert len(explained("harbour-clinic").workings) > 1000


def test_every_working_has_the_keys_of_the_contract(example: Explained) -> None:
    for subject, found in example.workings.items():
        assert found["schema"] == "linewright/working/1"
        assert found["subject"] == subject
        assert found["steps"], subject
        for step in found["steps"]:
            assert set(step) >= STEP, subject
            assert step["formula"] in FORMULAS
            assert all(set(item) == INPUT and item["from"] for item in step["inputs"]), subject


def test_every_step_replays_from_the_inputs_that_are_printed(example: Explained) -> None:
    replayed = 0
    for subject, found in example.workings.items():
        for step in (step for step in found["steps"] if step["result"] is not None):
            again = FORMULAS[step["formula"]].function(*(item["value"] for item in step["inputs"]))
            assert math.isclose(again, step["result"], rel_tol=1e-9, abs_tol=1e-9), (subject, step)
            replayed += 1
    assert replayed > 100


def test_an_input_from_another_subject_is_a_result_of_that_subject(example: Explained) -> None:
    """Else nobody who follows it finds the number."""
    wrong = set()
    for subject, item in example.inputs():
        if example.place(item) is not None or WORKED_ON.search(item["name"]):
            continue
        results = [step["result"] for step in example.workings[item["from"]]["steps"]]
        if not any(same(item["value"], result) for result in results):
            wrong.add((item["name"], item["from"], subject))
    assert sorted(wrong) == []


def test_an_input_from_a_file_names_what_is_written_there(example: Explained) -> None:
    """The place is there, and a quantity that stands there is the value; what is left out is a known default."""
    wrong, compared = [], 0
    for subject, item in example.inputs():
        place = example.place(item)
        if place is None:
            continue
        try:
            found = written.at(example.documents[place[0]], place[1])
        except written.NotWrittenError as error:
            if error.rest not in DEFAULTS or item["value"] != DEFAULTS[error.rest]:
                wrong.append((subject, item["name"], item["value"], item["from"]))
            continue
        if isinstance(found, str):
            compared += 1
            if not says(found, item["value"], times=times(item["name"])) and not says_in_unit(found, item):
                wrong.append((subject, item["name"], item["value"], f"{item['from']} = {found}"))
    assert wrong == []
    assert compared > 100


def says_in_unit(found: str, item: Json) -> bool:
    """A step such as 0.1 lb is shown as a number of its unit, and what one of it is in SI stands beside it."""
    number, _, unit = found.partition(" ")
    named: str = item["name"]
    if named.endswith(f", in {unit}"):
        return same(float(number), item["value"])
    return named.endswith(f"in one {unit}") and same(written.SI[unit], item["value"])


def same(one: object, two: object) -> bool:
    if isinstance(one, int | float) and isinstance(two, int | float):
        return math.isclose(one, two, rel_tol=1e-9, abs_tol=1e-9)
    return one == two


def times(name: str) -> int:
    found = BENDS.fullmatch(name)
    return int(found[1]) if found is not None else 1


def says(text: str, value: object, *, times: int = 1) -> bool:
    """Whether a written text gives a value; one that is unknown counts as nothing."""
    number = 0.0 if text == "unknown" else written.si(text)
    return text == value or (number is not None and same(times * number, value))


@pytest.mark.parametrize(
    "subject",
    ["main/run:J2.gas_od", "main/limit:after_first_branch", "main/unit:U3.cooling", "main/charge"],
)
def test_the_subjects_of_the_contract_are_asked_for_on_the_command_line(subject: str) -> None:
    done = linewright("why", MINIMAL, subject, "--json")
    assert (done.code, done.stderr) == (0, "")
    found = read_json(done.stdout)
    assert found["schema"] == "linewright/working/1"
    for step in found["steps"]:
        again = FORMULAS[step["formula"]].function(*(item["value"] for item in step["inputs"]))
        assert same(again, step["result"])


#: Worked by hand for the minimal design: the result of the last step of each.
WORKED = {
    "main/run:J1.equivalent": 25.7,
    "main/run:J2.equivalent": 6.8,
    "main/run:U1.equivalent": 9.6,
    "main/measure:farthest_equivalent": 43.5,
    "main/measure:after_first_branch": 17,
    "main/measure:connection_ratio": 1.01875,
    "main/capacity.cooling": 15_232,
    "main/charge": 7.2,
}


@pytest.mark.parametrize("subject", WORKED)
def test_the_working_ends_with_the_figure_that_was_worked_by_hand(subject: str) -> None:
    steps = explained("boat-house").workings[subject]["steps"]
    assert WORKED[subject] in [pytest.approx(step["result"], rel=1e-6) for step in steps]


def test_an_unknown_subject_is_not_understood_and_the_nearest_is_named() -> None:
    done = linewright("why", MINIMAL, "main/limit:total_lenght", "--json")
    assert (done.code, done.stdout) == (2, "")
    assert "main/limit:total_length" in done.stderr
    assert "Traceback" not in done.stderr


def test_faults_of_the_design_stand_in_the_way_of_any_working() -> None:
    done = linewright("why", DATA / "broken.design.yaml", "main/charge", "--json")
    assert done.code == 2
    assert read_json(done.stdout)["schema"] == "linewright/faults/1"


def test_without_a_subject_every_subject_is_listed_and_each_can_be_asked_for() -> None:
    done = linewright("why", MINIMAL)
    assert done.code == 0
    assert set(done.stdout.split("\n")) - {""} == set(subjects(open_project(MINIMAL).evaluate()))


def test_a_place_in_a_file_is_found_and_a_wrong_one_is_not() -> None:
    document = {"charge": {"liquid": {"6.35 mm": "0.020 kg/m"}}, "runs": [{"length": "24 m"}]}
    assert written.si(written.at(document, "charge.liquid.6.35 mm")) == 0.02
    assert written.si(written.at(document, "runs[0].length")) == 24
    for wrong in ("runs[1].length", "runs[0].rise", "charge.gas", "charge.liquid.6.3", "runs.length"):
        with pytest.raises(written.NotWrittenError):
            written.at(document, wrong)
    assert says("24 m", 24.0)
    assert not says("24 m", 25.0)
    assert says("unknown", 0.0)
    assert not says("unknown", 5.0)
    assert says("0.3 m", 1.2, times=times("bends, 4 counted"))
    assert not says("24 furlongs", 24.0)
