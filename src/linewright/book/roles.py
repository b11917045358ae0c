"""Which tubes a family has up to its mode boxes and beyond them, and which of them is the gas side."""

from __future__ import annotations

from collections.abc import Mapping

from linewright.book.schema import Book, Charge, Kind
from linewright.model.values import Role

#: Tubes that may be the gas side of a pipe and its liquid side: the first that the pipe has.
GAS_SIDE = (Role.GAS, Role.SUCTION, Role.LOW)
LIQUID_SIDE = (Role.LIQUID, Role.HIGH)
#: Tubes of a heat pump, and of any family between a mode box and its units.
UNIT_ROLES = (Role.GAS, Role.LIQUID)


def is_recovery(book: Book) -> bool:
    """Say whether the family heats and cools at the same time."""
    return book.kind is Kind.HEAT_RECOVERY


def outer_roles(book: Book) -> tuple[Role, ...]:
    """Tubes of the pipe up to the mode boxes, in the order of the roles: those of the rows of the main."""
    if not is_recovery(book):
        return UNIT_ROLES
    given = {role for row in book.sizing.main.rows for role in row.sizes}
    return tuple(role for role in Role if role in given)


def direct_roles(book: Book) -> tuple[Role, ...]:
    """Tubes of a pipe that leads to no mode box: none where the family has no suction tube of its own."""
    roles = (Role.LIQUID, Role.SUCTION)
    return roles if set(roles) <= set(outer_roles(book)) else ()


def sides(book: Book) -> Mapping[Role, Role]:
    """Gas and liquid side of the pipe up to the boxes, under the names that they have at a unit."""
    outer = outer_roles(book)
    return {
        name: next((role for role in options if role in outer), name)
        for name, options in ((Role.GAS, GAS_SIDE), (Role.LIQUID, LIQUID_SIDE))
    }


def book_roles(book: Book) -> tuple[Role, ...]:
    """All tubes of the family, each once: those of the units first."""
    return UNIT_ROLES + tuple(role for role in outer_roles(book) if role not in UNIT_ROLES)


def line_rates(charge: Charge) -> tuple[tuple[Role, Mapping[float, float]], ...]:
    """Mass per length [kg/m] by tube, for each role, in the order of print."""
    return (
        (Role.LIQUID, charge.liquid),
        (Role.GAS, charge.gas),
        (Role.SUCTION, charge.suction),
        (Role.HIGH_LOW, charge.high_low),
        (Role.HIGH, charge.high),
        (Role.LOW, charge.low),
    )
