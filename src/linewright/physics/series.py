"""Chebyshev series in one and in two variables, as they are shipped; outside their range there is no value."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

Array: TypeAlias = NDArray[np.float64]
#: So much beyond an end, as a share of the range, is the end: a value that came out of another series may miss it.
_WOBBLE = 1e-9


class Curve(NamedTuple):
    """A series in one variable over [low, high]."""

    low: float
    high: float
    series: Array

    def __call__(self, x: Array) -> Array:
        """Value at each x; NaN outside."""
        found: Array = _basis(x, self.low, self.high, len(self.series)) @ self.series
        return found


class Surface(NamedTuple):
    """A series over x in [low, high] and y in [0, most]."""

    low: float
    high: float
    most: float
    series: Array

    def __call__(self, x: Array, y: Array) -> Array:
        """Value at each pair; NaN outside."""
        along = _basis(x, self.low, self.high, self.series.shape[0])
        across = _basis(y, 0.0, self.most, self.series.shape[1])
        found: Array = np.sum((along @ self.series) * across, axis=-1)
        return found


def together(x: Array, y: Array, *surfaces: Surface) -> list[Array]:
    """Values of several series over the same range, which share the work."""
    first = surfaces[0]
    along = _basis(x, first.low, first.high, first.series.shape[0])
    across = _basis(y, 0.0, first.most, first.series.shape[1])
    return [np.sum((along @ one.series) * across, axis=-1) for one in surfaces]


def both(x: Array, first: Curve, second: Curve) -> tuple[Array, Array]:
    """Values of two series over the same range and of the same degree, which share the work."""
    found = _basis(x, first.low, first.high, len(first.series)) @ np.stack([first.series, second.series], axis=1)
    return found[..., 0], found[..., 1]


def above(x: Array, level: Array, base: Curve, *surfaces: Surface) -> list[Array]:
    """Values of series at x and as far as `level` stands above `base` there; where ranges agree they share the work."""
    first = surfaces[0]
    if max(abs(base.low - first.low), abs(base.high - first.high)) > _WOBBLE * (base.high - base.low):
        return together(x, level - base(x), *surfaces)
    along = _basis(x, base.low, base.high, max(len(base.series), first.series.shape[0]))
    over = level - along[..., : len(base.series)] @ base.series
    across = _basis(over, 0.0, first.most, first.series.shape[1])
    short = along[..., : first.series.shape[0]]
    return [np.sum((short @ one.series) * across, axis=-1) for one in surfaces]


def curve(stored: dict[str, Any]) -> Curve:
    """Read a series in one variable."""
    return Curve(stored["low"], stored["high"], np.array(stored["series"]))


def surface(stored: dict[str, Any]) -> Surface:
    """Read a series in two variables."""
    return Surface(stored["low"], stored["high"], stored["most"], np.array(stored["series"]))


def fitted(values: Callable[[Array], Array], low: float, high: float, degree: int) -> Curve:
    """A series through a function at the Chebyshev nodes of a range."""
    angle = np.pi * (np.arange(degree + 1) + 0.5) / (degree + 1)
    found = values((low + high + (high - low) * np.cos(angle)) / 2)
    series = 2.0 / (degree + 1) * (np.cos(np.outer(np.arange(degree + 1), angle)) @ found)
    series[0] /= 2.0
    return Curve(low, high, series)


def _basis(x: Array, low: float, high: float, count: int) -> Array:
    """T_k(x) = cos(k arccos x) for every x, on the last axis; NaN outside."""
    scaled = (2.0 * np.asarray(x) - low - high) / (high - low)
    inside = np.where(np.abs(scaled) <= 1.0 + _WOBBLE, np.clip(scaled, -1.0, 1.0), np.nan)
    found: Array = np.cos(np.arccos(inside)[..., np.newaxis] * np.arange(count))
    return found
