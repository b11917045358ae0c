"""Drawings as files of the hand-over set: each sheet as SVG and as DXF."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from linewright.app.drawings import Kind, Request, drawings
from linewright.app.project import Project
from linewright.draw.dxf import dxf
from linewright.draw.paper import paper_svg
from linewright.engine import Evaluation
from linewright.report.schedules import About
from linewright.units import UnitSystem


def drawing_files(
    project: Project,
    evaluation: Evaluation,
    names: Sequence[str],
    about: About,
    *,
    request: Request,
    system: UnitSystem,
    progress: Callable[[str], None],
) -> dict[str, bytes]:
    """Draw every system; `names` are those of its files, `about` is what every file says of itself."""
    files: dict[str, bytes] = {}
    for name, result in zip(names, evaluation.systems, strict=True):
        for kind in Kind:
            progress(f"{kind.value} of {result.id}")
            sheets = drawings(project, evaluation, result, kind, request=request, system=system)
            for number, drawing in enumerate(sheets, start=1):
                part = f"-{number}" if len(sheets) > 1 else ""
                place = f"drawings/{name}-{kind.value}{part}"
                svg = paper_svg(drawing, said=about.text()).encode()
                files |= {f"{place}.svg": svg, f"{place}.dxf": dxf(drawing, about.rows())}
    return files
