"""A comparison as files: the words, the numbers, and a marked-up sheet for each system."""

from __future__ import annotations

import hashlib
import json

from linewright.app.marking import Sides, marked_sheets
from linewright.report.compared import compared_json, compared_text
from linewright.units import UnitSystem

CONTENTS = "contents.json"


def comparison_files(sides: Sides, system: UnitSystem) -> dict[str, bytes]:
    """Give every file of a comparison by its name."""
    found = sides.found.compared
    files = {
        "compare.txt": f"{compared_text(found, system=system, colour=False)}\n".encode(),
        "compare.json": _json(compared_json(found)),
    }
    files |= {f"sheets/{name}": text.encode() for name, text in marked_sheets(sides, system).items()}
    hashes = {name: hashlib.sha256(data).hexdigest() for name, data in sorted(files.items())}
    return files | {CONTENTS: _json({"files": hashes})}


def _json(data: object) -> bytes:
    return (json.dumps(data, indent=1, ensure_ascii=False, allow_nan=False) + "\n").encode()
