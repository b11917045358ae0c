"""Values to plain trees: what the decoder would read back as the same value.

A tree is a `Word` (a scalar and whether it is a text), a list of trees, or a mapping of keys to trees in the order of
the declaration. What has its default is left out. Trees are read only: one may stand in many.
"""

from __future__ import annotations

import dataclasses
import types
from collections.abc import Mapping
from decimal import Decimal
from enum import Enum
from functools import cache, lru_cache
from typing import Annotated, Any, NamedTuple, TypeAlias, Union, get_args, get_origin

from linewright.document.plans import FieldPlan, Hint, is_value, plan
from linewright.model.same import OfSame
from linewright.units import Amount, Dimension, Quantity, UnitFault, UnitSystem, parse, parse_as, to_unit
from linewright.units.showing import style

UNKNOWN = "unknown"
#: Values of one kind whose trees, and whose text, are kept at hand; and lists of them.
MOST_KNOWN, _MOST_LISTS = 10_000, 100
_MOST_DIGITS = 17
#: Units in which every float has a decimal that reads back as itself.
_SI = {
    Dimension.LENGTH: "m",
    Dimension.TUBE: "m",
    Dimension.AREA: "m2",
    Dimension.VOLUME: "m3",
    Dimension.POWER: "W",
    Dimension.MASS: "kg",
    Dimension.LINEAR_MASS: "kg/m",
    Dimension.TEMPERATURE: "degC",
    Dimension.TEMPERATURE_DIFFERENCE: "K",
    Dimension.PRESSURE: "Pa",
    Dimension.TIME: "s",
    Dimension.VOLTAGE: "V",
    Dimension.CURRENT: "A",
    Dimension.FREQUENCY: "Hz",
    Dimension.ELECTRIC: "W",
    Dimension.FLOW: "m3/s",
    Dimension.VELOCITY: "m/s",
    Dimension.MASS_FLOW: "kg/s",
    Dimension.MASS_FLUX: "kg/(m2 s)",
    Dimension.DENSITY: "kg/m3",
    Dimension.VISCOSITY: "Pa s",
    Dimension.ENTHALPY: "J/kg",
    Dimension.CONDUCTIVITY: "W/(m K)",
    Dimension.SURFACE: "W/(m2 K)",
    Dimension.LINEAR_POWER: "W/m",
    Dimension.RATIO: "",
    Dimension.NUMBER: "",
}


class Word(NamedTuple):
    """A scalar as it is written, and whether it is a text (and not a number or a word of the format)."""

    text: str
    is_text: bool = False


Tree: TypeAlias = "Word | list[Tree] | dict[str, Tree]"


class Style(NamedTuple):
    """In which units quantities are written: of a system, but for those that are named by dimension."""

    system: UnitSystem = UnitSystem.SI
    units: Mapping[Dimension, str] = types.MappingProxyType({})

    def unit(self, dimension: Dimension) -> str:
        """Unit of a dimension."""
        return self.units.get(dimension, style(dimension, self.system).unit)


def encode(value: Any, hint: Hint, how: Style) -> Tree:  # noqa: ANN401 - a value of the type that a hint names
    """Give a value as a tree."""
    if is_value(hint):
        return _declared(value, hint, how) if how.units else _known(hint, how.system)(value)
    origin: Hint = get_origin(hint)
    arguments = get_args(hint)
    if origin is Annotated:
        return _annotated(value, hint, how)
    if origin in (Union, types.UnionType):
        return Word(UNKNOWN) if value is None else encode(value, _meant(value, arguments), how)
    if origin is tuple:
        return _entries(value, arguments[0], how)
    if origin is Mapping:
        return {_key(key, arguments[0], how): encode(item, arguments[1], how) for key, item in value.items()}
    return _scalar(value, how)


def encode_value(value: Any, how: Style) -> dict[str, Tree]:  # noqa: ANN401 - any declared value
    """Give a declared value as a mapping; fields at their default are left out."""
    made: dict[str, Tree] = {}
    cls: type = type(value)
    for field, default in _with_defaults(cls):
        item = getattr(value, field.name)
        if field.inline:
            beside = encode(item, field.hint, how)
            made |= beside if isinstance(beside, dict) else {}
        elif field.required or (item is not default and item != default):
            made[field.key] = encode(item, field.hint, how)
    return made


