"""Scenes that were sent: who holds one is sent what differs from it."""

from __future__ import annotations

from typing import Any, NamedTuple
from uuid import uuid4

from linewright.app.keeping.memory import Memory
from linewright.draw import Scene, scene_json
from linewright.draw.scene_changes import scene_changes
from linewright.web.requests import View

#: So many scenes are kept: those of a few pages with a few views.
_MOST = 16


class _Sent(NamedTuple):
    """A scene as it was sent, and what it is of."""

    document: int
    view: View
    scene: Scene


class Scenes:
    """The scenes that were sent last, each under a mark of its own, `drawn`."""

    def __init__(self) -> None:
        """Start with none."""
        self._sent: Memory[str, _Sent | None] = Memory(_MOST)

    def whole(self, document: int, view: View, scene: Scene) -> dict[str, Any]:
        """Give a scene as `linewright/scene/1`, with its mark."""
        return {**scene_json(scene), "drawn": self._kept(document, view, scene)}

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
