"""Documents on paper: blocks of plain data, set by one typst template into PDF."""

from linewright.report.pdf.fronts import Front, document_of
from linewright.report.pdf.making import pdf
from linewright.report.pdf.papers import Paper
from linewright.report.pdf.set_document import Parts, report_document

__all__ = ["Front", "Paper", "Parts", "document_of", "pdf", "report_document"]
