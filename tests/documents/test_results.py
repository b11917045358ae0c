"""A design that breaks a rule, or that a table does not reach, is a result and not an input that is not understood."""

from pathlib import Path

import pytest

from linewright.cli.common import Exit
from tests.documents.program import checked
from tests.documents.texts import BOOK, DESIGN, damaged

#: 11.2 and 7.1 more: three units, whose index of 35.6 is beyond 20.8, the last row for branches.
LARGE = {
    "model: cassette 3.6, kind: cassette, index: 3.6": "model: cassette 3.6, kind: cassette, index: 30",
}

DESIGNS = {
    "a branch after a header": (
        [("    runs:\n", "    fittings: [{id: J1, kind: header}]\n    runs:\n")],
        [],
        Exit.OVER,
    ),
    "a capacity outside a table of temperatures": ([("outdoor_db: 35 C", "outdoor_db: 44 C")], [], Exit.OVER),
    "a length beyond the table of lengths": ([("length: 24 m", "length: 60 m")], [], Exit.OVER),
    "an index that no row serves": ([], list(LARGE.items()), Exit.OVER),
    "a pipe that ends without a unit": (
        [
            (
                "{from: J2, to: U3, length: 11 m}",
                "{from: J2, to: U3, length: 11 m}\n      - {from: J2, to: J5, length: 1 m}",
            )
        ],
        [],
        Exit.OVER,
    ),
    "an override that is on no ladder": (
        [("{from: J2, to: U2, length: 5 m}", "{from: J2, to: U2, length: 5 m, override: {gas: 60 mm}}")],
        [],
        Exit.OVER,
    ),
}


@pytest.mark.parametrize(("design", "book", "code"), DESIGNS.values(), ids=DESIGNS.keys())
@pytest.mark.parametrize("form", [(), ("--json",)], ids=["text", "json"])
def test_a_broken_rule_is_a_result(
    tmp_path: Path, design: list[tuple[str, str]], book: list[tuple[str, str]], code: Exit, form: tuple[str, ...]
) -> None:
    done = checked(tmp_path, damaged(DESIGN, *design)[0], damaged(BOOK, *book)[0], *form)
    assert done.code == code
    assert done.error == ""


def comfortable(text: str) -> str:
    """The boat house with loads that its plant meets in every room."""
    for load in ("6.4 kW", "6.0 kW", "4.8 kW", "4.5 kW", "3.5 kW", "2.5 kW"):
        text = text.replace(load, "2 kW")
    for load in ("5.0 kW", "3.8 kW", "2.4 kW"):
        text = text.replace(load, "1.5 kW")
    return text


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("length: 24 m", "length: unknown"),
        ("outdoor_db: 35 C", "outdoor_db: 44 C"),
        ("cooling: {outdoor_db: 35 C, indoor_wb: 19 C}\n  ", ""),
    ],
    ids=["a length unknown", "a capacity outside its table", "no design conditions"],
)
def test_what_is_not_known_is_unjudged_and_no_error(tmp_path: Path, old: str, new: str) -> None:
    assert checked(tmp_path, comfortable(DESIGN), BOOK).code == Exit.FINE
    done = checked(tmp_path, damaged(comfortable(DESIGN), (old, new))[0], BOOK)
    assert (done.code, done.error) == (Exit.UNJUDGED, "")
