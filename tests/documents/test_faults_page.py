"""The reference page names everything that can be said to be wrong, and nothing else."""

import json
import re

import pytest

from linewright.report.faults_json import faults_json
from tests.documents.templates import asserted, templates
from tests.documents.test_one_fault import BOOK_CASES, DESIGN_CASES
from tests.documents.texts import DESIGN, ROOT, Case, damaged, design_faults

PAGE = (ROOT / "docs" / "reference" / "faults.md").read_text(encoding="utf-8")
EXAMPLES = [
    line.split("|")[1].strip()
    for section in PAGE.split("\n## ")[1:]
    if "| message |" in section
    for line in section.splitlines()
    if line.startswith("| ") and not line.startswith("| message |")
]
TEMPLATES = templates()
#: Matches anything that a parser may still complain of.
OPEN = re.escape("this is not YAML: ") + ".+"


def test_the_templates_were_found() -> None:
    assert len(TEMPLATES) > 140
    assert len(EXAMPLES) == len(set(EXAMPLES))


@pytest.mark.parametrize("template", sorted(TEMPLATES), ids=lambda template: template.replace("\\", "")[:60])
def test_the_page_has_an_example_of_every_message(template: str) -> None:
    assert any(re.fullmatch(template, example) for example in EXAMPLES), TEMPLATES[template]


ASSERTED = asserted()


@pytest.mark.parametrize("template", sorted(TEMPLATES), ids=lambda template: template.replace("\\", "")[:60])
def test_every_message_stands_in_a_test(template: str) -> None:
    assert any(re.fullmatch(template, text, re.DOTALL) for text in ASSERTED), TEMPLATES[template]


@pytest.mark.parametrize("example", EXAMPLES)
def test_the_program_can_say_what_the_page_says(example: str) -> None:
    assert any(re.fullmatch(template, example) for template in TEMPLATES if template != OPEN)


@pytest.mark.parametrize("case", [*DESIGN_CASES, *BOOK_CASES], ids=lambda case: case.name)
def test_every_message_of_a_case_is_one_of_the_program(case: Case) -> None:
    """So that the page, which is held against the program's texts, is held against what it really says."""
    for fault in case.faults:
        of_a_quantity = fault.message.startswith(
            ('"', "the unit of", "the comma in", "the number is", "nothing is written")
        )
        assert of_a_quantity or any(re.fullmatch(template, fault.message, re.DOTALL) for template in TEMPLATES)


def test_the_example_in_json_is_what_the_program_gives() -> None:
    shown = json.loads(PAGE.split("```json\n")[1].split("```")[0])
    text, _ = damaged(DESIGN, ("length: 9 m", "lenght: 9 m"))
    assert faults_json(design_faults(text, "boat-house.design.yaml")) == shown


def test_every_key_of_a_fault_is_explained() -> None:
    keys = re.findall(r"`([a-z]+)`", "".join(re.findall(r"^\| (`[^|]+) \|", PAGE, flags=re.MULTILINE)))
    (fault,) = faults_json(design_faults(damaged(DESIGN, ("length: 9 m", "length: 9"))[0]), more=1)["faults"]
    assert set(keys) == {*fault, "more"}
