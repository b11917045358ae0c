"""Whether what a design names is in the books it names."""

from __future__ import annotations

from collections.abc import Mapping

from linewright.book.compiled import CompiledBook, near
from linewright.document.source import Source
from linewright.model.design import Design, System


def check_links(design: Design, books: Mapping[str, CompiledBook], source: Source) -> None:
    """Note every model, group, action and declaration that a design names and its book does not know."""
    for i, system in enumerate(design.systems):
        path = f"systems[{i}]"
        book = books.get(system.book)
        if book is None:
            source.fault(f"{path}.book", f"no book '{system.book}'", near(system.book, books) if books else "a book")
        else:
            _check_system(system, book, path, source=source)


def _check_system(system: System, book: CompiledBook, path: str, *, source: Source) -> None:
    for i, module in enumerate(system.outdoor.modules):
        if module.model not in book.modules:
            source.fault(
                f"{path}.outdoor.modules[{i}]",
                f"no outdoor module '{module.model}' in book '{system.book}'",
                near(module.model, book.modules),
            )
    for i, unit in enumerate(system.units):
        if unit.model not in book.models:
            source.fault(
                f"{path}.units[{i}].model",
                f"no indoor model '{unit.model}' in book '{system.book}'",
                near(unit.model, book.models),
            )
    models = tuple(module.model for module in system.outdoor.modules)
    if all(model in book.modules for model in models) and book.group_of(models) is None:
        groups = "; ".join(" + ".join(group.modules) for group in book.book.outdoor.groups)
        source.fault(f"{path}.outdoor.modules", f"{' + '.join(models)} is no group of this book", f"one of {groups}")
    _check_names(system, book, path, source=source)


def _check_names(system: System, book: CompiledBook, path: str, *, source: Source) -> None:
    actions = {action.id for action in book.book.sizing.actions}
    for i, name in enumerate(system.forbidden_actions):
        if name not in actions:
            source.fault(f"{path}.forbidden_actions[{i}]", f"no size action '{name}' in this book", near(name, actions))
    declarations = {
        need.declared for limit in book.book.limits for relaxed in limit.relaxed for need in relaxed.needs if need.declared
    }
    for i, name in enumerate(system.declared):
        if name not in declarations:
            source.fault(f"{path}.declared[{i}]", f"no limit of this book asks for '{name}'", near(name, declarations))
