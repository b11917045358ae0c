"""What a new design starts with."""

from __future__ import annotations

from linewright.document.saving import dump_design
from linewright.model.design import Design, Site


def empty_design(name: str) -> str:
    """Text of a design in which nothing stands but its name."""
    return dump_design(Design(project=name, site=Site()))
