"""A judged record in words and as `linewright/record/1`."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from typing import Any

from linewright.engine.records import Standing
from linewright.engine.site_targets import Label
from linewright.report.compared import Changed, Charged
from linewright.report.forms.verdicts import Figure, Judged
from linewright.report.page import Page
from linewright.report.reasons import number
from linewright.report.table import Cell, Column
from linewright.units import Dimension, UnitSystem, show

SCHEMA = "linewright/record/1"
_ROWS = (Column("system", most=12), Column("record", most=14), Column("item", most=12), Column("stands", most=11))
#: Names of the bases of warming potentials.
BASES = {"eu-2024-573": "(EU) 2024/573", "ar4": "IPCC AR4", "ar5": "IPCC AR5"}
_STYLES = {"fails": "over", "not judged": "unjudged", "holds": "within"}
UNKNOWN = "?"


def record_text(verdicts: Sequence[Judged], labels: Mapping[str, Label], *, system: UnitSystem, colour: bool) -> str:
    """Write every verdict with what it rests on, then the labels."""
    page = Page(colour=colour)
    page.title("Record of the site")
    page.table((*_ROWS, Column("why")), [_row(one) for one in verdicts])
    page.blank()
    for one in verdicts:
        if any(figure.value is not None for figure in one.figures):
            said = "; ".join(_figure(figure, system) for figure in one.figures)
            page.text(f"{one.system}, {one.form.value}, {one.item}: {said}")
    page.blank()
    for name, label in labels.items():
        page.text(f"Label of system {name}: {'; '.join(map(_said, label_rows(label, system)))}")
    return str(page)


def built_text(
    changed: Sequence[Changed], charges: Sequence[Charged], standing: Standing, *, system: UnitSystem
) -> str:
    """What lengths as built make of charge and limits."""
    page = Page(colour=False)
    page.title("As built")
    for charge in charges:
        page.text(
            f"{charge.system}: to be weighed in {_kg(charge.additional_before, system)} by design, "
            f"{_kg(charge.additional_after, system)} as built; in all {_kg(charge.total_after, system)}"
        )
    if not charges:
        page.text("The charge is that of the design.")
    turned: dict[tuple[str, str], list[str]] = {}
    for one in changed:
        before, after = ("not there" if check is None else check.standing.value for check in (one.before, one.after))
        if before != after:
            turned.setdefault((before, after), []).append(one.subject)
    for (before, after), subjects in turned.items():
        page.text(f"{before} by design, {after} as built: {', '.join(subjects)}")
    page.text(f"As built the design stands: {standing.value}.")
    return str(page)


def _row(one: Judged) -> list[Cell | str]:
    outcome = one.found.outcome.value
    return [one.system, one.form.value, one.item, Cell(outcome, _STYLES.get(outcome, "")), "; ".join(one.found.why)]


def _figure(figure: Figure, system: UnitSystem) -> str:
    if figure.dimension is Dimension.PRESSURE and figure.value is not None and abs(figure.value) < 1000.0:
        return f"{figure.name} {figure.value:.1f} Pa"
    return f"{figure.name} {number(figure.value, figure.dimension, system)}"


def _said(row: tuple[str, str]) -> str:
    return " ".join(part for part in row if part)


def _kg(mass_kg: float | None, system: UnitSystem) -> str:
    return number(mass_kg, Dimension.MASS, system)


def label_rows(label: Label, system: UnitSystem) -> Iterator[tuple[str, str]]:
    """What stands on the label: names, of which one may be empty, and what is said to each."""
    if label.fluorinated:
        yield "", "Contains fluorinated greenhouse gases"
    yield "refrigerant", label.refrigerant
    yield "factory charge", show(label.factory_kg, Dimension.MASS, system)
    yield "added on site", _kg(label.added_kg, system)
    yield "total charge", _kg(label.total_kg, system)
    for basis, potential in label.gwp.items():
        weight = label.tonnes[basis]
        said = "?" if potential is None else f"{potential:.6g}"
        yield f"GWP by {BASES[basis]}", said
        yield f"t CO2e by {BASES[basis]}", UNKNOWN if weight is None else f"{weight:.3f}"


def record_json(verdicts: Sequence[Judged], labels: Mapping[str, Label], **others: Any) -> dict[str, Any]:  # noqa: ANN401
    """Everything as plain values in SI; `others` stand beside."""
    return {
        "schema": SCHEMA,
        **others,
        "records": [
            {
                "system": one.system,
                "form": one.form.value,
                "item": one.item,
                "outcome": one.found.outcome.value,
                "why": list(one.found.why),
                "figures": [
                    {"name": figure.name, "value": figure.value, "unit": figure.dimension.si} for figure in one.figures
                ],
            }
            for one in verdicts
        ],
        "labels": [
            {
                "system": name,
                "refrigerant": label.refrigerant,
                "factory_kg": label.factory_kg,
                "added_kg": label.added_kg,
                "total_kg": label.total_kg,
                "gwp": dict(label.gwp),
                "tonnes_co2e": dict(label.tonnes),
            }
            for name, label in labels.items()
        ],
    }
