"""A system judged without those that share no room with it stands as it does among all of them."""

from __future__ import annotations

from pathlib import Path

import pytest

from linewright.app.project import open_project
from linewright.engine import evaluate
from linewright.explore.verdicts import alone, checks_of
from tests.docs.emitted import EXAMPLES


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.parent.name)
def test_every_check_is_the_same(path: Path) -> None:
    project = open_project(path)
    whole = project.evaluate()
    for system in project.loaded.design.systems:
        less = evaluate(alone(project.loaded.design, system.id), project.library)
        assert list(checks_of(less, system.id)) == list(checks_of(whole, system.id))
