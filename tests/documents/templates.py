"""Everything that the program can say is wrong with a document, read from its source as patterns."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

SOURCES = Path(__file__).parents[2] / "src" / "linewright"
FOLDERS = ("document", "model", "book", "takeoff", "report", "app")
#: Calls that note a fault, with the position of what is wrong among their arguments.
NOTING = {"fault": 1, "fault_at": 1, "derive": 1, "report": 1, "refuse": 1, "_refused": 1, "Oddity": 0}
NOTING |= {"NoPlaceError": 0, "_MissingError": 0, "_note_cell": 2}


def templates() -> dict[str, str]:
    """Regular expressions of all messages, each with the file that says it."""
    found: dict[str, str] = {}
    for folder in FOLDERS:
        for path in sorted((SOURCES / folder).rglob("*.py")):
            for text in _messages(ast.parse(path.read_text(encoding="utf-8"))):
                found[text] = path.name
    return found


def _messages(tree: ast.Module) -> Iterator[str]:
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            position = NOTING.get(_name(node.func), -1)
            if 0 <= position < len(node.args):
                yield from _texts(node.args[position])
            yield from (text for word in node.keywords if word.arg == "message" for text in _texts(word.value))
        elif isinstance(node, ast.Assign) and _targets(node) == ["message"]:
            yield from _texts(node.value)
        elif isinstance(node, ast.Assign | ast.AnnAssign) and _targets(node) in (["_PROBLEMS"], ["TOO_DEEP"]):
            yield from _table(node.value)


def _name(function: ast.expr) -> str:
    return function.attr if isinstance(function, ast.Attribute) else getattr(function, "id", "")


def _targets(node: ast.Assign | ast.AnnAssign) -> list[str]:
    targets = node.targets if isinstance(node, ast.Assign) else [node.target]
    return [target.id for target in targets if isinstance(target, ast.Name)]


def _texts(node: ast.expr) -> Iterator[str]:
    """Patterns of a text: what is filled in may be anything."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield re.escape(node.value)
    elif isinstance(node, ast.JoinedStr):
        yield "".join(_piece(part) for part in node.values)
    elif isinstance(node, ast.IfExp):
        yield from _texts(node.body)
        yield from _texts(node.orelse)


def _piece(part: ast.expr) -> str:
    """Pattern of one part of a text that is put together."""
    return next(_texts(part), ".+") if isinstance(part, ast.Constant) else ".+"


def asserted() -> set[str]:
    """Every text in the tests of documents, edits and the language of books; what is filled in stands as an x."""
    found = set()
    names = ("drawings", "edits", "explore", "handover", "language")
    folders = (Path(__file__).parent, *(Path(__file__).parents[1] / name for name in names))
    for path in sorted(path for folder in folders for path in folder.rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                found.add(node.value)
            elif isinstance(node, ast.JoinedStr):
                found.add(
                    "".join(
                        str(getattr(part, "value", "x")) if isinstance(part, ast.Constant) else "x"
                        for part in node.values
                    )
                )
    return found | {f"this is not YAML: {text}" for text in found}


def _table(node: ast.expr | None) -> Iterator[str]:
    """What a parser complains of: rows of signs, message, expected; or a single pair."""
    rows = node.elts if isinstance(node, ast.Tuple) else []
    if rows and isinstance(rows[0], ast.Constant):
        yield from _texts(rows[0])
        return
    for row in rows:
        if isinstance(row, ast.Tuple) and isinstance(row.elts[1], ast.Constant):
            yield re.escape(f"this is not YAML: {row.elts[1].value!s}").replace(re.escape("{context}"), ".+")
