"""What must hold of every design: the same said otherwise is judged the same, and longer is never better."""

import json
import math
import re
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from tests.engine.builders import Doc, design, judge, run, system, the_system, unit
from tests.engine.random_designs import changed, designs, differences, rich_book, shown, without

WHOLE = rich_book()
UNROUNDED = rich_book(rounding=False)
FEW = settings(max_examples=60)


@given(designed=designs(), order=st.randoms(use_true_random=False))
@FEW
def test_the_order_of_siblings_units_rooms_and_runs_says_nothing(designed: Doc, order: Any) -> None:  # noqa: ANN401
    def shuffle(copy: Doc) -> None:
        order.shuffle(copy["rooms"])
        for key in ("runs", "units", "fittings"):
            order.shuffle(copy["systems"][0][key])

    before, again = shown(judge(designed, WHOLE)), shown(judge(changed(designed, shuffle), WHOLE))
    assert list(differences(without(before, "notes"), without(again, "notes"))) == []
    texts = [sorted(note["text"] for note in found["systems"][0]["notes"]) for found in (before, again)]
    assert texts[0] == texts[1]


@pytest.mark.parametrize("order", [("U1", "U2"), ("U2", "U1")])
def test_notes_stand_in_the_same_order_whatever_the_order_of_the_runs(order: tuple[str, str]) -> None:
    """Lists in JSON are sorted. H2 is taken at the level of U0, so both U1 and U2 seem steeper than they are long."""
    runs = [run("outdoor", "J1", "9 m"), run("J1", "H2", "1 m"), run("J1", "X", "1 m"), run("H2", "U0", "0.1 m")]
    runs += [run("H2", name, "1 m") for name in order]
    units = [unit("X", 1), unit("U0", 1), unit("U1", 1, elevation="2 m"), unit("U2", 1, elevation="2 m")]
    laid_out = system(runs, units, fittings=[{"id": "H2", "kind": "header"}])
    notes = shown(judge(design([laid_out])))["systems"][0]["notes"]
    steep = [note["subject"] for note in notes if "more than its length" in note["text"]]
    assert steep == ["main/run:U1", "main/run:U2"]


def renamed(value: Any) -> Any:  # noqa: ANN401 - any JSON value
    """Every node gets a new name that sorts where its old one did."""
    text = json.dumps(value)
    return json.loads(re.sub(r'"((?:N|U)\d+)"', r'"qq\1"', text))


@given(designed=designs())
@FEW
def test_names_of_nodes_say_nothing(designed: Doc) -> None:
    again = shown(judge(renamed(designed), WHOLE))
    back = json.loads(json.dumps(again).replace("qq", ""))
    assert list(differences(shown(judge(designed, WHOLE)), back)) == []


def branches(found: Doc) -> list[Doc]:
    return [item for item in found["systems"][0]["fittings"] if item["kind"] != "coupling"]


@given(designed=designs(), which=st.integers(0, 100), share=st.integers(0, 1000))
@FEW
def test_a_run_may_be_split_by_a_coupling(designed: Doc, which: int, share: int) -> None:
    """A coupling has no allowance in this book; the bends stay on the first part."""

    def split(copy: Doc) -> None:
        runs = copy["systems"][0]["runs"]
        whole = runs[which % len(runs)]
        length = Decimal(whole["length"].split()[0])
        first = length * share / 1000
        runs.append({"from": "K", "to": whole["to"], "length": f"{length - first} m"})
        whole["to"], whole["length"] = "K", f"{first} m"

    before, after = shown(judge(designed, WHOLE)), shown(judge(changed(designed, split), WHOLE))
    parts = ("runs", "fittings", "notes", "checks")  # `runs` also of size actions
    assert list(differences(without(before, *parts), without(after, *parts))) == []
    standings = [
        {check["subject"]: check["standing"] for check in found["systems"][0]["checks"]} for found in (before, after)
    ]
    assert standings[0] == standings[1]
    assert list(differences(branches(before), branches(after))) == []
    lengths = [sum(item["equivalent_m"] for item in found["systems"][0]["runs"]) for found in (before, after)]
    assert lengths[0] == pytest.approx(lengths[1], rel=1e-9)


@given(designed=designs(), shift_cm=st.integers(-50_000, 50_000))
@FEW
def test_the_datum_of_elevations_says_nothing(designed: Doc, shift_cm: int) -> None:
    def shift(copy: Doc) -> None:
        laid_out = copy["systems"][0]
        for item in (laid_out["outdoor"], *laid_out["units"], *copy["site"]["levels"]):
            item["elevation"] = f"{Decimal(item['elevation'].split()[0]) + Decimal(shift_cm) / 100} m"

    before, after = shown(judge(designed, WHOLE)), shown(judge(changed(designed, shift), WHOLE))
    assert list(differences(without(before, "elevation_m"), without(after, "elevation_m"))) == []
    for one, two in zip(before["systems"][0]["units"], after["systems"][0]["units"], strict=True):
        assert two["elevation_m"] - one["elevation_m"] == pytest.approx(shift_cm / 100, abs=1e-9)


# Exact by definition, from memory: foot, pound, Btu (IT).
FOOT, POUND = Decimal("0.3048"), Decimal("0.45359237")
BTU_H = Decimal("1055.05585262") / 3600
INCH_POUND = {
    "m": ("ft", 1 / FOOT, 0),
    "mm": ("in", 1 / Decimal("25.4"), 0),
    "W": ("Btu/h", 1 / BTU_H, 0),
    "kW": ("MBH", 1 / BTU_H, 0),
    "kg": ("lb", 1 / POUND, 0),
    "kg/m": ("lb/ft", FOOT / POUND, 0),
    "C": ("F", Decimal("1.8"), 32),
}


