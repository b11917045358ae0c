"""Doubts about electrical and condensate data: columns that look swapped, figures of another unit."""

from __future__ import annotations

from collections.abc import Iterator

from linewright.book.audit.doubts import Doubt
from linewright.book.schema import Book, SupplyTable

#: Mains of buildings [Hz]; common practice, no source.
MAINS_HZ = (50.0, 60.0)
#: Nominal voltages that are usual for such units, wide on purpose [V]; common practice, no source.
VOLTAGES = (100.0, 690.0)
#: Pumps of units lift less, wide on purpose [m]; common practice, no source. Millimetres typed as metres are more.
HIGHEST_LIFT_M = 5.0


def supply_tables(book: Book) -> Iterator[tuple[str, SupplyTable]]:
    """Tables of supplies by path."""
    holders = (("outdoor", book.outdoor), ("indoor", book.indoor), ("boxes", book.boxes))
    for name, holder in holders:
        if holder is not None and holder.electrical is not None:
            yield f"{name}.electrical", holder.electrical


def supplies(book: Book) -> Iterator[Doubt]:
    """Voltage and frequency are those of mains; what a circuit has to carry is no more than what protects it."""
    for name, table in supply_tables(book):
        for i, row in enumerate(table.rows):
            path, page = f"{name}.rows[{i}]", row.page or table.page
            for volts in (*row.voltage_v, *filter(None, (row.voltage_to_v,))):
                if not VOLTAGES[0] <= volts <= VOLTAGES[1]:
                    yield Doubt("odd-voltage", f"{path}.voltage", page, f"{volts:g} V", "a digit, or the column")
            for hertz in row.frequency_hz:
                if hertz not in MAINS_HZ:
                    yield Doubt("odd-frequency", f"{path}.frequency", page, f"{hertz:g} Hz", "a digit, or the column")
            needed, most = row.min_circuit_current_a, row.max_overcurrent_a
            if needed is not None and most is not None and needed > most:
                said = f"a circuit for {needed:g} A behind a protection of {most:g} A"
                yield Doubt("swapped-currents", path, page, said, "the two columns")


def drains(book: Book) -> Iterator[Doubt]:
    """The lift of a pump is a matter of decimetres."""
    table = book.indoor.condensate
    for i, row in enumerate(() if table is None else table.rows):
        if row.lift_m is not None and row.lift_m > HIGHEST_LIFT_M:
            where, page = f"indoor.condensate.rows[{i}].lift", row.page or (None if table is None else table.page)
            yield Doubt("odd-lift", where, page, f"a pump that lifts {row.lift_m:g} m", "the unit: mm or m, in or ft")
