"""Whether what a design states of its pipework can be: amounts above zero."""

from __future__ import annotations

from linewright.model.pipework import Pipework
from linewright.model.soundness.notes import Notes
from linewright.model.values import key_of

_ABOVE_ZERO = (
    "stress_pa",
    "listed_pa",
    "design_pressure_pa",
    "conductivity",
    "surface",
    "support_spacing_m",
)
_MOST_TOLERANCE = 0.5


def check_pipework(stated: Pipework | None, notes: Notes) -> None:
    """Note every fault of what is stated of pipework; what is only beyond a formula is a result."""
    if stated is None:
        return
    for name in _ABOVE_ZERO:
        number = getattr(stated, name)
        if number is not None and number <= 0:
            _not_above_zero(f"pipework.{key_of(name)}", notes)
    for i, thickness in enumerate(stated.stock_m):
        if thickness <= 0:
            _not_above_zero(f"pipework.stock[{i}]", notes)
    for name, air in (("outdoor_air", stated.outdoor_air), ("indoor_air", stated.indoor_air)):
        if air is not None and air.humidity is not None and air.humidity <= 0:
            _not_above_zero(f"pipework.{name}.humidity", notes)
    tolerance = stated.wall_tolerance
    if tolerance is not None and not 0 <= tolerance < _MOST_TOLERANCE:
        where = "pipework.wall_tolerance"
        notes.derive(where, f"no wall differs by {notes.written(where)}", "a share of the wall such as 10 %")


def _not_above_zero(where: str, notes: Notes) -> None:
    notes.derive(where, f"nothing here is as small as {notes.written(where)}", "more than zero")
