"""One scalar to one value: texts, numbers, counts, flags, words of a closed set, quantities with their unit."""

from __future__ import annotations

import math
from collections.abc import Callable
from enum import Enum
from typing import Any, TypeAlias

from linewright.document.plans import Hint, describe, hole
from linewright.document.source import Node, Scalar, Source
from linewright.errors import one_of, quoted
from linewright.units import Amount, Dimension, Quantity, UnitFault, parse, parse_as

#: Value of the type that a run-time hint names.
Value: TypeAlias = Any
Reader = Callable[[Source, Node, str], Value]

TRUE, FALSE = ("true", "yes"), ("false", "no")
# Nothing that is built is larger or smaller than this in SI units; sums and quotients of such numbers stay finite.
LARGEST, SMALLEST = 1e9, 1e-9
ABSOLUTE_ZERO_DEGC = -273.15
_MOST_DIGITS = 9


def missing(source: Source, path: str, hint: Hint) -> Value:
    """Remember that the value at a path is missing or faulty, and give its stand-in."""
    source.hole(path)
    return hole(hint)


def blank(node: Node) -> bool:
    """Say whether nothing is written where a list or a mapping is due."""
    return isinstance(node, Scalar) and not node.value


def is_member(node: Node, option: Hint) -> bool:
    """Say whether a node is a word of a closed set."""
    return isinstance(node, Scalar) and node.value in {member.value for member in option}


def read_text(source: Source, node: Node, path: str) -> Value:
    """Read a text as it stands, composed letters in their short form."""
    if not isinstance(node, Scalar):
        source.fault(path, "this is not a text", "a text", node=node)
        return missing(source, path, str)
    text = str(node.value)
    if text.isascii():
        return text
    from unicodedata import normalize  # noqa: PLC0415 - keeps start-up short

    return normalize("NFC", text)


def read_name(source: Source, node: Node, path: str) -> Value:
    """Read a text that must not be blank."""
    text = read_text(source, node, path)
    if isinstance(node, Scalar) and not text.strip():
        source.fault(path, "nothing is written here", "a text", node=node)
        return missing(source, path, str)
    return text


def read_number(source: Source, node: Node, path: str) -> Value:
    """Read a finite number without a unit."""
    if not isinstance(node, Scalar):
        return _refused(source, node, path, message="this is not a number", hint=float)
    try:
        number = float(node.value) if node.value.isascii() and "_" not in node.value else math.nan
    except ValueError:
        number = math.nan
    if not math.isfinite(number):
        message = f"{quoted(node.value)} is not a number" if node.value else "nothing is written here"
        return _refused(source, node, path, message=message, hint=float)
    return _bounded(source, node, path, number, hint=float)


def read_count(source: Source, node: Node, path: str) -> Value:
    """Read a whole number, 0 or more."""
    text = node.value if isinstance(node, Scalar) else ""
    digits = text.isascii() and text.isdigit()
    if digits and len(text) <= _MOST_DIGITS:
        return int(text)
    if not isinstance(node, Scalar):
        message = "this is not a whole number"
    elif not text:
        message = "nothing is written here"
    elif text[0] == "-" and text[1:].isdigit():
        message = f"{quoted(text)} is negative"
    elif digits:
        message = f"{quoted(text)} is too large"
    else:
        message = f"{quoted(text)} is not a whole number"
    source.fault(path, message, "a whole number, 0 or more", node=node)
    return missing(source, path, int)


def read_flag(source: Source, node: Node, path: str) -> Value:
    """Read yes or no."""
    if isinstance(node, Scalar) and node.value.lower() in TRUE + FALSE:
        return node.value.lower() in TRUE
    message = (
        f"{quoted(node.value)} is neither yes nor no" if isinstance(node, Scalar) else "this is neither yes nor no"
    )
    return _refused(source, node, path, message=message, hint=bool)


def read_amount(source: Source, node: Node, path: str) -> Value:
    """Read a quantity whose unit says what it is."""
    if not isinstance(node, Scalar):
        return _refused(source, node, path, message="this is not a quantity", hint=Amount)
    try:
        amount = parse(node.value)
    except UnitFault as fault:
        source.fault(path, fault.message, fault.expected, node=node)
        return missing(source, path, Amount)
    number = _bounded(source, node, path, amount.value, hint=float)
    return amount if number == amount.value else hole(Amount)


def quantity_reader(mark: Quantity, hint: Hint) -> Reader:
    """Give the reader of quantities of one dimension."""

    def read(source: Source, node: Node, path: str) -> Value:
        if not isinstance(node, Scalar):
            return _refused(source, node, path, message="this is not a quantity", hint=hint)
        try:
            number = parse_as(node.value, mark.dimension)
        except UnitFault as fault:
            source.fault(path, fault.message, fault.expected, node=node)
            return missing(source, path, hint)
        if mark.dimension is Dimension.TEMPERATURE and number < ABSOLUTE_ZERO_DEGC:
            message = f"{quoted(str(node.value))} is below absolute zero"
            return _refused(source, node, path, message=message, hint=hint)
        return _bounded(source, node, path, number, hint=hint)

    return read


def enum_reader(cls: type[Enum]) -> Reader:
    """Give the reader of the words of a closed set."""
    words = [str(member.value) for member in cls]

    def read(source: Source, node: Node, path: str) -> Value:
        if is_member(node, cls):
            return cls(node.value)
        if isinstance(node, Scalar) and node.value:
            expected = one_of(node.value, words)
            source.fault(path, f"{quoted(node.value)} is not known here", expected, node=node)
            return missing(source, path, cls)
        message = "nothing is written here" if isinstance(node, Scalar) else "this is not a word"
        return _refused(source, node, path, message=message, hint=cls)

    return read


def _refused(source: Source, node: Node, path: str, *, message: str, hint: Hint) -> Value:
    source.fault(path, message, describe(hint), node=node)
    return missing(source, path, hint)


def _bounded(source: Source, node: Node, path: str, number: float, *, hint: Hint) -> Value:
    """A number that something built can have, or the fault that it is none."""
    size = abs(number)
    if size == 0 or SMALLEST <= size <= LARGEST:
        return number
    word = "large" if size > LARGEST else "small"
    source.fault(path, f"{quoted(str(node.value))} is too {word} for anything that is built", describe(hint), node=node)
    return missing(source, path, hint)


SCALARS: dict[Hint, Reader] = {
    str: read_text,
    float: read_number,
    int: read_count,
    bool: read_flag,
    Amount: read_amount,
}
