"""Sweeps: one design judged again and again with other values."""

from linewright.explore.sweeps.columns import Cell, Column, Plan, plan_columns, subjects_shown
from linewright.explore.sweeps.rows import NO_DESIGN, Bench, Row, judge_row

__all__ = ["NO_DESIGN", "Bench", "Cell", "Column", "Plan", "Row", "judge_row", "plan_columns", "subjects_shown"]