def in_inch_pound(value: Any) -> Any:  # noqa: ANN401 - any JSON value
    """Every quantity of a document in the other system; the step of a rounded charge is the book's own and stays."""
    if isinstance(value, dict):
        return {in_inch_pound(key): part if key == "step" else in_inch_pound(part) for key, part in value.items()}
    if isinstance(value, list):
        return [in_inch_pound(part) for part in value]
    found = re.fullmatch(r"(-?[0-9.]+) (\S+)", value) if isinstance(value, str) else None
    if found is None or found[2] not in INCH_POUND:
        return value
    unit, factor, zero = INCH_POUND[found[2]]
    return f"{Decimal(found[1]) * factor + zero:.17f} {unit}"


def test_the_other_system_of_units_is_really_another() -> None:
    """3.048 m are 10 ft, 35 C are 95 F, 0.1 kg/m are 0.0672 lb/ft; a step of rounding stays."""
    assert in_inch_pound({"35 C": "3.048 m", "step": "0.1 kg"}) == {f"{95:.17f} F": f"{10:.17f} ft", "step": "0.1 kg"}
    assert float(in_inch_pound("0.1 kg/m").removesuffix(" lb/ft")) == pytest.approx(0.0671969, rel=1e-6)
    texts = json.dumps([in_inch_pound(WHOLE)[part] for part in ("tubes", "sizing", "fittings", "limits", "capacity")])
    assert not re.search(r'\d (m|mm|kg|kg/m|kW|W|C)"', texts)


@given(designed=designs())
@FEW
def test_a_design_and_its_book_in_feet_and_pounds_are_judged_as_in_metres_and_kilograms(designed: Doc) -> None:
    again = shown(judge(in_inch_pound(designed), in_inch_pound(WHOLE)))
    assert list(differences(shown(judge(designed, WHOLE)), again)) == []


@given(
    designed=designs(),
    which=st.integers(0, 100),
    more_mm=st.integers(1, 20_000),
    basis=st.sampled_from(["farthest", "each"]),
)
@FEW
def test_without_size_actions_a_longer_run_to_the_farthest_unit_is_never_better(
    designed: Doc, which: int, more_mm: int, basis: str
) -> None:
    used = rich_book(actions=False, basis=basis)
    before = the_system(judge(designed, used))
    farthest = min(before.units, key=lambda item: (-(item.equivalent_reach_m or 0), item.id))
    into = {item["to"]: i for i, item in enumerate(designed["systems"][0]["runs"])}
    way, at = [], farthest.id
    while at != "outdoor":
        way.append(into[at])
        at = designed["systems"][0]["runs"][into[at]]["from"]

    def lengthen(copy: Doc) -> None:
        longer = copy["systems"][0]["runs"][way[which % len(way)]]
        longer["length"] = f"{Decimal(longer['length'].split()[0]) + Decimal(more_mm) / 1000} m"

    after = the_system(judge(changed(designed, lengthen), used))
    values = [{limit.measure: limit.value for limit in found.limits} for found in (before, after)]
    for measure in ("farthest_actual", "farthest_equivalent", "total_length"):
        assert (values[1][measure] or 0) >= (values[0][measure] or 0) + more_mm / 1000 * (
            measure == "total_length"
        ) - 1e-9
    for one, two in zip(before.units, after.units, strict=True):
        for mode in ("cooling", "sensible", "heating"):
            was, is_now = getattr(one, mode).delivered_w, getattr(two, mode).delivered_w
            assert was is not None
            assert is_now is None or is_now <= was * (1 + 1e-12)


@given(designed=designs())
@FEW
def test_the_charge_before_rounding_is_the_sum_of_its_terms(designed: Doc) -> None:
    """Times the multiplier of this book, 1.05; lengths of the liquid line are those of all runs."""
    for used in (WHOLE, UNROUNDED):
        charge = the_system(judge(designed, used)).charge
        terms = [term.kg for term in charge.terms if term.kg is not None]
        assert len(terms) == len(charge.terms)
        assert charge.unrounded_kg == pytest.approx(max(1.05 * math.fsum(terms), 0.0), rel=1e-9, abs=1e-12)
        lengths = [term.length_m for term in charge.terms if term.length_m is not None]
        stated = [float(item["length"].split()[0]) for item in designed["systems"][0]["runs"]]
        assert math.fsum(lengths) == pytest.approx(math.fsum(stated), rel=1e-9)
        for term in charge.terms:
            if term.length_m is not None and term.kg_per_m is not None:
                assert term.kg == pytest.approx(term.length_m * term.kg_per_m, rel=1e-12)
        if used is UNROUNDED:
            assert charge.rounded_kg == charge.unrounded_kg


@given(designed=designs())
@FEW
def test_no_unit_delivers_more_than_its_rating_and_all_together_no_more_than_the_system(designed: Doc) -> None:
    found = the_system(judge(designed, WHOLE))
    for mode in ("cooling", "heating"):
        capacity = getattr(found, mode).capacity_w
        for figure in ("delivered_w", "coincident_w"):
            given_out = [getattr(getattr(item, mode), figure) for item in found.units]
            assume(None not in given_out)
            assert math.fsum(given_out) <= capacity * (1 + 1e-9)
            ratings = [getattr(item, mode).rating_w for item in found.units]
            assert all(got <= most * (1 + 1e-9) for got, most in zip(given_out, ratings, strict=True))
