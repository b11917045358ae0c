"""Scenes that were sent: who holds one is sent what differs from it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple
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
    """A primitive as JSON text: before and behind its place in the order of painting, and with one."""

    item: AnyPrimitive
    before: bytes
    behind: bytes
    order: int
    text: orjson.Fragment

    @classmethod
    def of(cls, item: AnyPrimitive, order: int) -> _Part:
        """Write a primitive."""
        before, place, behind = orjson.dumps(primitive_json(item, 0)).partition(b'"order":0')
        return cls(item, before + place[:-1], behind, order, _text(before + place[:-1], order, behind))

    def at(self, order: int) -> _Part:
        """Give it at another place in the order."""
        return _Part(self.item, self.before, self.behind, order, _text(self.before, order, self.behind))


def _text(before: bytes, order: int, behind: bytes) -> orjson.Fragment:
    return orjson.Fragment(b"%s%d%s" % (before, order, behind))


class Scenes:
    """The scenes that were sent last, each under a mark of its own, `drawn`."""

    def __init__(self) -> None:
        """Start with none."""
        self._sent: Memory[str, _Sent | None] = Memory(_MOST)
        self._written: dict[str, _Part] = {}

    def whole(self, document: int, view: View, scene: Scene) -> dict[str, Any]:
        """Give a scene as `linewright/scene/1`, with its mark."""
        known = self._written
        written = {item.id: self._part(item, order, known) for order, item in enumerate(scene.primitives)}
        self._written = written
        primitives = [written[name].text for name in sorted(written)]
        return {**frame_json(scene), "primitives": primitives, "drawn": self._kept(document, view, scene)}

    @staticmethod
    def _part(item: AnyPrimitive, order: int, known: Mapping[str, _Part]) -> _Part:
        """Give a primitive as text; of the very one that stood in the scene before, the same."""
        before = known.get(item.id)
        if before is None or before.item is not item:
            return _Part.of(item, order)
        return before if before.order == order else before.at(order)

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
