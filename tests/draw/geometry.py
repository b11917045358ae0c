"""What tests ask of a picture: boxes of texts, overlaps, primitives by id and role."""

from __future__ import annotations

from itertools import combinations

from linewright.draw.labels import Box, text_box
from linewright.draw.primitives import AnyPrimitive, Line, Scene, Text


def by_id(scene: Scene) -> dict[str, AnyPrimitive]:
    return {item.id: item for item in scene.primitives}


def of_role(scene: Scene, *roles: str) -> list[AnyPrimitive]:
    return [item for item in scene.primitives if item.role in roles]


def line(scene: Scene, name: str) -> Line:
    found = by_id(scene)[name]
    assert isinstance(found, Line)
    return found


def text(scene: Scene, name: str) -> Text:
    found = by_id(scene)[name]
    assert isinstance(found, Text)
    return found


def texts(scene: Scene, *roles: str) -> list[Text]:
    return [item for item in scene.primitives if isinstance(item, Text) and (not roles or item.role in roles)]


def box(item: Text) -> Box:
    return text_box(item.text, (item.x, item.y, item.anchor), size=item.size, weight=item.weight)


def overlaps(items: list[Text]) -> list[tuple[str, str]]:
    """Texts that share ground, by id."""
    boxes = [(item.id, box(item)) for item in items]
    return [(one, other) for (one, first), (other, second) in combinations(boxes, 2) if first.meets(second)]
