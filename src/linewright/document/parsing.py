"""Text to nodes: a YAML (or JSON) document with the place of everything in it.

Nodes are built from the parser's events, without recursion and without following an alias, so that neither deep
nesting nor a bomb of aliases costs anything. Scalars stay text here; the schema decides what a text means, so `NO`
is a name where a name is due.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import cast

import yaml

from linewright.document.reading import refuse, refuse_size
from linewright.document.source import (
    MOST_BYTES,
    MOST_DEPTH,
    Alias,
    Mapping,
    Mark,
    Node,
    Oddity,
    Scalar,
    Sequence,
    Source,
    step,
)
from linewright.document.yaml_words import TOO_DEEP, in_words
from linewright.errors import quoted

_LOADER = getattr(yaml, "CSafeLoader", yaml.SafeLoader)
# What YAML 1.2, section 5.1, does not count as printable; and a byte order mark that does not stand at the beginning.
_UNPRINTABLE = re.compile("[^\t\n\r\x20-\x7e\x85\xa0-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]")
_QUOTED = ("'", '"', "|", ">")
_WRITTEN_OUT = "the value written out (a text that begins with * or & stands in quotes)"


def parse_text(text: str, file: str) -> Source:
    """Parse a document into nodes.

    Raises InputFaultsError when it is not YAML, empty, too large or nested too deeply; other faults of form are kept
    in the source, or noted when their node is decoded.
    """
    text = text.removeprefix("\ufeff")
    if len(text) > MOST_BYTES:
        refuse_size(file, len(text))
    _check_characters(text, file)
    builder = _Builder(file)
    try:
        for event in yaml.parse(text, Loader=_LOADER):
            if not builder.take(event):
                break
    except yaml.MarkedYAMLError as error:
        message, expected, mark = in_words(error, text)
        line, column = (mark.line + 1, mark.column + 1) if mark else (0, 0)
        refuse(file, message, expected, line=line, column=column, value=_line(text, mark))
    except (yaml.YAMLError, ValueError) as error:
        refuse(file, f"this is not YAML: {str(error).splitlines()[0]}", "a YAML or JSON document")
    return builder.source()


def pairs(source: Source, node: Mapping, path: str) -> Iterator[tuple[Scalar, Node]]:
    """Give the entries of a mapping whose keys are plain words, each once; the others are noted as faults."""
    first: dict[str, int] = {}
    for key, item in node.value:
        if not isinstance(key, Scalar):
            source.fault(path, "a key is not a plain word", "a key such as length", node=key)
            continue
        odd = source.odd.get(id(key))
        if odd is not None:
            source.fault(step(path, key.value), odd.message, odd.expected, node=key)
        line = key.start_mark.line + 1
        if key.value in first:
            where = f"first on line {first[key.value]}"
            source.fault(
                step(path, key.value), f"the key {quoted(key.value)} stands twice, {where}", "each key once", node=key
            )
        else:
            first[key.value] = line
            yield key, item


class _Builder:
    """Makes nodes of events; the innermost open list or mapping is last on the stack."""

    def __init__(self, file: str) -> None:
        self.file = file
        self.root: Node | None = None
        self.second: Mark | None = None
        self.odd: dict[int, Oddity] = {}
        self.open: list[tuple[Sequence | Mapping, list[Node]]] = []

    def take(self, event: yaml.Event) -> bool:
        """Take one event; False when nothing of what follows is wanted."""
        marks = cast("tuple[Mark, Mark]", (event.start_mark, event.end_mark))
        if isinstance(event, yaml.ScalarEvent):
            self._add(Scalar(event.tag or "", event.value, *marks, style=event.style), _oddity(event, event.tag))
        elif isinstance(event, yaml.MappingStartEvent):
            node = Mapping(event.tag or "", [], *marks, flow_style=event.flow_style)
            self._enter(node, _oddity(event, event.tag))
        elif isinstance(event, yaml.SequenceStartEvent):
            items = Sequence(event.tag or "", [], *marks, flow_style=event.flow_style)
            self._enter(items, _oddity(event, event.tag))
        elif isinstance(event, yaml.CollectionEndEvent):
            self._close(marks[1])
        elif isinstance(event, yaml.AliasEvent):
            name = event.anchor or ""
            self._add(Alias(name, *marks), Oddity(f"the alias '*{name}' stands for a value elsewhere", _WRITTEN_OUT))
        elif isinstance(event, yaml.DocumentStartEvent) and self.root is not None:
            self.second = marks[0]
            return False
        return True

    def source(self) -> Source:
        """Give the document."""
        if self.root is None or _blank(self.root):
            refuse(self.file, "the document is empty", "a YAML or JSON document")
        source = Source(self.file, self.root, self.odd)
        if self.second is not None:
            source.fault_at(
                self.second, "a second document begins here", "one document in a file, without a line '---' in it"
            )
        return source

    def _close(self, end: Mark) -> None:
        """A collection ends at its bracket; one without brackets where its last item does."""
        node, items = self.open.pop()
        node.end_mark = end if node.flow_style or not items else items[-1].end_mark
        node.value = list(zip(items[::2], items[1::2], strict=True)) if isinstance(node, Mapping) else items

    def _enter(self, node: Sequence | Mapping, odd: Oddity | None) -> None:
        if len(self.open) >= MOST_DEPTH:
            mark = node.start_mark
            refuse(self.file, *TOO_DEEP, line=mark.line + 1, column=mark.column + 1)
        self._add(node, odd)
        self.open.append((node, []))

    def _add(self, node: Node, odd: Oddity | None) -> None:
        if odd is not None:
            self.odd[id(node)] = odd
        if self.open:
            self.open[-1][1].append(node)
        else:
            self.root = node


def _oddity(event: yaml.NodeEvent, tag: str | None) -> Oddity | None:
    if event.anchor:
        return Oddity(
            f"the anchor '&{event.anchor}' names a value; anchors and aliases are not used here", _WRITTEN_OUT
        )
    if tag:
        return Oddity(
            f"the tag {quoted(tag)} says of which type a value is; tags are not used here",
            "the value alone (a text that begins with ! stands in quotes)",
        )
    return None


def _blank(root: Node) -> bool:
    return isinstance(root, Scalar) and root.value == "" and root.style not in _QUOTED


def _check_characters(text: str, file: str) -> None:
    found = _UNPRINTABLE.search(text)
    if found is None:
        return
    before = text[: found.start()]
    code = f"U+{ord(found[0]):04X}"
    refuse(
        file,
        f"the character {code} stands here, which no text document holds",
        "printable text",
        line=before.count("\n") + 1,
        column=len(before) - before.rfind("\n"),
        value=code,
    )


def _line(text: str, mark: Mark | None) -> str:
    """The line that a parser stumbled over."""
    lines = text.splitlines()
    line = lines[mark.line].strip() if mark is not None and mark.line < len(lines) else ""
    return quoted(line)[1:-1]
