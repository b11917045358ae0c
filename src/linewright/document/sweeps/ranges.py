"""A range of values: from, to and step in one unit, counted in decimal so that 0.1 stays 0.1."""

from __future__ import annotations

import re
from collections.abc import Mapping as MappingType
from decimal import Decimal
from typing import NamedTuple

from linewright.document.decode import decode_at
from linewright.document.parsing import pairs
from linewright.document.source import Mapping, Node, Scalar, Source, step
from linewright.document.sweeps.values import MOST_ROWS
from linewright.errors import one_of, quoted
from linewright.units.table import UNITS

KEYS = ("from", "to", "step")
_NUMBER = re.compile(r"([+-]?(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+))\s*(.*)")
_RIGHT = "a number and its unit, such as 12.5 m"


class _End(NamedTuple):
    """A number and the unit behind it, as they are written."""

    number: Decimal
    unit: str


def range_texts(source: Source, node: Node, path: str) -> list[str]:
    """Every value of a range as text; `to` is one of them where a step ends on it."""
    if not isinstance(node, Mapping):
        source.fault(path, "this is no range", "keys from, to and step", node=node)
        return []
    entries = {key.value: (key, item) for key, item in pairs(source, node, path)}
    for name, (at, _) in entries.items():
        if name not in KEYS:
            source.fault(step(path, name), f"the key {quoted(name)} is not known here", one_of(name, KEYS), node=at)
    ends: dict[str, _End | None] = {}
    for name in KEYS:
        if name in entries:
            ends[name] = _end(source, entries[name][1], step(path, name))
        else:
            source.fault(step(path, name), f"the key '{name}' is missing", _RIGHT, node=node, value="")
    found = {name: end for name, end in ends.items() if end is not None}
    return _texts(source, node, path, ends=found) if len(found) == len(KEYS) else []


def _end(source: Source, node: Node, path: str) -> _End | None:
    text: str = decode_at(source, node, str, path)
    if not isinstance(node, Scalar):
        return None
    match = _NUMBER.fullmatch(text.strip())
    if match is None or (match[2] and match[2] not in UNITS):
        source.fault(path, f"{quoted(text)} is no number with one unit", _RIGHT, node=node)
        return None
    return _End(Decimal(match[1]), match[2])


def _texts(source: Source, node: Node, path: str, *, ends: MappingType[str, _End]) -> list[str]:
    first, last, by = (ends[name] for name in KEYS)
    units = {end.unit for end in ends.values()}
    if len(units) > 1:
        source.fault(path, "the range is in several units", "one unit in from, to and step", node=node)
        return []
    if by.number == 0 or (last.number - first.number) * by.number < 0:
        size = f"{by.number} {by.unit}".strip()
        message = f"steps of {size} do not lead from {first.number} to {last.number}"
        source.fault(step(path, "step"), message, "a step toward the end of the range")
        return []
    count = int((last.number - first.number) / by.number) + 1
    if count > MOST_ROWS:
        message = f"the range has {count:,} values"
        source.fault(path, message, f"at most {MOST_ROWS:,}", node=node)
        return []
    return [f"{first.number + i * by.number} {first.unit}".strip() for i in range(count)]
