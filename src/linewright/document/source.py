"""Text to nodes: a YAML (or JSON) document with the place of everything in it.

Scalars stay text here; the schema decides what a text means, so `NO` is a name where a name is due.
"""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import NoReturn

import yaml

from linewright.errors import Fault, InputFaultsError

MOST_BYTES = 5_000_000
MOST_DEPTH = 60
MOST_FAULTS = 200

Node = yaml.nodes.Node
Scalar = yaml.nodes.ScalarNode
Sequence = yaml.nodes.SequenceNode
Mapping = yaml.nodes.MappingNode

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)


class Source:
    """One document: its name, its root node, the node behind every path, its faults so far."""

    def __init__(self, file: str, root: Node) -> None:
        """Start with an empty list of faults."""
        self.file = file
        self.root = root
        self.nodes: dict[str, Node] = {}
        self.keys: dict[str, Node] = {}
        self.faults: list[Fault] = []

    def fault(self, path: str, message: str, expected: str = "", *, node: Node | None = None) -> None:
        """Note a fault at a path (or at a node that has none of its own)."""
        at = node or self._nearest(path)
        if len(self.faults) >= MOST_FAULTS:
            return
        self.faults.append(
            Fault(
                file=self.file,
                line=at.start_mark.line + 1,
                column=at.start_mark.column + 1,
                path=path,
                value=_excerpt(at),
                message=message,
                expected=expected,
            )
        )

    def refuse(self) -> None:
        """Raise all faults found so far, if there are any."""
        if self.faults:
            raise InputFaultsError(tuple(self.faults))

    def _nearest(self, path: str) -> Node:
        while path:
            if path in self.nodes:
                return self.nodes[path]
            path = path[: max(path.rfind("."), path.rfind("["), 0)]
        return self.root


def read_text(path: Path) -> str:
    """Read a document as UTF-8 text.

    Raises InputFaultsError when it is missing, too large, binary or not UTF-8.
    """
    try:
        size = path.stat().st_size
        if size > MOST_BYTES:
            _refuse(path.name, f"the file has {size:,} bytes", f"a text document of at most {MOST_BYTES:,} bytes")
        data = path.read_bytes()
    except OSError as error:
        _refuse(str(path), f"cannot be read: {error.strerror or error}", "a readable file")
    if b"\0" in data:
        _refuse(path.name, "the file is binary (it holds NUL bytes)", "a YAML or JSON text document")
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        _refuse(path.name, f"byte {error.start} is not UTF-8 text", "a text document saved as UTF-8", line=line)


def parse_text(text: str, file: str) -> Source:
    """Parse a document and check its form: depth, aliases, duplicate keys.

    Raises InputFaultsError when it is not YAML; other faults are kept in the source.
    """
    if _depth(text) > MOST_DEPTH:
        _refuse(file, "brackets are nested too deeply", f"at most {MOST_DEPTH} levels")
    try:
        root = yaml.compose(text, Loader=_LOADER)
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        line, column = (mark.line + 1, mark.column + 1) if mark else (0, 0)
        _refuse(file, f"not YAML: {error.problem or error.context}", "a YAML document", line=line, column=column)
    except (yaml.YAMLError, ValueError, RecursionError) as error:
        _refuse(file, f"not YAML: {str(error).splitlines()[0]}", "a YAML document")
    if root is None:
        _refuse(file, "the document is empty", "a YAML document")
    source = Source(file, root)
    _check_form(source)
    source.refuse()
    return source


def entries(node: Mapping) -> Iterator[tuple[Node, Node]]:
    """Give the key and value nodes of a mapping in order."""
    yield from node.value


def _check_form(source: Source) -> None:
    seen: set[int] = set()
    stack: list[tuple[Node, int]] = [(source.root, 0)]
    while stack:
        node, depth = stack.pop()
        if id(node) in seen:
            source.fault("", "an alias is used", "the value written out: anchors and aliases are not used here", node=node)
            continue
        seen.add(id(node))
        if depth > MOST_DEPTH:
            source.fault("", "nested too deeply", f"at most {MOST_DEPTH} levels", node=node)
            continue
        if isinstance(node, Sequence):
            stack.extend((item, depth + 1) for item in node.value)
        elif isinstance(node, Mapping):
            _check_keys(source, node)
            stack.extend((item, depth + 1) for _, item in node.value)


def _check_keys(source: Source, node: Mapping) -> None:
    first: dict[str, int] = {}
    for key, _ in node.value:
        if not isinstance(key, Scalar):
            source.fault("", "a key is not a plain word", "a key such as length", node=key)
        elif key.value in first:
            source.fault("", f"key '{key.value}' stands twice, first on line {first[key.value]}", "each key once", node=key)
        else:
            first[key.value] = key.start_mark.line + 1


def _depth(text: str) -> int:
    """Give the greatest nesting of brackets, before a recursive parser sees it."""
    depth = most = 0
    if text.count("[") + text.count("{") <= MOST_DEPTH:
        return 0
    for character in text:
        if character in "[{":
            depth += 1
            most = max(most, depth)
        elif character in "]}":
            depth = max(0, depth - 1)
    return most


def _excerpt(node: Node) -> str:
    if isinstance(node, Scalar):
        text = str(node.value)
        return text if len(text) <= 60 else text[:57] + "..."
    return "a list" if isinstance(node, Sequence) else "a mapping"


def _refuse(file: str, message: str, expected: str, *, line: int = 0, column: int = 0) -> NoReturn:
    raise InputFaultsError(
        (Fault(file=file, line=line, column=column, path="", value="", message=message, expected=expected),)
    )
