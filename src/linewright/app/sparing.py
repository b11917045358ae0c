"""What the systems of a design have to spare."""

from __future__ import annotations

from collections.abc import Collection
from pathlib import Path

from linewright.app.project import Project
from linewright.errors import Fault, InputFaultsError, one_of, quoted
from linewright.explore.headroom import Progress, headroom
from linewright.explore.headroom_records import GrowthKind, Headroom


def spare(
    project: Project, system: str | None, kinds: Collection[GrowthKind], *, beside: bool, progress: Progress
) -> tuple[Headroom, ...]:
    """Find the headroom of one system, or of each where none is named.

    Raises InputFaultsError for a system that the design does not have.
    """
    design = project.loaded.design
    names = sorted(item.id for item in design.systems)
    if system is not None and system not in names:
        raise InputFaultsError((_no_system(Path(project.loaded.source.file), system, names),))
    return tuple(
        headroom(design, project.library, name, kinds=kinds, beside=beside, progress=progress)
        for name in names
        if system in (None, name)
    )


def _no_system(file: Path, system: str, names: list[str]) -> Fault:
    return Fault(
        file=str(file),
        line=0,
        column=0,
        path="systems",
        value=system,
        message=f"there is no system {quoted(system)}",
        expected=one_of(system, names, otherwise="none: the design has no systems"),
    )
