"""Names: what may stand in an id, each name once, and whether a name that is used exists."""

from __future__ import annotations

import re
from collections.abc import Callable, Collection, Sequence
from functools import lru_cache

from linewright.errors import LONGEST_NAME, quoted
from linewright.model.soundness.notes import Notes

#: A subject such as `main/run:J2.gas_od` is parted at the first / and :, and at the dot before what is asked for;
#: `main/measure:total_length@J2` at the @ as well. Brackets stand in the paths beside subjects.
_PARTS = "/:@[]"
_ENDINGS = re.compile(
    r"\.(cooling|sensible|heating|length|equivalent|rise|level|index|reach|equivalent_reach|[a-z_]+_od)$"
)
#: Ids that are kept at hand.
_MOST_KNOWN = 10_000
_RULE = "letters, digits, spaces, dots, dashes and the like, without / : @ [ ]"


def check_id(name: str, path: str, report: Callable[[str, str, str], object]) -> None:
    """Report an id that could not be told from the rest of a subject, or would not show: path, message, expected."""
    if not name or _is_plain(name):
        return
    parting = next((character for character in name if character in _PARTS), None)
    hidden = next((character for character in name if not character.isprintable()), None)
    if parting is not None:
        message = f"the id {quoted(name)} holds {quoted(parting)}, which separates the parts of a result's name"
        report(path, message, _RULE)
    elif hidden is not None:
        report(path, f"the id {quoted(name)} holds {quoted(hidden)}, which does not show", _RULE)
    elif name != name.strip():
        report(path, f"the id {quoted(name)} begins or ends with a space", f"'{name.strip()}'")
    elif len(name) > LONGEST_NAME:
        report(path, f"the id {quoted(name)} has {len(name)} characters", f"at most {LONGEST_NAME}")
    elif _ENDINGS.search(name):
        ending = name.rpartition(".")[2]
        message = f"the id {quoted(name)} ends like the name of a result, with a dot and '{ending}'"
        report(path, message, f"'{name.replace('.', '-')}'")


@lru_cache(maxsize=_MOST_KNOWN)
def _is_plain(name: str) -> bool:
    """Say whether an id has no fault; most of a design were in the one before."""
    return (
        name.isprintable()
        and name == name.strip()
        and len(name) <= LONGEST_NAME
        and not any(character in _PARTS for character in name)
        and not _ENDINGS.search(name)
    )


def check_once(names: Sequence[str], paths: Sequence[str], notes: Notes) -> None:
    """Note every name that was used before, with the line of its first use."""
    first: dict[str, str] = {}
    for name, path in zip(names, paths, strict=True):
        if name and name in first:
            place = notes.place(first[name])
            notes.derive(path, f"the name {quoted(name)} is used twice, first {place}", "each name once")
        first.setdefault(name, path)


def check_ids(names: Sequence[str], path: str, notes: Notes) -> None:
    """Check the ids of a list: their form, and each once."""
    paths = id_paths(names, path)
    for name, where in zip(names, paths, strict=True):
        check_id(name, where, notes.derive)
    check_once(names, paths, notes)


def id_paths(names: Sequence[str], path: str) -> list[str]:
    """Paths of the ids of a list."""
    return [f"{path}[{i}].id" for i in range(len(names))]


def whole(names: Sequence[str], path: str, notes: Notes) -> set[str] | None:
    """Give the ids of a list; None where one of them is in doubt, so that nobody may say that a name is missing."""
    return set(names) if notes.sound(*(id_paths(names, path) or [path])) else None


def check_known(name: str, known: Collection[str], path: str, *, what: str, notes: Notes) -> None:
    """Note a name that does not exist."""
    if name and name not in known:
        expected = notes.one_of(name, known, otherwise=f"a {what} that exists: none is stated")
        notes.derive(path, f"there is no {what} {quoted(name)}", expected)
