"""What can be wrong with a heat-recovery book, or with the mode boxes of a design: where, and what is said."""

import json
from typing import Any

import pytest
import yaml

from linewright.document.files import book_from_text, design_from_text, link
from linewright.errors import InputFaultsError
from tests.engine.builders import PLAIN, Doc, design, system, unit
from tests.house.files import ROOT
from tests.recovery.builders import BOXES, book, box, one_box, outer, run

Found = list[tuple[str, str]]

BOX: Doc = {"model": "box 4", "ports": 4, "index": 12}


def told(error: InputFaultsError) -> Found:
    return [(fault.path, fault.message) for fault in error.faults]


def of_book(used: Doc) -> Found:
    with pytest.raises(InputFaultsError) as refused:
        book_from_text(json.dumps(used, default=str), "some.book.yaml")
    return told(refused.value)


def of_design(laid_out: Doc) -> Found:
    compiled = {"plain": book_from_text(json.dumps(book()), "plain.book.yaml").compiled}
    with pytest.raises(InputFaultsError) as refused:
        link(design_from_text(json.dumps(design([laid_out])), "some.design.yaml"), compiled)
    return told(refused.value)


def one_model(**more: Any) -> Doc:  # noqa: ANN401 - any key of a box
    """The book with one box that has these keys."""
    return book({"boxes": {"models": [{**BOX, **more}]}})


def sized(table: str, row: Doc) -> Doc:
    """The book with one row in one of its size tables."""
    return book({f"sizing.{table}": {"rows": [row]}})


def acting(runs: str, line: str) -> Doc:
    """The book with a size action on one line."""
    return book({"sizing.actions": [{"id": "up", "runs": runs, "lines": [line]}]})


def without(used: Doc, key: str) -> Doc:
    return {name: item for name, item in used.items() if name != key}


