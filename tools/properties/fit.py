"""Fit the property tables that the program ships from the reference library, and say how well they fit.

`python -m tools.properties.fit` writes src/linewright/physics/fluids.json. Chebyshev series throughout: saturation and
liquid over temperature or over ln p, vapour over ln p and the enthalpy above the dew point, so that a run at constant
enthalpy needs no inversion and never crosses the dome.
"""

from __future__ import annotations

import json
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

import CoolProp
import numpy as np
from numpy.polynomial import chebyshev

from tools.properties.reference import Reference, Saturated

TARGET = Path(__file__).parents[2] / "src" / "linewright" / "physics" / "fluids.json"
CURVE_DEGREE, CURVE_SAMPLES = 15, 90
DEGREES, SAMPLES = (13, 9), (44, 26)
#: Enthalpy above the dew point up to which vapour is fitted [J/kg].
MOST_ABOVE_J_KG = 90_000.0
DIGITS = 12


class Wanted(NamedTuple):
    """A fluid to be fitted: its designation, its parts by mass, between which temperatures of saturation [degC]."""

    name: str
    parts: Mapping[str, float]
    low_degc: float
    high_degc: float


FLUIDS = (
    Wanted("R-32", {"R32": 1.0}, -40.0, 65.0),
    # Pseudo-pure: within 0.03 % of the blend in saturation pressure, and with a viscosity of its own.
    Wanted("R-410A", {"R410A": 1.0}, -40.0, 62.0),
    Wanted("R-454B", {"R32": 0.689, "R1234yf": 0.311}, -40.0, 62.0),
    Wanted("R-134a", {"R134a": 1.0}, -40.0, 80.0),
    Wanted("R-22", {"R22": 1.0}, -50.0, 75.0),
)


def main() -> int:
    """Fit every fluid, write the file, print the errors of the fit."""
    made = [fitted(wanted) for wanted in FLUIDS]
    lines = ",\n".join(json.dumps(fluid, ensure_ascii=False) for fluid in made)
    TARGET.write_text(f"[\n{lines}\n]\n", encoding="utf-8", newline="\n")
    for fluid in made:
        shown = ", ".join(f"{name} {error:.2g}" for name, error in fluid["fit_errors"].items())
        print(f"{fluid['name']}: {shown}")
    print(f"{TARGET.name}: {TARGET.stat().st_size / 1000:.0f} kB")
    return 0


def fitted(wanted: Wanted) -> dict[str, Any]:
    """Give everything that is shipped of one fluid."""
    fluid = Reference(wanted.parts)
    temperatures = _nodes(wanted.low_degc, wanted.high_degc, CURVE_SAMPLES)
    bubbles, dews = _states(fluid.bubble, temperatures), _states(fluid.dew, temperatures)
    low, high = fluid.dew(wanted.low_degc).p_pa, max(dew.p_pa for dew in dews)
    pressures = np.exp(_nodes(np.log(low), np.log(high), CURVE_SAMPLES))
    at_dew = _states(fluid.dew_at, pressures)
    p_low, p_high = fluid.bubble(wanted.low_degc).p_pa, max(bubble.p_pa for bubble in bubbles)
    over = np.exp(_nodes(np.log(p_low), np.log(p_high), CURVE_SAMPLES))
    boiling = _values(fluid.bubble_at, over)
    t, ln_dew = [(one.t_degc) for one in bubbles], [np.log(one.p_pa) for one in at_dew]
    curves = {
        "ln_p_bubble": _curve(t, [np.log(one.p_pa) for one in bubbles]),
        "ln_p_dew": _curve([one.t_degc for one in dews], [np.log(one.p_pa) for one in dews]),
        "t_bubble": _curve([np.log(p) for p, _ in boiling], [found for _, found in boiling]),
        "t_dew": _curve(ln_dew, [one.t_degc for one in at_dew]),
        "h_dew": _curve(ln_dew, [one.h_j_kg for one in at_dew]),
        "rho_liquid": _curve(t, [one.rho_kg_m3 for one in bubbles]),
        "ln_mu_liquid": _curve(t, [np.log(one.mu_pa_s) for one in bubbles]),
        "h_liquid": _curve(t, [one.h_j_kg for one in bubbles]),
    }
    surfaces, errors = _surfaces(fluid, low, high)
    errors = {name: curve.pop("error") for name, curve in curves.items()} | errors
    return {
        "name": wanted.name,
        "parts": dict(wanted.parts),
        "source": f"CoolProp {CoolProp.__version__}, HEOS",
        "note": _note(wanted),
        "curves": curves,
        "surfaces": surfaces,
        "fit_errors": {name: float(f"{error:.3g}") for name, error in errors.items()},
    }