def _declared(value: Any, hint: Hint, how: Style) -> Tree:  # noqa: ANN401 - a value of the type that a hint names
    made = encode_value(value, how)
    shorthand = getattr(hint, "SHORTHAND", "")
    return made[shorthand] if shorthand and list(made) == [shorthand] else made


@cache
def _known(hint: Hint, system: UnitSystem) -> OfSame[Any, Tree]:
    """Values of one kind that were encoded: most of a revision are those of the one before."""
    return OfSame(lambda value: _declared(value, hint, Style(system)), MOST_KNOWN)


def _entries(items: tuple[Any, ...], hint: Hint, how: Style) -> list[Tree]:
    if how.units or not is_value(hint):
        return [encode(item, hint, how) for item in items]
    return _known_lists(hint, how.system)(items)


@cache
def _known_lists(hint: Hint, system: UnitSystem) -> OfSame[tuple[Any, ...], list[Tree]]:
    return OfSame(_known(hint, system).all, _MOST_LISTS)


@cache
def _with_defaults(cls: type) -> tuple[tuple[FieldPlan, object], ...]:
    return tuple((field, default_of(cls, field.name)) for field in plan(cls))


@cache
def default_of(cls: type, name: str) -> object:
    """Default of a field of a declared value; of a required field something that no value equals."""
    field = next(field for field in dataclasses.fields(cls) if field.name == name)
    if field.default is not dataclasses.MISSING:
        return field.default
    return field.default_factory() if field.default_factory is not dataclasses.MISSING else dataclasses.MISSING


@lru_cache(maxsize=20_000)
def quantity(value: float, dimension: Dimension, unit: str) -> str:
    """Shortest decimal in a unit that reads back as the same float; in the SI unit where there is none."""
    for named in (unit, _SI[dimension]):
        number = to_unit(value, named) if named else value
        for digits in range(1, _MOST_DIGITS + 1):
            text = f"{plain(number, digits)} {named}".rstrip()
            if _reads_back(text, dimension, value):
                return text
    return f"{plain(value, _MOST_DIGITS)} {_SI[dimension]}".rstrip()


def plain(number: float, digits: int) -> str:
    """A number to so many significant digits, without exponent and without idle zeros."""
    text = format(Decimal(f"{number:.{digits}g}"), "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def field_of(cls: type, key: str) -> FieldPlan | None:
    """The field that a key of a file stands for."""
    return next((field for field in plan(cls) if field.key == key and not field.inline), None)


def _reads_back(text: str, dimension: Dimension, value: float) -> bool:
    try:
        return parse_as(text, dimension) == value
    except UnitFault:
        return False


def _annotated(value: Any, hint: Hint, how: Style) -> Tree:  # noqa: ANN401 - a value of the type that a hint names
    base, *marks = get_args(hint)
    for mark in marks:
        if isinstance(mark, Quantity):
            return Word(quantity(value, mark.dimension, how.unit(mark.dimension)))
    return encode(value, base, how)


def _meant(value: object, options: tuple[Hint, ...]) -> Hint:
    """Which option of a union a value is of."""
    return next((option for option in options if _is_of(value, option)), options[0])


def _is_of(value: object, hint: Hint) -> bool:
    origin: Hint = get_origin(hint)
    if origin is Annotated:
        return _is_of(value, get_args(hint)[0])
    cls: Hint = hint if origin is None else origin
    return isinstance(cls, type) and isinstance(value, cls)


def _scalar(value: Any, how: Style) -> Word:  # noqa: ANN401 - any scalar
    if isinstance(value, Amount):
        return Word(_amount(value, how))
    if isinstance(value, bool):
        return Word("yes" if value else "no")
    if isinstance(value, Enum):
        return Word(str(value.value))
    if isinstance(value, float):
        return Word(quantity(value, Dimension.NUMBER, ""))
    return Word(str(value), is_text=isinstance(value, str))


def _amount(amount: Amount, how: Style) -> str:
    text = quantity(amount.value, amount.dimension, how.unit(amount.dimension))
    return text if parse(text) == amount else f"{plain(amount.value, _MOST_DIGITS)} {_SI[amount.dimension]}".rstrip()


def _key(key: object, hint: Hint, how: Style) -> str:
    word = encode(key, hint, how)
    return word.text if isinstance(word, Word) else ""