TWO_TUBES: Doc = yaml.safe_load((ROOT / "tests" / "fixtures" / "two-tube.book.yaml").read_text(encoding="utf-8"))
HEAT_PUMP = "a heat pump has no mode boxes"
BOOKS: dict[str, tuple[Doc, Found]] = {
    "no boxes": (without(book(), "boxes"), [("boxes", "a heat-recovery book has mode boxes, and this one names none")]),
    "no box": (
        book({"boxes": {"models": []}}),
        [("boxes.models", "a heat-recovery book has mode boxes, and this one names none")],
    ),
    "a box twice": (
        book({"boxes": {"models": [BOX, BOX]}}),
        [("boxes.models[1].model", "the name 'box 4' is used twice, first in boxes.models[0]")],
    ),
    "a box without a port": (one_model(ports=0), [("boxes.models[0].ports", "the box has no port")]),
    "a box without an index": (one_model(index=0), [("boxes.models[0].index", "'index' is not above zero")]),
    "a port without an index": (
        one_model(port_index=0),
        [("boxes.models[0].port_index", "'port_index' is not above zero")],
    ),
    "nothing to carry on": (
        one_model(series_index=-1),
        [("boxes.models[0].series_index", "'series_index' is not above zero")],
    ),
    "no unit on a port": (
        one_model(units_per_port=0),
        [("boxes.models[0].units_per_port", "no unit could hang on a port")],
    ),
    "one port joined": (
        one_model(joined={"ports": 1}),
        [("boxes.models[0].joined.ports", "1 ports of a box of 4 cannot be joined")],
    ),
    "more ports joined than there are": (
        one_model(joined={"ports": 5}),
        [("boxes.models[0].joined.ports", "5 ports of a box of 4 cannot be joined")],
    ),
    "joined ports twice": (
        one_model(joined=[{"ports": 2, "index": 5}, {"ports": 2, "index": 6}]),
        [("boxes.models[0].joined[1].ports", "2 joined ports stand twice")],
    ),
    "no unit on joined ports": (
        one_model(joined={"ports": 2, "units": 0}),
        [("boxes.models[0].joined.units", "no unit could hang on the joined ports")],
    ),
    "a connection that leads nowhere": (
        one_model(gas="12.7 mm"),
        [("boxes.models[0].gas", "there is no gas tube up to the mode boxes")],
    ),
    "a port for another tube": (
        one_model(outlet={"suction": "12.7 mm"}),
        [("boxes.models[0].outlet.suction", "there is no suction tube behind a mode box")],
    ),
    "a connection off the ladder": (
        one_model(suction="9.52 mm"),
        [("boxes.models[0].suction", "9.52 mm is not on the ladder of suction tubes")],
    ),
    "no box in series": (
        book({"boxes": {**BOXES, "series": {"max": 0}}}),
        [("boxes.series.max", "no box could stand anywhere")],
    ),
    "an unknown kind without a box": (
        book({"boxes": {**BOXES, "direct": {"kind": ["walls"]}}}),
        [("boxes.direct.kind[0]", "there is no kind of indoor unit 'walls' in this book")],
    ),
    "an unknown model without a box": (
        book({"boxes": {**BOXES, "direct": {"model": ["unit 99"]}}}),
        [("boxes.direct.model[0]", "there is no indoor model 'unit 99' in this book")],
    ),
    "the charge of an unknown box": (
        book({"charge": {"box": {"box 5": "1 kg"}}}),
        [("charge.box.box 5", "there is no mode box 'box 5' in this book")],
    ),
    "a box that takes charge away": (
        book({"charge": {"box_each": "-1 kg"}}),
        [("charge.box_each", "'box_each' is negative")],
    ),
    "gas up to the boxes": (
        sized("main", {"upto": 20, "gas": "22.22 mm", "liquid": "9.52 mm"}) | {"outdoor": PLAIN["outdoor"]},
        [
            (
                "sizing.main.rows[0].gas",
                "up to the mode boxes no tube is a gas line: it is one only between a box and its units",
            ),
            ("sizing.branch.rows[0].gas", "there is no gas size"),
            ("sizing.branch.rows[0].suction", "this pipe has no suction tube"),
            ("sizing.branch.rows[0].high_low", "this pipe has no high_low tube"),
            ("sizing.branch.rows[1].gas", "there is no gas size"),
            ("sizing.branch.rows[1].suction", "this pipe has no suction tube"),
            ("sizing.branch.rows[1].high_low", "this pipe has no high_low tube"),
        ],
    ),
    "two tubes and a unit without a box": (
        TWO_TUBES | {"boxes": {**TWO_TUBES["boxes"], "direct": {}}},
        [
            (
                "boxes.direct",
                "a unit without a box wants a liquid and a suction tube, and the main of this book has not both",
            )
        ],
    ),
    "a third tube behind a box": (
        sized("below_box", {"upto": 9, "gas": "12.7 mm", "liquid": "6.35 mm", "suction": "12.7 mm"}),
        [("sizing.below_box.rows[0].suction", "this pipe has no suction tube")],
    ),
    "a row that lacks a tube": (
        sized("branch", {"upto": 30, "suction": "12.7 mm", "liquid": "6.35 mm"}),
        [("sizing.branch.rows[0].high_low", "there is no high_low size")],
    ),
    "a tube without a ladder": (
        book({"tubes": without(book()["tubes"], "high_low")}),
        [("tubes.high_low", "there is no ladder of high_low tubes")],
    ),
    "an action on a line that the main has not": (
        acting("main", "gas"),
        [("sizing.actions[0].lines[0]", "the main of this book has no gas line")],
    ),
    "an action on a line that a unit has not": (
        acting("unit-run", "high_low"),
        [("sizing.actions[0].lines[0]", "a unit's own run has no high_low line")],
    ),
    "an action on a line that the book has not": (
        acting("path", "high"),
        [("sizing.actions[0].lines[0]", "this book has no high line")],
    ),
    "a charge by a line that the book has not": (
        book({"charge": {"low": {"12.7 mm": "0.1 kg/m"}}}),
        [("charge.low", "this book has no low line")],
    ),
    "a term by a line that the book has not": (
        book({"charge": {"terms": [{"name": "x", "per": "length", "rate": "0.1 kg/m", "lines": ["low"]}]}}),
        [("charge.terms[0].lines[0]", "this book has no low line")],
    ),
    "a bound that no box states": (
        book({"limits": [{"measure": "box_count", "max": "box"}]}),
        [("limits[0].max", "a mode box states no bound on box_count")],
    ),
    "a wider bound than the box states": (
        book(
            {
                "limits": [
                    {
                        "measure": "box_index",
                        "max": "box",
                        "relaxed": [{"max": 99, "needs": [{"measure": "box_count", "max": 1}]}],
                    }
                ]
            }
        ),
        [("limits[0].relaxed", "what each mode box states for itself is not relaxed")],
    ),
    "boxes in a heat pump": (PLAIN | {"boxes": {"models": [BOX]}}, [("boxes", HEAT_PUMP)]),
    "tubes behind boxes in a heat pump": (
        PLAIN | {"sizing": PLAIN["sizing"] | {"below_box": PLAIN["sizing"]["branch"]}},
        [("sizing.below_box", HEAT_PUMP)],
    ),
    "the charge of boxes in a heat pump": (PLAIN | {"charge": {"box_each": "1 kg"}}, [("charge.box_each", HEAT_PUMP)]),
    "suction in a heat pump": (
        PLAIN | {"charge": {"suction": {"12.7 mm": "1 kg/m"}}},
        [("charge.suction", "this book has no suction line")],
    ),
    "an action on suction in a heat pump": (
        PLAIN | {"sizing": PLAIN["sizing"] | {"actions": [{"id": "up", "runs": "main", "lines": ["suction"]}]}},
        [("sizing.actions[0].lines[0]", "a heat pump has no suction line")],
    ),
}


