"""The reference of formats: for each kind of value exactly its keys, with what is written there and the default."""

import dataclasses
import re
import types
import typing
from collections.abc import Iterator
from enum import Enum

import pytest

from linewright.book.measures import MeasureName
from linewright.book.schema import Band, Book, MeasureUse
from linewright.document.plans import FieldPlan, Hint, plan
from linewright.model.design import Design
from linewright.model.values import Role
from linewright.units import Amount, Dimension, Quantity
from tests.docs.pages import Row, page, rows, sections, ticked

SECTIONS = sections(page("reference/formats.md"))
WORDS = {
    Dimension.LENGTH: "length",
    Dimension.TUBE: "tube size",
    Dimension.AREA: "area",
    Dimension.FLOW: "air flow",
    Dimension.POWER: "power",
    Dimension.MASS: "mass",
    Dimension.LINEAR_MASS: "mass per length",
    Dimension.TEMPERATURE: "temperature",
    Dimension.TEMPERATURE_DIFFERENCE: "temperature difference",
    Dimension.PRESSURE: "pressure",
    Dimension.TIME: "time",
    Dimension.VOLTAGE: "voltage",
    Dimension.CURRENT: "current",
    Dimension.FREQUENCY: "frequency",
    Dimension.ELECTRIC: "electrical power",
    Dimension.RATIO: "ratio",
    Dimension.DENSITY: "density",
    Dimension.CONDUCTIVITY: "conductivity",
    Dimension.SURFACE: "surface coefficient",
}
LINES = ("gas", "liquid", "suction", "high_low", "high", "low")


def _values(hint: Hint, seen: list[type]) -> list[type]:
    if dataclasses.is_dataclass(hint) and isinstance(hint, type) and hint is not Amount and hint not in seen:
        seen.append(hint)
        for field in plan(hint):
            _values(field.hint, seen)
    for argument in typing.get_args(hint):
        _values(argument, seen)
    return seen


CLASSES = [*_values(Design, []), *_values(Book, []), Band, MeasureUse]


def title(cls: type) -> str:
    """`SizeRow` is told under `Size row`."""
    spaced = re.sub(r"(?<!^)([A-Z])", r" \1", cls.__name__)
    return spaced[0] + spaced[1:].lower()


def own(cls: type) -> list[FieldPlan]:
    """Keys that the class declares itself; those of a band or a measure use stand in their own table."""
    return [field for field in plan(cls) if field.name in cls.__annotations__]


def table(cls: type) -> dict[str, Row]:
    return {name: row for row in rows(SECTIONS[title(cls)]) for name in row.names or (row.cells[0],)}


def names(field: FieldPlan) -> tuple[str, ...]:
    """The key, or what stands in its place where entries stand beside the owner's keys."""
    if not field.inline:
        return (field.key,)
    by_role = typing.get_args(typing.get_args(field.hint)[0])[0] is Role
    return LINES if by_role else ("a number of steps",)


def wanted(hint: Hint) -> Iterator[str]:
    """Words that have to stand beside a key: kinds of quantity, and every word of a closed set."""
    for mark in getattr(hint, "__metadata__", ()):
        if isinstance(mark, Quantity):
            yield WORDS[mark.dimension]
    if isinstance(hint, type) and issubclass(hint, Enum):
        yield from ["(measures.md)"] if hint is MeasureName else LINES if hint is Role else [str(w.value) for w in hint]
    elif dataclasses.is_dataclass(hint) and isinstance(hint, type):
        yield "quantity" if hint is Amount else f"[{title(hint).lower()}](#{title(hint).lower().replace(' ', '-')})"
    elif hint in PLAIN:
        yield PLAIN[hint]
    for argument in () if hint in PLAIN else typing.get_args(hint):
        if not (argument is float and hasattr(hint, "__metadata__")):
            yield from wanted(argument)


PLAIN: dict[Hint, str] = {str: "text", float: "number", int: "whole number", bool: "`yes`, `no`", types.NoneType: ""}


def default(cls: type, field: FieldPlan) -> str:
    if field.required:
        return "required"
    value = next(item.default for item in dataclasses.fields(cls) if item.name == field.name)
    if isinstance(value, bool):
        return "`yes`" if value else "`no`"
    if isinstance(value, Enum | int):
        return f"`{value.value if isinstance(value, Enum) else value}`"
    return "none"


def test_the_format_was_found() -> None:
    assert len(CLASSES) > 45
    assert sum(len(own(cls)) for cls in CLASSES) > 230


@pytest.mark.parametrize("cls", CLASSES, ids=lambda cls: cls.__name__)
def test_a_table_has_exactly_the_keys_of_its_kind(cls: type) -> None:
    assert set(table(cls)) == {name for field in own(cls) for name in names(field)}


FIELDS = [(cls, field) for cls in CLASSES for field in own(cls)]


@pytest.mark.parametrize(("cls", "field"), FIELDS, ids=[f"{cls.__name__}.{field.key}" for cls, field in FIELDS])
def test_a_key_has_its_kind_of_value_its_default_and_its_meaning(cls: type, field: FieldPlan) -> None:
    row = table(cls)[names(field)[0]]
    _, value, said, meaning = row.cells
    words = ticked(value)
    item = typing.get_args(typing.get_args(field.hint)[0])[1] if field.inline else field.hint
    missing = [word for word in wanted(item) if word not in value and word not in words]
    assert missing == []
    assert said == default(cls, field)
    assert len(meaning) >= len("page")


def test_a_row_of_a_kind_that_has_a_base_says_so() -> None:
    for cls in CLASSES:
        for base in (Band, MeasureUse):
            if cls is not base and issubclass(cls, base):
                assert f"(#{title(base).lower().replace(' ', '-')})" in SECTIONS[title(cls)], cls