def _note(wanted: Wanted) -> str:
    if len(wanted.parts) > 1:
        return "liquid viscosity by exp(sum x ln mu) over the parts by mole: the library has none that could be used"
    return "pseudo-pure" if wanted.name == "R-410A" else ""


def _nodes(low: float, high: float, count: int) -> np.ndarray[Any, Any]:
    """Chebyshev nodes over a range, its ends included."""
    return low + (high - low) * (1 - np.cos(np.linspace(0, np.pi, count))) / 2


def _states(read: Callable[[float], Saturated], at: Sequence[float] | np.ndarray[Any, Any]) -> list[Saturated]:
    """States that the library finds; near the critical point it fails for some of a blend's."""
    found = [state for _, state in _values(read, at)]
    if len(found) < 0.8 * len(at):
        raise ArithmeticError(f"the library finds {len(found)} of {len(at)} states")
    return found


def _values(read: Callable[[float], Any], at: Sequence[float] | np.ndarray[Any, Any]) -> list[tuple[float, Any]]:
    found = []
    for one in at:
        try:
            found.append((float(one), read(float(one))))
        except ValueError:
            continue
    return found


def _curve(x: Sequence[float], y: Sequence[float]) -> dict[str, Any]:
    """A series in one variable, with its largest error on the samples."""
    low, high = float(min(x)), float(max(x))
    scaled = (2 * np.asarray(x) - low - high) / (high - low)
    series = chebyshev.chebfit(scaled, np.asarray(y), CURVE_DEGREE)
    error = float(np.max(np.abs(chebyshev.chebval(scaled, series) - np.asarray(y))))
    return {"low": low, "high": high, "series": _short(series), "error": error}


def _surfaces(fluid: Reference, low: float, high: float) -> tuple[dict[str, Any], dict[str, float]]:
    """Series over ln p and the enthalpy above the dew point: ln rho, ln mu, temperature above the dew point."""
    points: list[tuple[float, float, float, float, float]] = []
    for p_pa in np.exp(_nodes(np.log(low), np.log(high), SAMPLES[0])):
        try:
            dew = fluid.dew_at(float(p_pa))
        except ValueError:
            continue
        for above in _nodes(0.0, MOST_ABOVE_J_KG, SAMPLES[1]):
            found = fluid.at_enthalpy(dew, float(above))
            points.append(
                (np.log(p_pa), above, np.log(found.rho_kg_m3), np.log(found.mu_pa_s), found.t_degc - dew.t_degc)
            )
    table = np.asarray(points)
    x = (2 * table[:, 0] - np.log(low) - np.log(high)) / (np.log(high) - np.log(low))
    y = 2 * table[:, 1] / MOST_ABOVE_J_KG - 1
    basis = chebyshev.chebvander2d(x, y, DEGREES)
    surfaces, errors = {}, {}
    for name, column in (("ln_rho_gas", 2), ("ln_mu_gas", 3), ("superheat", 4)):
        series, *_ = np.linalg.lstsq(basis, table[:, column], rcond=None)
        errors[name] = float(np.max(np.abs(basis @ series - table[:, column])))
        surfaces[name] = {
            "low": float(np.log(low)),
            "high": float(np.log(high)),
            "most": MOST_ABOVE_J_KG,
            "series": [_short(row) for row in series.reshape(DEGREES[0] + 1, DEGREES[1] + 1)],
        }
    return surfaces, errors


def _short(series: np.ndarray[Any, Any]) -> list[float]:
    return [float(f"{one:.{DIGITS}g}") for one in series]


if __name__ == "__main__":
    sys.exit(main())
