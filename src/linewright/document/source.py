"""One document while it is read: the node behind every path, and the faults found so far.

A *hole* is a path whose value could not be understood. A check that builds on values notes its faults with
`derive`, which keeps silent about what only follows from a hole.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from typing import NamedTuple

import yaml

from linewright.errors import LONGEST_NAME, Fault, InputFaultsError, listed, nearest, quoted

MOST_BYTES = 5_000_000
MOST_DEPTH = 60
#: Faults that are shown; and faults that are kept, of which the first in the text are shown.
MOST_FAULTS = 200
MOST_KEPT = 10_000
#: Names among which one is looked for that may be meant.
MOST_COMPARED = 1_000

_PARTS = re.compile(r"(?=[.\[])")

Node = yaml.nodes.Node
Scalar = yaml.nodes.ScalarNode
Sequence = yaml.nodes.SequenceNode
Mapping = yaml.nodes.MappingNode
Mark = yaml.Mark


class Alias(Node):
    """Stands where a document refers to another place of itself; never followed."""

    def __init__(self, name: str, start_mark: Mark, end_mark: Mark) -> None:
        """Keep the name and the place."""
        super().__init__("", name, start_mark, end_mark)


class Oddity(NamedTuple):
    """What is wrong with the form of a node, whatever it stands for."""

    message: str
    expected: str


class _Noted(NamedTuple):
    line: int
    column: int
    path: str
    value: str
    message: str
    expected: str


class Source:
    """One document: its name, its root node, the node behind every path, its faults so far."""

    def __init__(self, file: str, root: Node, odd: dict[int, Oddity] | None = None) -> None:
        """Start with an empty list of faults; `odd` holds nodes of a form that is not used here, by `id`."""
        self.file = file
        self.root = root
        self.odd = odd or {}
        self.nodes: dict[str, Node] = {}
        self._noted: dict[_Noted, None] = {}
        self._more = 0
        self._sought = 0
        self._holes: set[str] = set()
        self._above: set[str] = set()

    @property
    def faulty(self) -> bool:
        """Whether any fault was noted."""
        return bool(self._noted)

    def fault(
        self, path: str, message: str, expected: str = "", *, node: Node | None = None, value: str | None = None
    ) -> None:
        """Note a fault at a path (or at a node that has none of its own)."""
        path = self._as_written(path)
        at = node or self._nearest(path)
        shown = excerpt(at) if value is None else value
        self._note(_Noted(at.start_mark.line + 1, at.start_mark.column + 1, path, shown, message, expected))

    def fault_at(self, mark: Mark, message: str, expected: str) -> None:
        """Note a fault at a place of the text that no node stands at."""
        self._note(_Noted(mark.line + 1, mark.column + 1, "", "", message, expected))

    def derive(self, path: str, message: str, expected: str = "") -> None:
        """Note a fault of a check on values, unless it follows from a hole at, under or above `path`."""
        if self.sound(path):
            self.fault(path, message, expected)

    def hole(self, path: str) -> None:
        """Remember that the value at a path could not be understood."""
        path = self._as_written(path)
        self._holes.add(path)
        self._above.update(_upward(path))

    def is_hole(self, path: str) -> bool:
        """Say whether the value at a path itself could not be understood."""
        return path in self._holes

    def sound(self, *paths: str) -> bool:
        """Say whether there is no hole at, under or above any of the paths."""
        if not self._holes:
            return True
        return not any(self._broken(self._as_written(path)) for path in paths)

    def place(self, path: str) -> str:
        """Say on which line the node at a path stands."""
        return f"on line {int(self._nearest(self._as_written(path)).start_mark.line) + 1}"

    def written(self, path: str) -> str:
        """Give what the file says at a path."""
        return excerpt(self.nodes[path]) if path in self.nodes else ""

    def stands(self, path: str) -> bool:
        """Say whether something is written at that path itself."""
        return path in self.nodes

    def nearest(self, name: str, known: Collection[str], *, alike: float = 0.6) -> str | None:
        """Give the known name that may be meant; no longer looked for where names or faults are very many."""
        if self._sought >= MOST_FAULTS * 2 or len(known) > MOST_COMPARED:
            return None
        self._sought += 1
        return nearest(name, known, alike=alike)

    def one_of(self, name: str, known: Collection[str], *, otherwise: str = "") -> str:
        """Say which known name may be meant, or the first few that there are.

        otherwise : str — what to say where nothing is known
        """
        near = self.nearest(name, known)
        return quoted(near) if near is not None else listed(sorted(known), otherwise=otherwise)

    def error(self) -> InputFaultsError | None:
        """Give all faults found so far, if there are any: the first of them in the text, and how many more."""
        if not self._noted:
            return None
        faults = [Fault(file=self.file, **noted._asdict()) for noted in sorted(self._noted)]
        more = self._more + max(0, len(faults) - MOST_FAULTS)
        return InputFaultsError(faults[:MOST_FAULTS], more=more)

    def refuse(self) -> None:
        """Raise all faults found so far, if there are any."""
        error = self.error()
        if error is not None:
            raise error

    def _note(self, noted: _Noted) -> None:
        if len(self._noted) < MOST_KEPT:
            self._noted[noted] = None
        elif noted not in self._noted:
            self._more += 1

    def _broken(self, path: str) -> bool:
        return path in self._holes or path in self._above or any(above in self._holes for above in _upward(path))

    def _nearest(self, path: str) -> Node:
        for at in (path, *_upward(path)):
            if at in self.nodes:
                return self.nodes[at]
        return self.root

    def _as_written(self, path: str) -> str:
        """Path as the file has it: a single value may stand where a list might, and the other way round."""
        if path in self.nodes:
            return path
        built = ""
        for part in _PARTS.split(path):
            before = self.nodes.get(built)
            if part == "[0]" and isinstance(before, Scalar | Mapping):
                continue
            if part.startswith(".") and isinstance(before, Sequence):
                built += "[0]"
            built += part
        return built


def step(path: str, key: str) -> str:
    """Path of an entry; a key that would not show, or is long, is cut and escaped."""
    shown = key if key.isprintable() else ascii(key)[1:-1]
    if len(shown) > LONGEST_NAME:
        shown = f"{shown[:LONGEST_NAME]}…"
    return f"{path}.{shown}" if path else shown


def excerpt(node: Node) -> str:
    """Give what stands at a node, cut where it is long."""
    if isinstance(node, Scalar):
        text = str(node.value)
        return text if len(text) <= LONGEST_NAME else f"{text[: LONGEST_NAME - 1]}…"
    if isinstance(node, Alias):
        return f"*{node.value}"
    return "a list" if isinstance(node, Sequence) else "a mapping"


def _upward(path: str) -> Iterator[str]:
    """Paths above a path, the nearest first, without the root."""
    while path:
        path = path[: max(path.rfind("."), path.rfind("["), 0)]
        if path:
            yield path
