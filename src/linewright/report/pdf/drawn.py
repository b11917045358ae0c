"""Drawings of the set as one document, each page as large as its drawing and true to its scale."""

from __future__ import annotations

import re
from collections.abc import Mapping

from linewright.report.pdf.blocks import Document, Drawn
from linewright.report.pdf.papers import Paper
from linewright.report.schedules.about import About

_ROOT = re.compile(r'<svg [^>]*?width="([0-9.]+)mm" height="([0-9.]+)mm"')
#: Faces within a picture are not read: the document has its own.
_FACES = re.compile(r"@font-face\{[^}]*\}")


def drawings_document(drawings: Mapping[str, bytes], about: About) -> Document | None:
    """All drawings in the order of their names; none where there is none. Their title blocks say what they are of."""
    pages = tuple(_drawn(drawings[name].decode()) for name in sorted(drawings))
    return Document("Drawings", about.project, "", "", "", Paper.A4, pages) if pages else None


def _drawn(svg: str) -> Drawn:
    """Raises ValueError for a picture that does not say how large it is."""
    found = _ROOT.search(svg)
    if found is None:
        raise ValueError("a drawing without a width and a height in mm")
    return Drawn(_FACES.sub("", svg), (float(found[1]), float(found[2])))
