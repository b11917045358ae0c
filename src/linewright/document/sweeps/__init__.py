"""Sweeps from a file: what is varied, over what, and what is to be tabulated."""

from linewright.document.sweeps.reading import sweep_from_text
from linewright.document.sweeps.values import MOST_ROWS, Axis, Case, ChartOf, Combine, Place, Sweep

__all__ = ["MOST_ROWS", "Axis", "Case", "ChartOf", "Combine", "Place", "Sweep", "sweep_from_text"]
