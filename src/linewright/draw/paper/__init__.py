"""Drawings on paper in millimetres: papers, what is painted, the sheet around a drawing, and the painters."""

from linewright.draw.paper.divide import TooSmallError
from linewright.draw.paper.marks import Drawing
from linewright.draw.paper.papers import PAPERS, Paper, next_paper
from linewright.draw.paper.svg import paper_svg

__all__ = ["PAPERS", "Drawing", "Paper", "TooSmallError", "next_paper", "paper_svg"]
