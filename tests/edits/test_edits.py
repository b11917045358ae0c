"""Edits on random designs: what is undone was never done, what is saved is what is read, what commutes commutes."""

from dataclasses import replace
from random import Random
from typing import get_args

import pytest

from linewright.document.edits import edits_from_text
from linewright.document.edits_out import encode_edits
from linewright.document.encode import Style
from linewright.document.files import design_from_text
from linewright.document.render import Form
from linewright.document.saving import dump_design, save_design
from linewright.model.design import Design, Level
from linewright.model.edits import Applied, Edit, EditRefusedError, apply, meeting
from linewright.model.edits.faults import Found
from linewright.model.soundness import check_structure
from linewright.units import UnitSystem
from tests.edits.random_edits import MAKERS, random_edit
from tests.oracle.generate import generate

SEEDS, CHUNK = 60, 20
SOAK_SEEDS, SOAK_CHUNK = 4_000, 200


def some_design(seed: int) -> Design:
    """A random sound design whose rooms are on a level."""
    design = generate(seed).design
    notes = Found(design)
    check_structure(design, notes)
    if notes.faults:
        return some_design(seed + 10**6)
    rooms = tuple(replace(room, level="ground") for room in design.rooms)
    site = replace(design.site, levels=(Level(id="ground", elevation_m=0.0),))
    return replace(design, rooms=rooms, site=site)


def some_dice(seed: int) -> Random:
    return Random(seed)  # noqa: S311 - random cases, no secrets


def attempt(design: Design, edit: Edit) -> Applied | None:
    try:
        return apply(design, edit)
    except EditRefusedError:
        return None


def test_there_is_a_random_edit_of_every_kind() -> None:
    assert set(MAKERS) == set(get_args(Edit))
    assert len(MAKERS) == 27


def check(seed: int) -> set[type]:
    """Edit one design a dozen times; gives the kinds that applied."""
    rng, design = some_dice(seed), some_design(seed)
    text, kinds = dump_design(design, as_json=rng.random() < 0.3), set()
    for _ in range(12):
        edit = random_edit(rng, design)
        before = repr(design)
        done = attempt(design, edit)
        assert repr(design) == before
        if done is None:
            continue
        kinds.add(type(edit))
        assert apply(done.design, done.inverse).design == design
        again = edits_from_text(Form(as_json=True).flow(encode_edits(edit, Style())), "edits")
        assert apply(design, again).design == done.design
        back = edits_from_text(Form().flow(encode_edits(done.inverse, Style(UnitSystem.IP))), "edits")
        assert apply(done.design, back).design == design
        saved = save_design(text, done.design)
        assert design_from_text(saved, "saved").design == done.design
        assert design_from_text(save_design(saved, design), "undone").design == design
        design, text = done.design, saved
    return kinds


@pytest.mark.parametrize("first", range(0, SEEDS, CHUNK))
def test_every_edit_is_undone_written_and_saved(first: int) -> None:
    kinds = set().union(*(check(seed) for seed in range(first, first + CHUNK)))
    assert len(kinds) > 15


@pytest.mark.soak
@pytest.mark.parametrize("first", range(SEEDS, SEEDS + SOAK_SEEDS, SOAK_CHUNK))
def test_every_edit_is_undone_written_and_saved_at_length(first: int) -> None:
    for seed in range(first, first + SOAK_CHUNK):
        check(seed)


def check_pairs(seed: int) -> tuple[int, int]:
    """Two edits of one revision, in both orders; gives how many met and how many did not."""
    rng, design = some_dice(seed), some_design(seed)
    met = apart = 0
    for _ in range(12):
        edits = [random_edit(rng, design) for _ in range(2)]
        first, second = (attempt(design, edit) for edit in edits)
        if first is None or second is None:
            continue
        meets = meeting(second.touched, [first.touched])
        assert bool(meets) == bool(meeting(first.touched, [second.touched]))
        if meets:
            met += 1
            continue
        orders = [attempt(first.design, edits[1]), attempt(second.design, edits[0])]
        if orders[0] is None or orders[1] is None:
            assert orders == [None, None], (seed, edits)
            met += 1
            continue
        assert orders[0].design == orders[1].design, (seed, edits)
        apart += 1
    return met, apart


@pytest.mark.parametrize("first", range(0, SEEDS, CHUNK))
def test_two_edits_of_one_revision_meet_or_give_the_same_in_both_orders(first: int) -> None:
    found = [check_pairs(seed) for seed in range(first, first + CHUNK)]
    assert sum(met for met, _ in found) > 10
    assert sum(apart for _, apart in found) > 30


@pytest.mark.soak
@pytest.mark.parametrize("first", range(SEEDS, SEEDS + SOAK_SEEDS, SOAK_CHUNK))
def test_two_edits_of_one_revision_meet_or_give_the_same_at_length(first: int) -> None:
    for seed in range(first, first + SOAK_CHUNK):
        check_pairs(seed)