@pytest.mark.parametrize(("used", "faults"), BOOKS.values(), ids=BOOKS)
def test_a_fault_of_a_book(used: Doc, faults: Found) -> None:
    assert of_book(used) == faults


def test_a_main_without_a_gas_or_a_liquid_side() -> None:
    """Only the high/low tube leads to the boxes; what follows from it is said of every table and port as well."""
    found = of_book(sized("main", {"upto": 20, "high_low": "12.7 mm"}))
    assert ("sizing.main.rows", "no tube up to the mode boxes is the gas side") in found
    assert ("sizing.main.rows", "no tube up to the mode boxes is the liquid side") in found


def branched(*fittings: Doc, **first: Any) -> Doc:  # noqa: ANN401 - any key of a run
    """A main to N and two runs from there, the first with these keys."""
    runs = [run("outdoor", "N"), run("N", "A") | first, run("N", "B")]
    return system(runs, [unit("A", 2), unit("B", 2)], fittings=list(fittings))


BOXED = box("N")
DESIGNS: dict[str, tuple[Doc, Found]] = {
    "ports of a joint": (
        branched(ports=[1]),
        [("systems[0].runs[1].ports", "only a run that leaves a mode box has ports, and 'N' is none")],
    ),
    "port nought": (branched(BOXED, ports=[0]), [("systems[0].runs[1].ports[0]", "no port has the number 0")]),
    "a port twice in one run": (
        branched(BOXED, ports=[2, 2]),
        [("systems[0].runs[1].ports[1]", "port 2 stands twice")],
    ),
    "a joint with a model": (
        branched({"id": "N", "kind": "joint", "model": "joint"}),
        [
            (
                "systems[0].fittings[0].model",
                "only a header or a mode box is named by its model; the book gives every other fitting",
            )
        ],
    ),
    "a box that the book does not have": (
        one_box({"A": 2}, model="box 5"),
        [("systems[0].fittings[0].model", "there is no mode box 'box 5' in the book 'plain'")],
    ),
    "a header that the book does not have": (
        branched({"id": "N", "kind": "header", "model": "header 9"}),
        [("systems[0].fittings[0].model", "there is no header 'header 9' in the book 'plain'")],
    ),
    "a module pipe with ports": (
        one_box({"A": 2})
        | {
            "outdoor": {
                "modules": ["outdoor 10", "outdoor 10"],
                "pipes": [run("outdoor", "M1", ports=[1]), run("outdoor", "M2")],
            }
        },
        [("systems[0].outdoor.pipes[0].ports", "a module pipe leaves no mode box")],
    ),
}


@pytest.mark.parametrize(("laid_out", "faults"), DESIGNS.values(), ids=DESIGNS)
def test_a_fault_of_a_design(laid_out: Doc, faults: Found) -> None:
    assert of_design(laid_out) == faults


def test_the_book_that_is_damaged_here_is_sound() -> None:
    book_from_text(json.dumps(book()), "some.book.yaml")
    book_from_text(json.dumps(sized("main", outer(20, "22.22 mm", "19.05 mm", "9.52 mm"))), "some.book.yaml")
