"""Slips of the pen planted in a demonstration book, and which of them the audit notices: no more is claimed than this.

Beside each slip what stood there. What is noticed is asserted, and so is what is not: `pytest -s` prints the list.
"""

import re

import pytest

from linewright.app.auditing import doubts_of
from linewright.app.shipped import shipped
from linewright.document.files import book_from_text
from linewright.errors import InputFaultsError

TIDEWATER = (shipped("books") / "tidewater-r32.book.yaml").read_text(encoding="utf-8")
LB_FT_IN_KG_M = 1.48816


def instead(old: str, new: str) -> str:
    assert TIDEWATER.count(old) >= 1, old
    return TIDEWATER.replace(old, new, 1)


def whole_charge_in_lb_ft() -> str:
    """Every rate of liquid as a table in lb/ft prints it, typed as kg/m."""
    (line,) = [one for one in TIDEWATER.splitlines() if one.startswith("  liquid: {6.35 mm: 0.017 kg/m")]
    typed = re.sub(r"([\d.]+) kg/m", lambda found: f"{float(found[1]) / LB_FT_IN_KG_M:.4f} kg/m", line)
    return instead(line, typed)


#: (name, the damaged book, codes of which one must be raised; none where the slip is known to go unnoticed)
SLIPS = [
    (
        "a factor of 2 in a charge per metre",
        instead("12.7 mm: 0.093 kg/m", "12.7 mm: 0.186 kg/m"),
        {"charge-density", "charge-falls"},
    ),
    (
        "0.23 for 0.31 in a charge per metre",
        instead("22.22 mm: 0.310 kg/m", "22.22 mm: 0.230 kg/m"),
        {"charge-for-liquid"},
    ),
    ("lb/ft typed as kg/m, all rates", whole_charge_in_lb_ft(), {"charge-for-liquid", "charge-density"}),
    (
        "two neighbouring rows of a size table swapped",
        instead(
            "upto: 9.9, gas: 15.88 mm, liquid: 9.52 mm}\n      - {upto: 14, gas: 19.05 mm",
            "upto: 9.9, gas: 19.05 mm, liquid: 9.52 mm}\n      - {upto: 14, gas: 15.88 mm",
        ),
        {"smaller-tube"},
    ),
    (
        "two neighbouring ratings swapped",
        instead("index: 4.5, cooling: 4.5 kW", "index: 4.5, cooling: 5.6 kW").replace(
            "index: 5.6, cooling: 5.6 kW", "index: 5.6, cooling: 4.5 kW", 1
        ),
        {"larger-gives-less", "index-share"},
    ),
    ("0.59 for 0.959 in a length factor", "length factor", {"length-factor", "length-for-pipe"}),
    (
        "0.06 for 0.6 of an upsized main",
        instead("upsized_main: {1: 0.6, 2: 0.4,", "upsized_main: {1: 0.06, 2: 0.04,"),
        {"upsized-for-ladder"},
    ),
    ("a limit in feet typed as metres", instead("max: 135 m", "max: 443 m"), {"odd-length"}),
    (
        "1.2 for 2.0 in sensible",
        instead("sensible: 2.0 kW, heating: 3.2 kW", "sensible: 1.2 kW, heating: 3.2 kW"),
        {"sensible-share"},
    ),
    ("a wall of 10 for 1.0 mm", instead("34.92 mm: 1.2 mm", "34.92 mm: 12 mm"), {"odd-wall", "thinner-wall"}),
    (
        "a port two rows off",
        instead(
            "cooling: 11.2 kW, sensible: 8.1 kW, heating: 12.5 kW, gas: 19.05 mm",
            "cooling: 11.2 kW, sensible: 8.1 kW, heating: 12.5 kW, gas: 12.7 mm",
        ),
        {"smaller-port"},
    ),
    ("an index of 22 for 2.2", instead("index: 2.2, cooling: 2.2 kW", "index: 22, cooling: 2.2 kW"), {"index-unit"}),
    (
        "gas and liquid of a row swapped",
        instead("upto: 36, gas: 25.4 mm, liquid: 12.7 mm", "upto: 36, gas: 12.7 mm, liquid: 22.22 mm"),
        {"swapped-columns"},
    ),
    ("10 % in a charge per metre", instead("22.22 mm: 0.310 kg/m", "22.22 mm: 0.341 kg/m"), set()),
    ("a limit 10 % too long", instead("max: 135 m", "max: 148 m"), set()),
    ("a branch row one size up", instead("upto: 54, gas: 28.58 mm", "upto: 54, gas: 31.75 mm"), set()),
]


def damaged(text: str) -> str:
    """The length factor is found by its place, since its figures stand more than once."""
    if text != "length factor":
        return text
    head, key, rest = TIDEWATER.partition("    length:")
    rows = re.findall(r"\[[\d., ]+\]", rest)
    row = next(one for one in rows if re.match(r"\[0\.9[3-8]", one))
    return head + key + rest.replace(row, re.sub(r"0\.9", "0.5", row, count=1), 1)


def raised(text: str) -> set[str]:
    return {doubt.code for doubt in doubts_of(book_from_text(damaged(text), "slip.book.yaml").compiled.book)}


@pytest.mark.parametrize(("name", "text", "codes"), SLIPS, ids=[name for name, _, _ in SLIPS])
def test_a_slip_is_noticed_or_is_known_not_to_be(name: str, text: str, codes: set[str]) -> None:
    found = raised(text)
    print(f"{name}: {', '.join(sorted(found)) or 'unnoticed'}")  # noqa: T201 - the list is wanted
    assert bool(found & codes) == bool(codes)
    if not codes:
        assert found == set()


def test_at_least_ten_slips_are_planted_and_most_are_noticed() -> None:
    noticed = [name for name, _, codes in SLIPS if codes]
    assert len(SLIPS) >= 10
    assert len(noticed) == 13


def test_inches_typed_as_millimetres_are_no_size_of_the_ladder() -> None:
    """They never reach the audit: a size table may only name what stands on the ladder, and 7/8 mm does not."""
    text = instead("upto: 26, gas: 22.22 mm", "upto: 26, gas: 0.875 mm")
    with pytest.raises(InputFaultsError, match="not on the ladder of gas tubes"):
        book_from_text(text, "slip.book.yaml")
