"""Designs and lists that the tests of the hand-over set share."""

from functools import cache
from pathlib import Path

from linewright.app.project import Project, open_project
from linewright.engine import Evaluation
from tests.house.files import ROOT

CLINIC = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"
LOFTS = ROOT / "examples" / "foundry-lofts" / "foundry-lofts.design.yaml"
BOAT_HOUSE = ROOT / "examples" / "boat-house" / "boat-house.design.yaml"
EXAMPLES = sorted((ROOT / "examples").rglob("*.design.yaml"))


@cache
def project(path: Path) -> Project:
    return open_project(path)


@cache
def evaluated(path: Path) -> Evaluation:
    return project(path).evaluate()
