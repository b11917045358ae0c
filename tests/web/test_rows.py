"""Results as text that was written before are those that are written now."""

from dataclasses import replace

import orjson

from linewright.app.keeping.workspace import Shelf, shipped_books
from linewright.document.files import design_from_text
from linewright.engine import Library, evaluate
from linewright.model.design import Design
from linewright.report.check_json import check_json
from linewright.web.rows import Rows
from tests.keeping.kept import BOAT_HOUSE


def lengthened(design: Design, run: int, length_m: float | None) -> Design:
    system = design.systems[0]
    made = replace(system.runs[run], length_m=length_m)
    runs = (*system.runs[:run], made, *system.runs[run + 1 :])
    return replace(design, systems=(replace(system, runs=runs), *design.systems[1:]))


def test_what_was_written_before_is_what_is_written_now() -> None:
    """To and fro, with what is not known and another design of the same names between."""
    first = design_from_text(BOAT_HOUSE, "").design
    other = replace(first, systems=tuple(replace(one, units=one.units[::-1]) for one in first.systems))
    library: Library = Shelf(shipped_books(), ()).library
    rows = Rows()
    for run in range(len(first.systems[0].runs)):
        for length_m in (4.0, 60.0, None, 4.0):
            for design in (lengthened(first, run, length_m), lengthened(other, run, length_m)):
                found = evaluate(design, library)
                written = orjson.dumps(check_json(found, cures=False, put=rows))
                assert written == orjson.dumps(check_json(found, cures=False))
