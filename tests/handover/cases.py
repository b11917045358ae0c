"""Designs and lists that the tests of the hand-over set share."""

from functools import cache
from pathlib import Path

import pytest

from linewright.app.handover import Buying, HandOver, hand_over
from linewright.app.project import Project, open_project
from linewright.engine import Evaluation
from linewright.takeoff import Settings, TakeOff, take_off
from linewright.units import UnitSystem
from tests.house.files import ROOT

CLINIC = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"
LOFTS = ROOT / "examples" / "foundry-lofts" / "foundry-lofts.design.yaml"
WORKS = ROOT / "examples" / "print-works" / "print-works.design.yaml"
BOAT_HOUSE = ROOT / "examples" / "boat-house" / "boat-house.design.yaml"
EXAMPLES = sorted((ROOT / "examples").rglob("*.design.yaml"))
FERRY = ROOT / "examples" / "ferry-terminal" / "ferry-terminal.design.yaml"
_USUAL = Settings()
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


#: What was bought for an evaluation, which is kept beside it, so that no other ever has its number.
_BOUGHT: dict[tuple[int, Settings, UnitSystem], tuple[Evaluation, TakeOff]] = {}


def bought(evaluation: Evaluation, settings: Settings = _USUAL, system: UnitSystem = UnitSystem.SI) -> TakeOff:
    """What an evaluated design takes, worked out once: the plan by which tubes are cut takes long."""
    key = (id(evaluation), settings, system)
    if key not in _BOUGHT:
        _BOUGHT[key] = (evaluation, take_off(evaluation, settings, system=system))
    return _BOUGHT[key][1]


def taken(path: Path) -> TakeOff:
    """What a design takes by the usual settings."""
    return bought(evaluated(path))


def whole_set(path: Path, system: UnitSystem = UnitSystem.SI) -> HandOver:
    """The hand-over set of a design as asked for with nothing chosen, made once; for who only reads it."""
    return _whole_set(path, system)


@cache
def _whole_set(path: Path, system: UnitSystem) -> HandOver:
    return made_anew(path, system)


def made_anew(path: Path, system: UnitSystem = UnitSystem.SI) -> HandOver:
    return hand_over(project(path), Buying(Settings()), system, lambda _: None)
