"""Scenes that were sent: who holds one is sent what differs from it."""

from __future__ import annotations

from collections.abc import Hashable, Mapping
from itertools import count
from typing import Any, NamedTuple
from uuid import uuid4

import orjson

from linewright.app.keeping.memory import Memory
from linewright.draw import Scene
from linewright.draw.primitives import AnyPrimitive
from linewright.draw.scene_changes import changed_places, scene_changes
from linewright.draw.scene_json import frame_json, primitive_json
from linewright.web.requests import View

#: So many scenes are kept: those of a few pages with a few views.
_MOST = 16
#: Parts of a view that say how it is answered.
_OF_ANSWER = ("since", "tree")


class _Sent(NamedTuple):
    """A scene as it was sent, and what its sheet is of."""

    sheet: Hashable
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


class _Written(NamedTuple):
    """A scene as it was written last: its primitives, in paint order, with the place of each in the order of ids."""

    primitives: tuple[AnyPrimitive, ...]
    parts: list[_Part]
    places: list[int]
    texts: list[orjson.Fragment]

    def of(self, primitives: tuple[AnyPrimitive, ...]) -> _Written:
        """Write another scene; a primitive that is as it was in this one is not written again."""
        changed = changed_places(self.primitives, primitives)
        if changed is None:
            return self._reordered(primitives)
        parts, texts = self.parts.copy(), self.texts.copy()
        for at in changed:
            parts[at] = _Part.of(primitives[at], at)
            texts[self.places[at]] = parts[at].text
        return _Written(primitives, parts, self.places, texts)

    def _reordered(self, primitives: tuple[AnyPrimitive, ...]) -> _Written:
        known = {part.item.id: part for part in self.parts}
        parts = [_part(item, order, known) for order, item in enumerate(primitives)]
        by_id = sorted(range(len(parts)), key=lambda at: primitives[at].id)
        places = [0] * len(parts)
        for place, at in enumerate(by_id):
            places[at] = place
        return _Written(primitives, parts, places, [parts[at].text for at in by_id])


def _part(item: AnyPrimitive, order: int, known: Mapping[str, _Part]) -> _Part:
    """Give a primitive as text; of one that stood in the scene before, the same."""
    before = known.get(item.id)
    if before is None or (before.item is not item and before.item != item):
        return _Part.of(item, order)
    return before if before.order == order else before.at(order)


class Scenes:
    """The scenes that were sent last, each under a mark of its own, `drawn`."""

    def __init__(self) -> None:
        """Start with none."""
        self._sent: Memory[str, _Sent | None] = Memory(_MOST)
        # A page may hold what a server sent that is gone: no two of them give the same mark.
        self._run, self._count = uuid4().hex, count()
        self._written = _Written((), [], [], [])

    def whole(self, document: int, view: View, scene: Scene) -> dict[str, Any]:
        """Give a scene as `linewright/scene/1`, with its mark."""
        self._written = written = self._written.of(scene.primitives)
        return {**frame_json(scene), "primitives": written.texts, "drawn": self._kept(_sheet(document, view), scene)}

    def either(self, document: int, view: View, scene: Scene) -> dict[str, Any]:
        """Give what of an answer carries a scene: what differs from the one that is held, else all of it."""
        held, sheet = self._sent.get(view.since, lambda: None) if view.since else None, _sheet(document, view)
        if held is None or held.sheet != sheet:
            return {"scene": self.whole(document, view, scene)}
        mark = self._kept(sheet, scene)
        return {"scene_changes": {**scene_changes(held.scene, scene), "since": view.since, "drawn": mark}}

    def _kept(self, sheet: Hashable, scene: Scene) -> str:
        mark = f"{self._run}-{next(self._count)}"
        self._sent.put(mark, _Sent(sheet, scene))
        return mark


def _sheet(document: int, view: View) -> Hashable:
    """Give what decides what a sheet looks like, besides the design: all of a view but how it is answered."""
    return document, *[value for name, value in view if name not in _OF_ANSWER]
