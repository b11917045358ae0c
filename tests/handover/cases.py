"""Designs and lists that the tests of the hand-over set share."""

from functools import cache
from pathlib import Path

import pytest

from linewright.app.project import Project, open_project
from linewright.engine import Evaluation
from tests.house.files import ROOT

CLINIC = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"
LOFTS = ROOT / "examples" / "foundry-lofts" / "foundry-lofts.design.yaml"
WORKS = ROOT / "examples" / "print-works" / "print-works.design.yaml"
BOAT_HOUSE = ROOT / "examples" / "boat-house" / "boat-house.design.yaml"
EXAMPLES = sorted((ROOT / "examples").rglob("*.design.yaml"))
FERRY = ROOT / "examples" / "ferry-terminal" / "ferry-terminal.design.yaml"
#: Those whose whole set is made again and again in an ordinary run; the others are left to the soak.
SETS = [
    pytest.param(path, id=path.stem, marks=[] if path in (BOAT_HOUSE, FERRY, WORKS) else [pytest.mark.soak])
    for path in EXAMPLES
]


@cache
def project(path: Path) -> Project:
    return open_project(path)


@cache
def evaluated(path: Path) -> Evaluation:
    return project(path).evaluate()
