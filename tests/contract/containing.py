"""Whether one JSON value contains another, and by what it fails to."""

import json
from collections.abc import Iterator
from typing import Any

Json = dict[str, Any]

RELATIVE = 1e-6
#: A list of mappings is matched by the first of these keys that its entries have, else in order.
NAMES = ("id", "name", "term")


def lacks(wanted: object, got: object, path: str = "") -> Iterator[str]:
    """Everything in `wanted` that `got` lacks, or has otherwise: one text each."""
    if isinstance(wanted, dict):
        yield from lacks_keys(wanted, got, path)
    elif isinstance(wanted, list):
        yield from lacks_entries(wanted, got, path)
    elif is_number(wanted) and is_number(got):
        if not close(float(wanted), float(got)):  # type: ignore[arg-type]
            yield f"{path}: {got!r}, not {wanted!r}"
    elif type(wanted) is not type(got) or wanted != got:
        yield f"{path}: {got!r}, not {wanted!r}"


def lacks_keys(wanted: Json, got: object, path: str) -> Iterator[str]:
    if not isinstance(got, dict):
        yield f"{path}: no mapping"
        return
    for key, value in wanted.items():
        if key in got:
            yield from lacks(value, got[key], f"{path}.{key}")
        else:
            yield f"{path}.{key}: missing"


def lacks_entries(wanted: list[Any], got: object, path: str) -> Iterator[str]:
    if not isinstance(got, list):
        yield f"{path}: no list"
        return
    name = name_of(wanted)
    if name is None:
        if len(got) != len(wanted):
            yield f"{path}: {len(got)} entries, not {len(wanted)}"
        for i, (value, found) in enumerate(zip(wanted, got, strict=False)):
            yield from lacks(value, found, f"{path}[{i}]")
        return
    for value in wanted:
        found = [entry for entry in got if entry.get(name) == value[name]]
        if found:
            yield from lacks(value, found[0], f"{path}[{value[name]}]")
        else:
            yield f"{path}[{value[name]}]: missing"


def name_of(entries: list[Any]) -> str | None:
    """Key by which the entries of a list are told apart; none where their order tells."""
    if not all(isinstance(entry, dict) for entry in entries):
        return None
    return next((name for name in NAMES if entries and all(name in entry for entry in entries)), None)


def is_number(value: object) -> bool:
    return isinstance(value, int | float) and not isinstance(value, bool)


def close(wanted: float, got: float) -> bool:
    """Whether two numbers agree to 1e-6 of the wanted one; a zero may be off by rounding only."""
    return abs(got - wanted) <= (RELATIVE * abs(wanted) if wanted else 1e-9)


def spoiled(value: Any) -> Iterator[Any]:  # noqa: ANN401 - any JSON value
    """Copies of a JSON value, each with one number or text changed or one entry of a list added."""
    if isinstance(value, dict):
        for key, part in value.items():
            for copy in spoiled(part):
                yield {**value, key: copy}
        yield {**value, "no such key": 1}
    elif isinstance(value, list):
        for i, part in enumerate(value):
            for copy in spoiled(part):
                yield [*value[:i], copy, *value[i + 1 :]]
        yield [*value, {"id": "no such id", "name": "no such name", "term": "no such term"}]
    elif is_number(value):
        yield value * (1 + 3e-6) if value else 3e-6
    else:
        yield f"{value}?"


def count_of_leaves(value: object) -> int:
    if isinstance(value, dict):
        return sum(count_of_leaves(part) for part in value.values())
    return sum(count_of_leaves(part) for part in value) if isinstance(value, list) else 1


def read_json(text: str) -> Json:
    """Parse JSON that holds numbers only where a number is."""

    def refuse(word: str) -> None:
        raise AssertionError(f"{word} is no JSON number")

    parsed: Json = json.loads(text, parse_constant=refuse)
    return parsed
