"""Whether the standard that a design chose knows what it is asked about."""

from __future__ import annotations

from collections.abc import Mapping

from linewright.book.compiled import CompiledBook
from linewright.errors import listed, quoted
from linewright.model.design import Design
from linewright.model.soundness.notes import Notes


def check_refrigerants(design: Design, books: Mapping[str, CompiledBook], source: Notes) -> None:
    """Note refrigerants of which the chosen standard has no values here, and rules that are none of its own."""
    chosen = design.refrigerant
    if chosen is None or not source.sound("refrigerant.profile"):
        return
    from linewright.standards.safety.profiles import STANDARDS, refrigerants  # noqa: PLC0415 - seldom asked for

    standard = STANDARDS[chosen.profile]
    for i, name in enumerate(chosen.read):
        if name not in standard.rules:
            message = f"{chosen.profile} has no rule {quoted(name)} that could be read"
            source.derive(f"refrigerant.read[{i}]", message, source.one_of(name, list(standard.rules)))
    for i, system in enumerate(design.systems):
        book = books.get(system.book)
        if book is None or standard.fluid(book.book.refrigerant) is not None:
            continue
        message = f"{chosen.profile} has no values of {quoted(book.book.refrigerant)} here"
        source.derive(f"systems[{i}].book", message, listed(refrigerants(chosen.profile)))
