"""Forms of the set, filled in as somebody on site would."""

import csv
import io
from collections.abc import Mapping
from pathlib import Path

from linewright.app.handover import about_project
from linewright.report.forms.blanks import blanks_of
from linewright.report.forms.tables import form_csv
from linewright.units import UnitSystem
from tests.handover.cases import evaluated, project

#: Where a blank stands (system, form, item, field) and what is written there.
Entries = Mapping[tuple[str, str, str, str], str]


def blank_rows(path: Path, units: UnitSystem) -> list[list[str]]:
    text = form_csv(blanks_of(evaluated(path), units), about_project(project(path)))
    return list(csv.reader(io.StringIO(text)))


def filled(path: Path, units: UnitSystem, entries: Entries, folder: Path) -> str:
    """Write the form of a design with some entries; its name."""
    rows, left = blank_rows(path, units), dict(entries)
    for row in rows[1:]:
        row[5] = left.pop((row[0], row[1], row[2], row[3]), row[5])
    assert not left
    place = folder / "filled.csv"
    with place.open("w", encoding="utf-8", newline="") as file:
        csv.writer(file).writerows(rows)
    return str(place)


def stage(system: str, number: int, **fields: str) -> dict[tuple[str, str, str, str], str]:
    return {(system, "pressure test", f"stage {number}", name.replace("_", " ")): said for name, said in fields.items()}
