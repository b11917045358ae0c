"""A book as it reads while options are on: their sections stand in for its own, their limits for its own bounds."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import replace
from itertools import combinations
from typing import Any, NamedTuple

from linewright.book.schema import Book, Limit, Option

SECTIONS = ("sizing", "fittings", "capacity")


class Moved(NamedTuple):
    """Where the sections and limits of a book with options stand in its file."""

    sections: Mapping[str, str]
    limits: tuple[str, ...]
    terms: tuple[str, ...] = ()

    def where(self, path: str) -> str:
        """Give the place in the file behind a path of the book as it reads."""
        for head, places in (("limits[", self.limits), ("charge.terms[", self.terms)):
            if path.startswith(head) and places:
                at, _, rest = path.removeprefix(head).partition("]")
                return places[int(at)] + rest
        head = path.partition(".")[0].partition("[")[0]
        return self.sections[head] + path.removeprefix(head) if head in self.sections else path


def merged(book: Book, options: Collection[str]) -> tuple[Book, Moved]:
    """Read a book with options on; two that stand in for the same section are no sound design (`rivals`)."""
    changes: dict[str, Any] = {}
    sections: dict[str, str] = {}
    limits = {f"limits[{i}]": limit for i, limit in enumerate(book.limits)}
    added: dict[str, Limit] = {}
    terms = {f"charge.terms[{i}]": term for i, term in enumerate(book.charge.terms)}
    for i, option in enumerate(book.options):
        if option.id in options:
            for name in SECTIONS:
                if getattr(option, name) is not None:
                    changes[name], sections[name] = getattr(option, name), f"options[{i}].{name}"
            limits = {path: kept for path, limit in limits.items() if (kept := _beside(limit, option)) is not None}
            added |= {f"options[{i}].limits[{j}]": limit for j, limit in enumerate(option.limits)}
            terms |= {f"options[{i}].terms[{j}]": term for j, term in enumerate(option.terms)}
    limits |= added
    if len(terms) > len(book.charge.terms):
        changes["charge"] = replace(book.charge, terms=tuple(terms.values()))
    return replace(book, limits=tuple(limits.values()), **changes), Moved(sections, tuple(limits), tuple(terms))


def rivals(book: Book, options: Collection[str]) -> Iterator[tuple[str, str, str]]:
    """Give every two options that are on together and stand in for the same section, with its name."""
    given = [option for option in book.options if option.id in options]
    for first, second in combinations(given, 2):
        for name in SECTIONS:
            if getattr(first, name) is not None and getattr(second, name) is not None:
                yield first.id, second.id, name


def _beside(limit: Limit, option: Option) -> Limit | None:
    """What is left of a limit of the book: an option's limit on the same measure takes the place of the same bound."""
    for other in option.limits:
        if _use(other) != _use(limit):
            continue
        most = limit.max if other.max is None else None
        least = limit.min if other.min is None else None
        wider = [item for item in limit.relaxed if (most if item.max is not None else least) is not None]
        limit = replace(limit, max=most, min=least, relaxed=tuple(wider))
    return None if limit.max is None and limit.min is None else limit


def _use(limit: Limit) -> tuple[object, ...]:
    return (
        limit.measure,
        limit.lengths,
        limit.origin,
        limit.upsized_main,
        limit.upsized_twice,
        limit.module_pipes,
        limit.each_tube,
        limit.first_branch_allowance,
        limit.in_all,
        limit.count_by,
        limit.where,
    )
