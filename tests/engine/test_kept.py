"""What is kept at hand between evaluations changes none: a design that was edited and one read afresh agree."""

from collections.abc import Iterator
from itertools import cycle
from pathlib import Path
from random import Random

import pytest

from linewright.app.keeping.workspace import Shelf, check_against
from linewright.app.project import Project, open_project
from linewright.app.shipped import shipped
from linewright.document.files import design_from_text
from linewright.document.saving import dump_design
from linewright.draw import Axis, layout, scene_json, sheet_scene
from linewright.engine import Evaluation, evaluate
from linewright.engine.library import Library
from linewright.errors import InputFaultsError
from linewright.model.design import Design
from linewright.model.edits import EditRefusedError, apply
from linewright.report.check_json import check_json
from linewright.units import UnitSystem
from tests.edits.random_edits import random_edit

EXAMPLES = sorted(shipped("examples").glob("*/*.design.yaml"))
EDITS = 8


def edited(project: Project, seed: int) -> Iterator[Design]:
    """The design after each of a row of random edits, as far as its books know what it names."""
    rng, design = Random(seed), project.loaded.design  # noqa: S311 - random cases, no secrets
    for _ in range(EDITS):
        try:
            after = apply(design, random_edit(rng, design)).design
            check_against(after, Shelf(dict(project.books), ()))
        except (EditRefusedError, InputFaultsError):
            continue
        design = after
        yield design


def results(evaluation: Evaluation, library: Library) -> list[object]:
    """All that is told and drawn of an evaluation."""
    sheets = [
        scene_json(sheet_scene(layout(evaluation, one, axis=axis, book=library.books[one.book].book), UnitSystem.SI))
        for one, axis in zip(evaluation.systems, cycle(Axis), strict=False)
    ]
    return [check_json(evaluation, cures=False), *sheets]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
@pytest.mark.parametrize("seed", range(2))
def test_an_edited_design_is_judged_and_drawn_like_one_that_is_read_afresh(path: Path, seed: int) -> None:
    """The one shares all that the edits left alone with the one before it; the other shares nothing."""
    project = open_project(path)
    rounds = 0
    for design in edited(project, seed):
        fresh = design_from_text(dump_design(design), path.name).design
        one, other = (evaluate(given, project.library) for given in (design, fresh))
        assert results(one, project.library) == results(other, project.library)
        rounds += 1
    assert rounds > 1


def test_systems_of_one_shape_share_no_lengths() -> None:
    """Two designs that differ in one length, each judged twice in turn."""
    project = open_project(EXAMPLES[0])
    designs = [project.loaded.design, next(edited(project, 1))]
    first = [results(evaluate(one, project.library), project.library) for one in designs]
    again = [results(evaluate(one, project.library), project.library) for one in designs]
    assert first == again
