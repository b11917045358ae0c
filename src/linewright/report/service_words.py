"""Electrical and condensate data in words, as a document prints them; what a book does not state is said so."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from linewright.book.schema import DrainRow, SuppliedFrom, SupplyRow
from linewright.units import Dimension, UnitSystem, show, show_number, tube_name

#: Stands wherever a book states nothing: never an empty cell, and never nought.
NOT_IN_BOOK = "not in the book"
PASSED_ON = (
    "Electrical and condensate data are passed on as the books state them: nothing of them is judged, "
    "and nothing is computed with them."
)
BY_OTHERS = (
    "Circuits, their protection, isolators and cables are to be designed by the electrical engineer, condensate pipe "
    "by others; the maker's data and the codes decide."
)
_FROM = {SuppliedFrom.OWN: "a circuit of its own", SuppliedFrom.OUTDOOR: "the outdoor unit"}


def from_words(row: SupplyRow) -> str:
    """From where it is supplied."""
    return NOT_IN_BOOK if row.from_ is None else _FROM[row.from_]


def voltage_words(row: SupplyRow) -> str:
    """`208/230 V` for several nominal voltages, `380-415 V` for a range."""
    if not row.voltage_v:
        return NOT_IN_BOOK
    last = () if row.voltage_to_v is None else (row.voltage_to_v,)
    return f"{_numbers((*row.voltage_v, *last), Dimension.VOLTAGE, '-' if last else '/')} V"


def frequency_words(row: SupplyRow) -> str:
    """`50/60 Hz`."""
    return f"{_numbers(row.frequency_hz, Dimension.FREQUENCY, '/')} Hz" if row.frequency_hz else NOT_IN_BOOK


def supply_words(row: SupplyRow) -> str:
    """Phases, voltage, frequency and from where, on one line."""
    phases = "phases not in the book" if row.phases is None else f"{row.phases}-phase"
    voltage = "voltage not in the book" if not row.voltage_v else voltage_words(row)
    frequency = "frequency not in the book" if not row.frequency_hz else frequency_words(row)
    source = "from where is not in the book" if row.from_ is None else f"from {from_words(row)}"
    return ", ".join(filter(None, (phases, voltage, frequency, source, row.text)))


def current_words(row: SupplyRow) -> str:
    """What a circuit has to carry, what protects it, what runs: each by its name; none stands for another."""
    return ", ".join(_currents(row))


def _currents(row: SupplyRow) -> Iterator[str]:
    yield f"minimum circuit current {_amperes(row.min_circuit_current_a)}"
    yield f"maximum overcurrent protection {_amperes(row.max_overcurrent_a)}"
    if row.running_current_a is not None:
        yield f"running current {_amperes(row.running_current_a)}"


def _amperes(current_a: float | None) -> str:
    return NOT_IN_BOOK if current_a is None else show(current_a, Dimension.CURRENT, UnitSystem.SI)


def drain_words(row: DrainRow | None, system: UnitSystem) -> str:
    """How condensate leaves, its connection in the maker's words, the lift of a pump."""
    if row is None:
        return NOT_IN_BOOK
    how = "gravity or pump not in the book" if row.drain is None else row.drain.value
    connection = row.connection or "connection not in the book"
    lift = "" if row.lift_m is None else f"lift {tube_name(row.lift_m, system)}"
    return ", ".join(filter(None, (how, connection, lift, row.text)))


def _numbers(values: Sequence[float], dimension: Dimension, between: str) -> str:
    return between.join(show_number(one, dimension, UnitSystem.SI) for one in values)
