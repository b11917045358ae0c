"""What differs between two scenes of one sheet, as plain data: less to send, and less to paint anew."""

from __future__ import annotations

from linewright.draw.primitives import Scene
from linewright.draw.scene_json import frame_json, primitive_json

SCHEMA = "linewright/scene-changes/1"


def scene_changes(before: Scene, after: Scene) -> dict[str, object]:
    """Give what makes one scene of the other (docs/reference/scene.md).

    `sequence`, the ids in paint order, is given only where it is another one than before without what is gone.
    """
    old = {item.id: item for item in before.primitives}
    new = {item.id for item in after.primitives}
    changed = [
        primitive_json(item, order)
        for order, item in enumerate(after.primitives)
        if (known := old.get(item.id)) is not item and known != item
    ]
    kept = [item.id for item in before.primitives if item.id in new]
    sequence = [item.id for item in after.primitives]
    return {
        "schema": SCHEMA,
        **{key: value for key, value in frame_json(after).items() if key != "schema"},
        "gone": sorted(name for name in old if name not in new),
        "changed": changed,
        "sequence": None if kept == sequence else sequence,
    }
