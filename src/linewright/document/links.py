"""Whether what a design names is in the books it names."""

from __future__ import annotations

from collections.abc import Collection, Container, Iterable, Mapping

from linewright.book.compiled import CompiledBook
from linewright.book.options import rivals
from linewright.document.standard_links import check_refrigerants
from linewright.errors import listed, quoted
from linewright.model.design import ROOT, Design, System
from linewright.model.soundness.notes import Notes
from linewright.model.values import NodeKind


def check_links(
    design: Design,
    books: Mapping[str, CompiledBook],
    source: Notes,
    *,
    faulty: Container[str] = (),
    ids: Iterable[str] = (),
) -> None:
    """Note every model, group, action and declaration that a design names and its book does not know.

    faulty : ids of books that exist but have faults; nothing is looked up in them
    ids : ids of all books that were found
    """
    check_refrigerants(design, books, source)
    for i, system in enumerate(design.systems):
        path = f"systems[{i}]"
        book = books.get(system.book)
        if book is not None:
            _check_system(system, book, path, source=source)
        elif system.book not in faulty:
            where = "beside the design, in a folder given with --books, or shipped"
            known = sorted({*books, *ids})
            near = source.nearest(system.book, known)
            expected = quoted(near) if near else f"{listed(known, otherwise='the id of a book')}: {where}"
            source.derive(f"{path}.book", f"there is no book {quoted(system.book)}", expected)


def _check_system(system: System, book: CompiledBook, path: str, *, source: Notes) -> None:
    of = f"in the book '{system.book}'"
    modules = system.outdoor.modules
    for i, module in enumerate(modules):
        where = f"{path}.outdoor.modules[{i}]"
        where = f"{where}.model" if source.stands(f"{where}.model") else where
        _known(module.model, book.modules, where, what="outdoor module", of=of, source=source)
    for i, unit in enumerate(system.units):
        _known(unit.model, book.models, f"{path}.units[{i}].model", what="indoor model", of=of, source=source)
    models = tuple(module.model for module in modules)
    if models and all(model in book.modules for model in models) and book.group_of(models) is None:
        groups = [" + ".join(group.modules) for group in book.book.outdoor.groups]
        message = f"{quoted(' + '.join(models))} is no group {of}"
        source.derive(f"{path}.outdoor.modules", message, listed(groups, otherwise="a group of the book"))
    switched = book.with_options(name for name in system.options if name in {one.id for one in book.book.options})
    _check_fittings(system, book, path, source=source)
    actions = {action.id for action in switched.book.sizing.actions}
    for i, name in enumerate(system.forbidden_actions):
        _known(name, actions, f"{path}.forbidden_actions[{i}]", what="size action", of=of, source=source)
    asked = _declarations(book)
    for i, name in enumerate(system.declared):
        _known(name, asked, f"{path}.declared[{i}]", what="declaration", of=of, source=source)
    options = {option.id for option in book.book.options}
    for i, name in enumerate(system.options):
        _known(name, options, f"{path}.options[{i}]", what="option", of=of, source=source)
    for first, second, section in rivals(book.book, system.options):
        message = f"the options {quoted(first)} and {quoted(second)} are on together, and both replace {section}"
        source.derive(f"{path}.options", message, "one of the two")
    _check_confirmed(system, book, path, source=source)


def _check_confirmed(system: System, book: CompiledBook, path: str, *, source: Notes) -> None:
    of = f"in the book '{system.book}'"
    known = {item.id for item in book.book.requirements}
    names = {run.to for run in (*system.runs, *system.outdoor.pipes)} | {unit.id for unit in system.units}
    names |= {module.id or f"M{i + 1}" for i, module in enumerate(system.outdoor.modules)} | {ROOT, system.id}
    for i, item in enumerate(system.confirmed):
        where = f"{path}.confirmed[{i}]"
        at = f"{where}.id" if source.stands(f"{where}.id") else where
        _known(item.id, known, at, what="requirement", of=of, source=source)
        for j, name in enumerate(item.at):
            _known(name, names, f"{where}.at[{j}]", what="point or unit", of="in this system", source=source)


def _check_fittings(system: System, book: CompiledBook, path: str, *, source: Notes) -> None:
    of = f"in the book '{system.book}'"
    boxes = () if book.book.boxes is None else book.book.boxes.models
    headers = [table.rows for table in (book.header, book.below_box_header) if table is not None]
    known = {
        NodeKind.BOX: ({model.model for model in boxes}, "mode box"),
        NodeKind.HEADER: ({row.model for rows in headers for row in rows}, "header"),
    }
    for i, fitting in enumerate(system.fittings):
        if fitting.model and fitting.kind in known:
            names, what = known[fitting.kind]
            _known(fitting.model, names, f"{path}.fittings[{i}].model", what=what, of=of, source=source)


def _declarations(book: CompiledBook) -> set[str]:
    """Every declaration that a rule of the book, or of one of its options, asks for."""
    whole = book.book
    limits = [*whole.limits, *(limit for option in whole.options for limit in option.limits)]
    needs = [need.declared for limit in limits for relaxed in limit.relaxed for need in relaxed.needs]
    conditions = [condition for limit in limits for condition in limit.when]
    conditions += [condition for item in whole.requirements for condition in item.when]
    conditions += [condition for term in whole.charge.terms for condition in term.when]
    sizings = [whole.sizing, *(option.sizing for option in whole.options if option.sizing is not None)]
    conditions += [action.when for sizing in sizings for action in sizing.actions if action.when is not None]
    return {name for name in (*needs, *(condition.declared for condition in conditions)) if name}


def _known(name: str, known: Collection[str], path: str, *, what: str, of: str, source: Notes) -> None:
    if name not in known:
        expected = source.one_of(name, known, otherwise=f"none: the book has no {what}")
        source.derive(path, f"there is no {what} {quoted(name)} {of}", expected)
