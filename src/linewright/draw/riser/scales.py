"""Scales of heights: the usual ones of either system, and a bar to measure by."""

from __future__ import annotations

from typing import NamedTuple

from linewright.draw.paper.marks import Measure
from linewright.units import Dimension, UnitSystem, unit_label


def height_places(system: UnitSystem) -> int:
    """Give the decimals of a height: centimetres, or tenths of a foot."""
    return 2 if system is UnitSystem.SI else 1


class Scale(NamedTuple):
    """A scale: how many metres one metre of paper stands for, and its name."""

    ratio: int
    name: str

    def mm(self, metres: float) -> float:
        """Give a height on paper [mm]."""
        return metres * 1000.0 / self.ratio

    def measure(self, system: UnitSystem) -> Measure:
        """Give how heights are read off a drawing to this scale: in metres or in feet."""
        unit = unit_label(Dimension.LENGTH, system)
        factor = self.ratio / 1000.0 if system is UnitSystem.SI else self.ratio / 304.8
        return Measure(factor, unit, height_places(system))


_METRIC = tuple(Scale(ratio, f"1:{ratio}") for ratio in (25, 50, 100, 200, 250))
#: Those of an architect's scale, from memory.
_FEET = tuple(
    Scale(ratio, f'{inch}" = 1\'-0"')
    for ratio, inch in ((24, "1/2"), (48, "1/4"), (96, "1/8"), (128, "3/32"), (192, "1/16"), (256, "3/64"))
)


def scales(system: UnitSystem) -> tuple[Scale, ...]:
    """Give the scales of a system, the largest drawing first."""
    return _METRIC if system is UnitSystem.SI else _FEET
