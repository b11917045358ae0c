"""Scenes that were sent: who holds one is sent what differs from it."""

from __future__ import annotations

from typing import Any, NamedTuple, TypeAlias
from uuid import uuid4

import orjson

from linewright.app.keeping.memory import Memory
from linewright.draw import Scene
from linewright.draw.primitives import AnyPrimitive
from linewright.draw.scene_changes import scene_changes
from linewright.draw.scene_json import frame_json, primitive_json
from linewright.web.requests import View

#: So many scenes are kept: those of a few pages with a few views.
_MOST = 16


class _Sent(NamedTuple):
    """A scene as it was sent, and what it is of."""

    document: int
    view: View
    scene: Scene


class _Part(NamedTuple):
    """A primitive at its place in the order of painting, and both as JSON text."""

    item: AnyPrimitive
    order: int
    text: orjson.Fragment


#: The parts of the scene that was sent last as a whole, by the place in memory of what they keep.
_Written: TypeAlias = dict[int, _Part]


class Scenes:
    """The scenes that were sent last, each under a mark of its own, `drawn`."""

    def __init__(self) -> None:
        """Start with none."""
        self._sent: Memory[str, _Sent | None] = Memory(_MOST)
        self._written: _Written = {}

    def whole(self, document: int, view: View, scene: Scene) -> dict[str, Any]:
        """Give a scene as `linewright/scene/1`, with its mark."""
        written = {id(item): self._part(item, order) for order, item in enumerate(scene.primitives)}
        self._written = written
        primitives = [part.text for part in sorted(written.values(), key=lambda part: part.item.id)]
        return {**frame_json(scene), "primitives": primitives, "drawn": self._kept(document, view, scene)}

    def _part(self, item: AnyPrimitive, order: int) -> _Part:
        """Give a primitive as text; of the very one that stood there in the scene before, the same."""
        before = self._written.get(id(item))
        if before is not None and before.item is item and before.order == order:
            return before
        return _Part(item, order, orjson.Fragment(orjson.dumps(primitive_json(item, order))))

    def either(self, document: int, view: View, scene: Scene) -> dict[str, Any]:
        """Give what of an answer carries a scene: what differs from the one that is held, else all of it."""
        held = self._sent.get(view.since, lambda: None) if view.since else None
        if held is None or (held.document, _kind(held.view)) != (document, _kind(view)):
            return {"scene": self.whole(document, view, scene)}
        mark = self._kept(document, view, scene)
        return {"scene_changes": {**scene_changes(held.scene, scene), "since": view.since, "drawn": mark}}

    def _kept(self, document: int, view: View, scene: Scene) -> str:
        mark = uuid4().hex
        self._sent.put(mark, _Sent(document, view, scene))
        return mark


def _kind(view: View) -> View:
    """What of a view decides what its sheet looks like."""
    return view.model_copy(update={"since": "", "tree": False})
