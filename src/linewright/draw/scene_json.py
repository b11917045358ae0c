"""A scene as plain data, for the page and for whoever draws it elsewhere (docs/reference/scene.md)."""

from __future__ import annotations

from dataclasses import fields
from functools import cache

from linewright.draw.primitives import AnyPrimitive, Scene

SCHEMA = "linewright/scene/1"

# Fields that are lengths on the page; their keys carry the unit.
_PIXELS = {"x", "y", "x1", "y1", "x2", "y2", "width", "height", "radius", "stroke", "size"}


def scene_json(scene: Scene) -> dict[str, object]:
    """Give a scene as a JSON object: lists sorted by id, paint order in `order`, keys with their units."""
    primitives = [_primitive(item, order) for order, item in enumerate(scene.primitives)]
    groups = [
        {"id": group.id, "label": group.label, "aria": group.aria, "parent": group.parent} for group in scene.groups
    ]
    return {
        "schema": SCHEMA,
        "title": scene.title,
        "description": scene.description,
        "width_px": scene.width,
        "height_px": scene.height,
        "units": scene.units,
        "axis": {
            "name": scene.axis.name,
            "origin_px": scene.axis.origin_px,
            "px_per_m": scene.axis.px_per_m,
            "from_m": scene.axis.from_m,
            "to_m": scene.axis.to_m,
        },
        "groups": sorted(groups, key=lambda group: group["id"]),
        "primitives": sorted(primitives, key=lambda item: str(item["id"])),
    }


def _primitive(item: AnyPrimitive, order: int) -> dict[str, object]:
    cls: type = type(item)
    kind, keys = _keys(cls)
    found: dict[str, object] = {"kind": kind, "order": order}
    for name, key in keys:
        value = getattr(item, name)
        if value is not None and (value or name != "title"):
            found[key] = value
    return found


@cache
def _keys(cls: type) -> tuple[str, tuple[tuple[str, str], ...]]:
    """Kind of a primitive, and its fields with their keys."""
    keys = ((field.name, field.name + "_px" if field.name in _PIXELS else field.name) for field in fields(cls))
    return cls.__name__.lower(), tuple(keys)
