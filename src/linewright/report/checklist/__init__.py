"""The installer's checklist: what is to be done, set, cut, asked and signed, as tables for every format."""

from linewright.report.checklist.building import checklist
from linewright.report.checklist.writing import checklist_blocks, checklist_text

__all__ = ["checklist", "checklist_blocks", "checklist_text"]
