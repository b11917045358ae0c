"""A design as it would be after edits, judged; nothing is kept of it."""

from __future__ import annotations

import json
from collections.abc import Sequence
from typing import Any, NamedTuple

from linewright.app.keeping.kinds import DESIGN
from linewright.app.keeping.workspace import Workspace, judged
from linewright.engine import Evaluation
from linewright.model.edits import Touched
from linewright.store import Document


class Preview(NamedTuple):
    """What a design would come to, and what the edits touch."""

    document: Document
    before: Evaluation
    after: Evaluation
    touched: Touched


def preview(workspace: Workspace, design: int, base: int, edits: Sequence[dict[str, Any]]) -> Preview:
    """Make edits of a revision and judge what comes of it, without keeping it.

    Raises InputFaultsError where they are not understood, cannot be made, or name what the books do not hold,
    NotThereError.
    """
    found = workspace.document(DESIGN.name, design)
    before = workspace.judge(found, base)
    applied = DESIGN.apply(before.design, DESIGN.read_edits(json.dumps(list(edits)), before.design))
    after = judged(applied.value, workspace.shelf(found.project_id))
    return Preview(found, before, after, applied.touched)
