"""A document as it was typed: its values as text, units and all, for who reads it beside the printed page."""

from __future__ import annotations

from typing import TypeAlias

from linewright.document.parsing import parse_text
from linewright.document.source import Mapping, Node, Scalar, Sequence

Typed: TypeAlias = "str | list[Typed] | dict[str, Typed]"


def typed_values(text: str, file: str) -> Typed:
    """Give mappings, lists and texts as they stand in a document; nothing is understood or converted.

    Raises InputFaultsError where the text is no YAML.
    """
    return _typed(parse_text(text, file).root)


def _typed(node: Node) -> Typed:
    if isinstance(node, Mapping):
        return {str(key.value): _typed(item) for key, item in node.value}
    if isinstance(node, Sequence):
        return [_typed(item) for item in node.value]
    return str(node.value) if isinstance(node, Scalar) else ""
