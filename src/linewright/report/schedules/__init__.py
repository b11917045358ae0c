"""Schedules: plain tables built once from an evaluation and a take-off, and written by several writers."""

from linewright.report.schedules.about import About, BookOf
from linewright.report.schedules.building import schedules
from linewright.report.schedules.tables import Column, Of, Table
from linewright.report.schedules.writing import table_csv, tables_json, workbook

__all__ = ["About", "BookOf", "Column", "Of", "Table", "schedules", "table_csv", "tables_json", "workbook"]
