"""What differs between two scenes of one sheet, as plain data: less to send, and less to paint anew."""

from __future__ import annotations

from itertools import compress, count
from operator import is_not
from typing import NamedTuple, TypeAlias

from linewright.draw.primitives import AnyPrimitive, Scene
from linewright.draw.scene_json import frame_json, primitive_json

SCHEMA = "linewright/scene-changes/1"
Primitives: TypeAlias = tuple[AnyPrimitive, ...]


class _Changes(NamedTuple):
    """Ids that are gone, places in paint order of what is new or differs, and all ids in paint order if they do."""

    gone: list[str]
    changed: list[int]
    sequence: list[str] | None


def scene_changes(before: Scene, after: Scene) -> dict[str, object]:
    """Give what makes one scene of the other (docs/reference/scene.md).

    `sequence`, the ids in paint order, is given only where it is another one than before without what is gone.
    """
    same = changed_places(before.primitives, after.primitives)
    found = _changes(before.primitives, after.primitives) if same is None else _Changes([], same, None)
    return {
        "schema": SCHEMA,
        **{key: value for key, value in frame_json(after).items() if key != "schema"},
        "gone": found.gone,
        "changed": [primitive_json(after.primitives[at], at) for at in found.changed],
        "sequence": found.sequence,
    }


def changed_places(before: Primitives, after: Primitives) -> list[int] | None:
    """Give the places in paint order at which primitives differ; none where these are not of the same ids in order."""
    if len(before) != len(after):
        return None
    others = compress(count(), map(is_not, before, after))
    changed = [at for at in others if before[at] != after[at]]
    return changed if all(before[at].id == after[at].id for at in changed) else None


def _changes(before: Primitives, after: Primitives) -> _Changes:
    old = {item.id: item for item in before}
    sequence = [item.id for item in after]
    new = set(sequence)
    changed = [at for at, item in enumerate(after) if (known := old.get(item.id)) is not item and known != item]
    kept = [name for name in old if name in new]
    return _Changes(sorted(old.keys() - new), changed, None if kept == sequence else sequence)
