"""Places in a text: where entries of lists and mappings begin and end, and what is to be written instead."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from collections.abc import Sequence as Sequence_
from typing import NamedTuple

from linewright.document.source import Mapping, Sequence


class Splice(NamedTuple):
    """A piece of text from `start` to `end` and what stands there instead."""

    start: int
    end: int
    text: str


def applied(text: str, splices: Iterable[Splice]) -> str:
    """Make splices, the last first; of two at one place the earlier noted stands first."""
    ordered = sorted(enumerate(splices), key=lambda item: (item[1].start, item[1].end, item[0]))
    for _, splice in reversed(ordered):
        text = text[: splice.start] + splice.text + text[splice.end :]
    return text


class Spans(NamedTuple):
    """Where the entries of a list or mapping begin and end; in a block list an entry begins at its dash."""

    text: str
    flow: bool
    items: tuple[tuple[int, int], ...]

    @staticmethod
    def of(node: Mapping | Sequence, text: str) -> Spans:
        """Find the entries of a node."""
        flow = bool(node.flow_style)
        return Spans(text, flow, tuple(_spans(node, text, flow=flow)))

    def without(self, gone: Sequence_[int]) -> Iterator[Splice]:
        """Cut entries with their separators, or their lines with what is remarked on them."""
        if self.flow:
            yield from (self._flow(group[0], group[-1]) for group in _groups(gone))
        else:
            yield from (self._block(at) for at in gone)

    def _flow(self, first: int, last: int) -> Splice:
        if last + 1 < len(self.items):
            return Splice(self.items[first][0], self.items[last + 1][0], "")
        return Splice(self.items[first - 1][1] if first else self.items[0][0], self.items[last][1], "")

    def _block(self, at: int) -> Splice:
        start, end = self.items[at]
        line = line_start(self.text, start)
        after = min(line_end(self.text, end) + 1, len(self.text))
        if self.text[line:start].strip():
            following = self.items[at + 1][0] if at + 1 < len(self.items) else end
            return Splice(start, following, "")
        return Splice(line, after, "")


def _groups(places: Sequence_[int]) -> Iterator[list[int]]:
    """Places that follow one another, together."""
    group: list[int] = []
    for at in sorted(places):
        if group and at != group[-1] + 1:
            yield group
            group = []
        group.append(at)
    if group:
        yield group


def _spans(node: Mapping | Sequence, text: str, *, flow: bool) -> Iterator[tuple[int, int]]:
    if isinstance(node, Mapping):
        for key, item in node.value:
            yield key.start_mark.index, max(item.end_mark.index, key.end_mark.index + 1)
        return
    for item in node.value:
        yield (item.start_mark.index if flow else dash_before(text, item.start_mark.index)), item.end_mark.index


def dash_before(text: str, start: int) -> int:
    """Place of the dash before an entry of a block list."""
    return text.rindex("-", 0, start)


def line_start(text: str, at: int) -> int:
    """Beginning of the line that a place stands on."""
    return text.rfind("\n", 0, at) + 1


def line_end(text: str, at: int) -> int:
    """End of the line that a place stands on; of one that has just ended, the end of that."""
    if at and text[at - 1] == "\n":
        return at - 1
    end = text.find("\n", at)
    return len(text) if end < 0 else end
