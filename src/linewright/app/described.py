"""An element of a design in a few words, for whoever has it no longer or not yet before them."""

from __future__ import annotations

from linewright.app.keeping.comparing import elements_of, shown
from linewright.document.encode import Style
from linewright.model.design import Design
from linewright.model.edits.values import Kind

#: What is said of an element, by its kind; of others only that it is there.
_SAID: dict[Kind, tuple[str, ...]] = {
    Kind.UNIT: ("model", "room"),
    Kind.RUN: ("from_", "length_m", "location"),
    Kind.PIPE: ("from_", "length_m"),
    Kind.FITTING: ("kind", "elevation_m"),
    Kind.MODULE: ("model",),
    Kind.ROOM: ("name", "level", "area_m2"),
    Kind.SYSTEM: ("book",),
    Kind.LEVEL: ("elevation_m",),
}


def described(design: Design, element: str) -> str:
    """Say what an element is, as its fields would stand in a file."""
    kind, item = elements_of(design)[element]
    how = Style(design.units)
    said = [shown(getattr(item, field), kind, field, how) for field in _SAID.get(kind, ())]
    return ", ".join(filter(None, said)) or "there"
