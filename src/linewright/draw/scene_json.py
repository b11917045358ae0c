"""A scene as plain data, for the page and for whoever draws it elsewhere (docs/reference/scene.md)."""

from __future__ import annotations

from functools import lru_cache
from operator import itemgetter

from linewright.draw.primitives import AnyPrimitive, Circle, Group, Hatch, Line, Rect, Scene, Text

SCHEMA = "linewright/scene/1"

_KINDS: dict[type, str] = {cls: cls.__name__.lower() for cls in (Line, Rect, Hatch, Circle, Text)}


def scene_json(scene: Scene) -> dict[str, object]:
    """Give a scene as a JSON object: lists sorted by id, paint order in `order`, keys with their units."""
    primitives = [primitive_json(item, order) for order, item in enumerate(scene.primitives)]
    return {**frame_json(scene), "primitives": sorted(primitives, key=itemgetter("id"))}


def frame_json(scene: Scene) -> dict[str, object]:
    """Give a scene without what is painted on it."""
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
        "groups": _groups(scene.groups),
    }


@lru_cache(maxsize=100)
def _groups(groups: tuple[Group, ...]) -> list[dict[str, str]]:
    """Give groups as JSON objects, sorted by id; a sheet has those of the revision before. They are read only."""
    found = [{"id": group.id, "label": group.label, "aria": group.aria, "parent": group.parent} for group in groups]
    return sorted(found, key=itemgetter("id"))


def primitive_json(item: AnyPrimitive, order: int) -> dict[str, object]:
    """Give one primitive with its place in the order of painting."""
    found: dict[str, object] = {
        "kind": _KINDS[type(item)],
        "order": order,
        "id": item.id,
        "role": item.role,
        "css": item.css,
        "group": item.group,
    }
    if item.title:
        found["title"] = item.title
    if item.x0_m is not None:
        found["x0_m"] = item.x0_m
    if item.x1_m is not None:
        found["x1_m"] = item.x1_m
    _add_shape(found, item)
    return found


def _add_shape(found: dict[str, object], item: AnyPrimitive) -> None:
    match item:
        case Line():
            found["x1_px"] = item.x1
            found["y1_px"] = item.y1
            found["x2_px"] = item.x2
            found["y2_px"] = item.y2
            found["stroke_px"] = item.stroke
        case Text():
            found["x_px"] = item.x
            found["y_px"] = item.y
            found["text"] = item.text
            found["size_px"] = item.size
            found["weight"] = item.weight
            found["anchor"] = item.anchor
        case Rect() | Hatch():
            found["x_px"] = item.x
            found["y_px"] = item.y
            found["width_px"] = item.width
            found["height_px"] = item.height
            if isinstance(item, Rect):
                found["radius_px"] = item.radius
        case Circle():
            found["x_px"] = item.x
            found["y_px"] = item.y
            found["radius_px"] = item.radius
