"""The same input gives the same bytes, in whatever order a process happens to keep its sets."""

from __future__ import annotations

import os
import subprocess
import sys

import pytest

from tests.draw.cases import ROOT

CLINIC = ROOT / "examples" / "harbour-clinic" / "harbour-clinic.design.yaml"


@pytest.mark.parametrize("form", ["svg", "scene"])
def test_the_same_design_gives_the_same_bytes(form: str) -> None:
    first, second = _draw("1", form), _draw("4711", form)
    assert len(first) > 100_000
    assert first == second


def _draw(seed: str, form: str) -> bytes:
    command = [sys.executable, "-m", "linewright", "draw", str(CLINIC), "upper", "--format", form]
    done = subprocess.run(command, capture_output=True, check=True, env={**os.environ, "PYTHONHASHSEED": seed})
    return done.stdout
