"""Whatever a design states of its pipework: a result that can be written, no crash, and no pass of the unknown."""

from __future__ import annotations

import dataclasses
import json
from functools import cache

from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.app.project import Project, open_project
from linewright.engine import evaluate
from linewright.engine.records import CheckKind, Standing
from linewright.engine.working import subjects, working
from linewright.model.pipework import Air, Basis, Pipework, StrengthCode, Supports, TubeForm
from linewright.report.check_json import check_json
from linewright.report.check_text import check_text
from linewright.units import UnitSystem
from tests.pipework.clinic import ROOT


def maybe(strategy: st.SearchStrategy[float]) -> st.SearchStrategy[float | None]:
    return st.none() | strategy


DEGC = maybe(st.floats(-300, 500))
PRESSURE = maybe(st.floats(1e3, 1e8))
AIR = st.none() | st.builds(Air, temperature_degc=DEGC, humidity=maybe(st.floats(1e-6, 2)))
STATED = st.builds(
    Pipework,
    basis=st.none() | st.sampled_from(Basis),
    code=st.sampled_from(StrengthCode),
    tube=st.none() | st.sampled_from(TubeForm),
    tube_temperature_degc=DEGC,
    wall_tolerance=maybe(st.floats(0, 0.49)),
    stress_pa=PRESSURE,
    listed_pa=PRESSURE,
    design_pressure_pa=PRESSURE,
    ambient_degc=DEGC,
    filled_degc=DEGC,
    read_degc=DEGC,
    outdoor_air=AIR,
    indoor_air=AIR,
    conductivity=maybe(st.floats(1e-4, 10)),
    surface=maybe(st.floats(1e-3, 1e3)),
    stock_m=st.lists(st.floats(1e-4, 1), max_size=3).map(tuple),
    code_minimum=st.booleans(),
    gas_line_degc=DEGC,
    liquid_line_degc=DEGC,
    hottest_gas_degc=DEGC,
    hottest_liquid_degc=DEGC,
    supports=st.sampled_from(Supports),
    support_spacing_m=maybe(st.floats(1e-3, 100)),
    movement=st.booleans(),
)


@cache
def project(name: str) -> Project:
    return open_project(ROOT / "examples" / name / f"{name}.design.yaml")


@settings(max_examples=60, deadline=None)
@given(st.sampled_from(["boat-house", "print-works", "pilot-station"]), STATED)
def test_a_result_that_can_be_written(name: str, stated: Pipework) -> None:
    opened = project(name)
    found = evaluate(dataclasses.replace(opened.loaded.design, pipework=stated), opened.library)
    json.dumps(check_json(found), allow_nan=False)
    check_text(found, system=UnitSystem.IP, colour=False, books={})
    checks = [check for result in found.systems for check in result.checks if check.kind is CheckKind.PIPEWORK]
    assert checks
    for check in checks:
        passes = check.standing in (Standing.WITHIN, Standing.ON_CONDITIONS)
        assert not (passes and check.missing)
        if passes and check.bound is not None:
            assert check.value is not None
            assert check.value <= check.bound * (1 + 1e-9)
        if check.measure == "strength" and stated.basis is None:
            assert not passes


@settings(max_examples=5, deadline=None)
@given(STATED)
def test_every_subject_has_a_working(stated: Pipework) -> None:
    opened = project("print-works")
    found = evaluate(dataclasses.replace(opened.loaded.design, pipework=stated), opened.library)
    for subject in subjects(found):
        assert working(found, subject).steps
