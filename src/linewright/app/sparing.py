"""What the systems of a design have to spare."""

from __future__ import annotations

from collections.abc import Collection

from linewright.app.only_systems import check_systems
from linewright.app.project import Project
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
    check_systems(project, () if system is None else (system,))
    return tuple(
        headroom(design, project.library, name, kinds=kinds, beside=beside, progress=progress)
        for name in names
        if system in (None, name)
    )
