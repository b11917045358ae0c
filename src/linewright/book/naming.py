"""Names in a book: of groups, what may stand in one, each once, and whether a name that is used exists."""

from __future__ import annotations

from collections.abc import Collection, Sequence

from linewright.book.quantities import Report
from linewright.book.schema import Book, Group
from linewright.errors import one_of, quoted
from linewright.model.soundness.names import check_id


def group_name(group: Group) -> str:
    """Name of a group: its id, else its modules joined by a plus sign."""
    return group.id or "+".join(group.modules)


def check_names(book: Book, report: Report) -> None:
    """Note what is wrong with the ids that stand in the names of results."""
    check_id(book.id, "id", report)
    lists = {
        "sizing.actions": [action.id for action in book.sizing.actions],
        "options": [option.id for option in book.options],
        "requirements": [requirement.id for requirement in book.requirements],
    }
    for path, names in lists.items():
        for i, name in enumerate(names):
            check_id(name, f"{path}[{i}].id", report)


def check_once(names: Sequence[str], path: str, key: str, *, report: Report) -> None:
    """Note every name of a list that was used before."""
    first: dict[str, int] = {}
    for i, name in enumerate(names):
        if name and name in first:
            message = f"the name {quoted(name)} is used twice, first in {path}[{first[name]}]"
            report(f"{path}[{i}].{key}", message, "each name once")
        first.setdefault(name, i)


def check_known(name: str, known: Collection[str], path: str, *, what: str, report: Report) -> None:
    """Note a name that the book does not have.

    Nothing is said where no name is known, or one of them is blank: that is a fault of its own, and the name may be
    the one that is meant.
    """
    if name and known and "" not in known and name not in known:
        report(path, f"there is no {what} {quoted(name)} in this book", one_of(name, known))
