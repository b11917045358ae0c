"""Long lists told short: what is said alike of many is said once, and nothing is left out."""

from __future__ import annotations

from collections.abc import Iterable
from functools import lru_cache

from linewright.draw.wording import check_name, measure_words, subject_words
from linewright.engine.records import Check, CheckKind


def missing_all(missing: Iterable[str]) -> str:
    """Name all that is missing: `length of run U3`, `length of run U4` become `length of run U3, U4`."""
    return _missing_all(tuple(missing))


@lru_cache(maxsize=2_000)
def _missing_all(missing: tuple[str, ...]) -> str:
    by_head: dict[str, list[str]] = {}
    for words in dict.fromkeys(missing):
        head, _, tail = words.rpartition(" ")
        if not head.endswith((" of", " run")):
            head, tail = words, ""
        by_head.setdefault(head, []).append(tail)
    return ", ".join(f"{head} {', '.join(tails)}".strip() for head, tails in by_head.items())


def names_all(checks: Iterable[Check]) -> str:
    """Name all checks: rooms that lack the same modes together, then the rest."""
    modes: dict[str, list[str]] = {}
    others: dict[str, None] = {}
    for check in checks:
        if check.kind is CheckKind.ROOM and check.governs:
            modes.setdefault(check.governs[0], []).append(check.measure)
        else:
            others[check_name(check)] = None
    rooms: dict[str, list[str]] = {}
    for room, of_room in modes.items():
        rooms.setdefault(", ".join(of_room), []).append(room)
    told = [f"{of_rooms} in {', '.join(names)}" for of_rooms, names in rooms.items()]
    return "; ".join([", ".join(others), *told] if others else told)


def faults_all(checks: Iterable[Check]) -> list[str]:
    """Say each kind of fault once, with all that has it."""
    found: dict[tuple[str, str], list[str]] = {}
    for check in checks:
        kind, _, name = subject_words(check.subject).partition(" ")
        found.setdefault((f"{measure_words(check.measure)}, {kind}", check.note), []).append(name)
    return [f"{words} {', '.join(names)}" + (f": {note}" if note else "") for (words, note), names in found.items()]
