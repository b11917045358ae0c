"""Paths into a book as people write them, such as `sizing.branch.rows[2].gas` or `charge.box[box 4]`."""

from __future__ import annotations

import re
from collections.abc import Mapping
from enum import Enum
from types import UnionType
from typing import Annotated, Any, NamedTuple, Union, get_args, get_origin

from linewright.book.edits import Path
from linewright.book.naming import group_name
from linewright.book.schema import Book, Group, OneOrMany
from linewright.document.encode import Style, Word, encode
from linewright.document.plans import Hint, is_value, plan
from linewright.errors import one_of, quoted
from linewright.units import Quantity, UnitFault, parse_as, same_tube

_PART = re.compile(r"(?:^|\.)([^.\[\]]+)|\[([^\[\]]+)\]")


class Place(NamedTuple):
    """Where a path leads: its parts, the hint of what stands or may stand there, and that itself (none: nothing)."""

    path: Path
    hint: Hint
    found: Any


class NoPlaceError(Exception):
    """A path that leads nowhere, and what would be right."""

    def __init__(self, message: str, expected: str) -> None:
        """Keep both."""
        super().__init__(message)
        self.expected = expected


def place_in(book: Book | None, text: str) -> Place:
    """Find a place, without a book one that any book may have; raises NoPlaceError.

    An item of a list goes by its position from 0, or by its name.
    """
    parts = list(_PART.finditer(text))
    if not parts or "".join(part[0] for part in parts) != text:
        raise NoPlaceError(f"{quoted(text)} is no path", "a path such as sizing.branch.rows[2].gas")
    place = Place((), Book, book)
    for part in parts:
        place = _step(place, part[1] or part[2])
    return place


def text_of(book: Book, path: Path) -> str:
    """Give a path as it is written."""
    text, hint, found = "", Book, book
    for part in path:
        hint = meant(hint, found)
        if is_value(hint):
            field = next(field for field in plan(hint) if field.name == part)
            text += "" if field.inline else f".{field.key}"
            hint = field.hint
        elif _origin(hint) is tuple:
            text, hint = f"{text}[{part}]", get_args(hint)[0]
        else:
            text, hint = f"{text}{_key_text(part, get_args(hint)[0])}", get_args(hint)[1]
        found = _inside(found, part)
    return text.removeprefix(".")


def _key_text(key: Any, hint: Hint) -> str:  # noqa: ANN401 - a key of a mapping
    if isinstance(key, Enum):
        return f".{key.value}"
    word = encode(key, hint, Style())
    return f"[{word.text if isinstance(word, Word) else key}]"


def _inside(found: Any, part: Any) -> Any:  # noqa: ANN401 - any value of a book
    if isinstance(found, tuple):
        return found[part] if part < len(found) else None
    return found.get(part) if isinstance(found, Mapping) else getattr(found, part, None)


def _step(place: Place, word: str) -> Place:
    hint = meant(place.hint, place.found)
    if is_value(hint):
        return _field(place, hint, word)
    if _origin(hint) is tuple and _stands_alone(place) and not word.isdigit():
        return _step(Place((*place.path, 0), get_args(hint)[0], place.found[0]), word)
    if _origin(hint) is tuple:
        return _item(place, hint, word)
    if _origin(hint) is Mapping:
        key_hint, item = get_args(hint)
        key = _key(place.found or {}, key_hint, word)
        return Place((*place.path, key), item, (place.found or {}).get(key))
    raise NoPlaceError(f"nothing stands inside, so no {quoted(word)}", "a shorter path")


def _stands_alone(place: Place) -> bool:
    """Whether a list has one item, which may be written without the list."""
    marks = getattr(place.hint, "__metadata__", ())
    return len(place.found or ()) == 1 and any(isinstance(mark, OneOrMany) for mark in marks)


def _field(place: Place, cls: type, word: str) -> Place:
    fields = plan(cls)
    inline = next((field for field in fields if field.inline), None)
    field = next((field for field in fields if field.key == word and not field.inline), None)
    if field is not None:
        return Place((*place.path, field.name), field.hint, getattr(place.found, field.name, None))
    if inline is not None:
        entries = Place((*place.path, inline.name), inline.hint, getattr(place.found, inline.name, None))
        try:
            return _step(entries, word)
        except NoPlaceError:
            pass
    keys = [field.key for field in fields if not field.inline]
    raise NoPlaceError(f"the key {quoted(word)} is not known here", one_of(word, keys))


def _item(place: Place, hint: Hint, word: str) -> Place:
    found = place.found or ()
    names = [_name(item) for item in found]
    if word.isascii() and word.isdigit():
        at = int(word)
    elif word in names:
        at = names.index(word)
    else:
        expected = one_of(word, [name for name in names if name], otherwise="a position, counted from 0")
        raise NoPlaceError(f"no item is called {quoted(word)}", expected)
    return Place((*place.path, at), get_args(hint)[0], found[at] if at < len(found) else None)


def _name(item: object) -> str:
    if isinstance(item, Group):
        return group_name(item)
    names = (getattr(item, field, "") for field in ("id", "model", "name"))
    return next((name for name in names if name), "")


def _key(found: Mapping[Any, Any], hint: Hint, word: str) -> Any:  # noqa: ANN401 - a key of a mapping
    mark = next((mark for mark in getattr(hint, "__metadata__", ()) if isinstance(mark, Quantity)), None)
    if mark is not None:
        try:
            size = parse_as(word, mark.dimension)
        except UnitFault as fault:
            raise NoPlaceError(str(fault), "a quantity with its unit") from None
        return next((key for key in found if same_tube(key, size)), size)
    if isinstance(hint, type) and issubclass(hint, Enum):
        words = [str(member.value) for member in hint]
        if word not in words:
            raise NoPlaceError(f"{quoted(word)} is not known here", one_of(word, words))
        return hint(word)
    return int(word) if hint is int and word.isdigit() else word


def meant(hint: Hint, found: object) -> Hint:
    """The hint without its marks; of a union what stands there, or the one option that has something inside."""
    bare = get_args(hint)[0] if _origin(hint) is Annotated else hint
    if _origin(bare) not in (Union, UnionType):
        return bare
    options = [option for option in get_args(bare) if option is not type(None)]
    of_found = [option for option in options if is_value(option) and isinstance(found, option)]
    inner = [option for option in options if is_value(option) or _origin(option) in (tuple, Mapping)]
    return meant((of_found or inner or options)[0], found)


def _origin(hint: Hint) -> Hint:
    return get_origin(hint)
