"""The audit of a book that can be understood: what a careful reader would ask. Without physics."""

from linewright.book.audit import figures, reach, rules, services, sizes
from linewright.book.audit.doubts import Audit, Doubt
from linewright.book.schema import Book

__all__ = ["AUDITS", "Doubt", "audit"]

AUDITS: tuple[Audit, ...] = (
    sizes.smaller_tubes,
    sizes.swapped_columns,
    sizes.larger_ports,
    sizes.ports_for_tables,
    sizes.smaller_joints,
    sizes.walls,
    sizes.ladder_gaps,
    reach.groups_beyond,
    reach.units_beyond,
    reach.rows_unreached,
    reach.below_first_row,
    reach.group_bounds,
    figures.charge_rates,
    figures.ratings,
    figures.larger_ratings,
    figures.index_units,
    figures.index_shares,
    figures.group_sums,
    figures.factors,
    rules.limits_missing,
    rules.limits_twice,
    rules.odd_bounds,
    rules.odd_ratios,
    rules.unneeded_actions,
    rules.idle_modules,
    rules.outdoor_joints,
    rules.rates_missing,
    services.supplies,
    services.drains,
    rules.pages,
    rules.standing,
)


def audit(book: Book) -> tuple[Doubt, ...]:
    """Look through a sound book for doubts, in the order of the audits. That there are none proves nothing."""
    return tuple(doubt for look in AUDITS for doubt in look(book))
