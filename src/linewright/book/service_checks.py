"""What can be wrong with the electrical and condensate data of a book."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from linewright.book.naming import check_known
from linewright.book.quantities import Report, check_positive
from linewright.book.schema import Book, Drain, DrainRow, DrainTable, SuppliedFrom, SupplyRow, SupplyTable
from linewright.errors import quoted

_PHASES = (1, 3)


def check_services(book: Book, report: Report) -> None:
    """Note what is wrong with the rows of supplies and drains."""
    indoor = [model.model for model in book.indoor.models]
    modules = [module.model for module in book.outdoor.modules]
    boxes = [] if book.boxes is None else [model.model for model in book.boxes.models]
    _supplies(book.outdoor.electrical, "outdoor", modules, what="outdoor module", report=report)
    _supplies(book.indoor.electrical, "indoor", indoor, what="indoor model", report=report)
    if book.boxes is not None:
        _supplies(book.boxes.electrical, "boxes", boxes, what="mode box", report=report)
    _drains(book.indoor.condensate, indoor, report)


def _supplies(table: SupplyTable | None, section: str, known: Sequence[str], *, what: str, report: Report) -> None:
    _check_rows(table, f"{section}.electrical", report)
    for i, row in enumerate(() if table is None else table.rows):
        path = f"{section}.electrical.rows[{i}]"
        _check_models(row.model, known, path, what=what, report=report)
        _check_supply(row, path, report)
        if row.from_ is SuppliedFrom.OUTDOOR and section == "outdoor":
            report(f"{path}.from", "an outdoor unit is not supplied from itself", "own, or no such key")


def _check_supply(row: SupplyRow, path: str, report: Report) -> None:
    if row == SupplyRow(model=row.model, page=row.page):
        report(path, "the row says nothing but which model it is for", "what the document prints of the supply")
    if row.phases is not None and row.phases not in _PHASES:
        report(f"{path}.phases", "a supply has one phase or three", "1 or 3")
    figures = {
        "voltage_to": row.voltage_to_v,
        "min_circuit_current": row.min_circuit_current_a,
        "max_overcurrent": row.max_overcurrent_a,
        "running_current": row.running_current_a,
        "input": row.input_w,
    }
    check_positive(figures, path, report)
    _check_list("voltage", row.voltage_v, path, report)
    _check_list("frequency", row.frequency_hz, path, report)
    if row.voltage_to_v is not None and (len(row.voltage_v) != 1 or row.voltage_v[0] >= row.voltage_to_v):
        message = "'voltage_to' ends a range that begins with one lower 'voltage'"
        report(f"{path}.voltage_to", message, "voltage: 380 V, voltage_to: 415 V")


def _check_list(key: str, values: Sequence[float], path: str, report: Report) -> None:
    """Several figures stand in a list, whose place names each of them."""
    for i, one in enumerate(values):
        check_positive({key if len(values) == 1 else f"{key}[{i}]": one}, path, report)


def _drains(table: DrainTable | None, known: Sequence[str], report: Report) -> None:
    first: dict[str, int] = {}
    _check_rows(table, "indoor.condensate", report)
    for i, row in enumerate(() if table is None else table.rows):
        path = f"indoor.condensate.rows[{i}]"
        _check_models(row.model, known, path, what="indoor model", report=report)
        _check_drain(row, path, report)
        for name in row.model:
            at = first.setdefault(name, i)
            if name and at != i:
                message = f"the condensate of {quoted(name)} stands in indoor.condensate.rows[{at}] already"
                report(f"{path}.model", message, "each model once")


def _check_drain(row: DrainRow, path: str, report: Report) -> None:
    if row == DrainRow(model=row.model, page=row.page):
        report(path, "the row says nothing but which model it is for", "what the document prints of the condensate")
    check_positive({"lift": row.lift_m}, path, report)
    if row.drain is Drain.GRAVITY and row.lift_m is not None:
        report(f"{path}.lift", "what drains by gravity lifts nothing", "drain: pump or pump-kit, or no lift")


def _check_rows(table: SupplyTable | DrainTable | None, path: str, report: Report) -> None:
    if table is not None and not table.rows:
        report(f"{path}.rows", "the table has no rows", "at least one row")


def _check_models(names: Iterable[str], known: Sequence[str], path: str, *, what: str, report: Report) -> None:
    found = tuple(names)
    if not found:
        report(f"{path}.model", "the row is for no model", "at least one")
    for i, name in enumerate(found):
        where = f"{path}.model" if len(found) == 1 else f"{path}.model[{i}]"
        check_known(name, known, where, what=what, report=report)
