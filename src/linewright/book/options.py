"""A book as it reads while options are on: their sections stand in for its own, their limits beside it or in place."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace
from typing import Any, NamedTuple

from linewright.book.schema import Book, Limit, Option

SECTIONS = ("sizing", "fittings", "capacity")


class Moved(NamedTuple):
    """Where the sections and limits of a book with options stand in its file."""

    sections: Mapping[str, str]
    limits: tuple[str, ...]

    def where(self, path: str) -> str:
        """Give the place in the file behind a path of the book as it reads."""
        if path.startswith("limits[") and self.limits:
            at, _, rest = path.removeprefix("limits[").partition("]")
            return self.limits[int(at)] + rest
        head = path.partition(".")[0].partition("[")[0]
        return self.sections[head] + path.removeprefix(head) if head in self.sections else path


def merged(book: Book, options: Collection[str]) -> tuple[Book, Moved]:
    """Read a book with options on; a later option of the book stands in for an earlier one."""
    changes: dict[str, Any] = {}
    sections: dict[str, str] = {}
    limits = {f"limits[{i}]": limit for i, limit in enumerate(book.limits)}
    for i, option in enumerate(book.options):
        if option.id in options:
            for name in SECTIONS:
                if getattr(option, name) is not None:
                    changes[name], sections[name] = getattr(option, name), f"options[{i}].{name}"
            limits = _with_limits(limits, option, i)
    return replace(book, limits=tuple(limits.values()), **changes), Moved(sections, tuple(limits))


def _with_limits(limits: dict[str, Limit], option: Option, at: int) -> dict[str, Limit]:
    """A limit of an option takes the place of those on the same measure in the same variant."""
    added = {f"options[{at}].limits[{j}]": limit for j, limit in enumerate(option.limits)}
    replaced = [_use(limit) for limit in added.values()]
    return {path: limit for path, limit in limits.items() if _use(limit) not in replaced} | added


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
