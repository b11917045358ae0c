"""Drawings on pages: on the smallest paper of its family on which all text is tall enough as printed."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.draw import Scene, svg
from linewright.draw.primitives import Text
from linewright.report.pdf.blocks import Picture
from linewright.report.pdf.papers import FOOT_MM, HEAD_MM, LEAST_TEXT_MM, MARGIN_MM, SIZES, Paper

#: Room for the line below a picture [mm].
_CAPTION_MM = 8.0


def picture(scene: Scene, paper: Paper, what: str) -> Picture:
    """A scene fitted to a page; where no paper is large enough for its text, its caption says so."""
    least = min((item.size for item in scene.primitives if isinstance(item, Text)), default=0.0)
    tried = list(_pages(scene, paper))
    name, page, scale = next((one for one in tried if least * one[2] >= LEAST_TEXT_MM), tried[-1])
    text_mm = least * scale
    words = f"{what}. Page {name}, not to scale; smallest text {text_mm:.1f} mm as printed on {name}."
    if least and text_mm < LEAST_TEXT_MM:
        words += f" SMALLER THAN {LEAST_TEXT_MM:g} mm: no paper of this family holds the sheet with larger text."
    return Picture(what, svg(scene, embed_fonts=False), scene.width * scale, scene.height * scale, page, words)


def _pages(scene: Scene, paper: Paper) -> Iterator[tuple[str, tuple[float, float], float]]:
    """Name, width and height [mm] of every page, and millimetres for each unit of the scene, smallest page first."""
    for name, short, long in SIZES[paper]:
        lying = [((wide, high), _scale(scene, wide, high)) for wide, high in ((long, short), (short, long))]
        page, scale = max(lying, key=lambda item: item[1])
        yield name, page, scale


def _scale(scene: Scene, wide: float, high: float) -> float:
    return min((wide - 2 * MARGIN_MM) / scene.width, (high - HEAD_MM - FOOT_MM - _CAPTION_MM) / scene.height)
