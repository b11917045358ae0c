"""What is drawn with what is known of the sheets before is what is drawn with nothing known."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from random import Random
from typing import Any

import orjson
import pytest

from linewright.app.project import open_project
from linewright.draw import Axis, layout, sheet_scene
from linewright.draw.scene_json import scene_json
from linewright.engine import Library, evaluate
from linewright.errors import InputFaultsError
from linewright.model.design import Design
from linewright.model.edits.apply import apply
from linewright.model.edits.values import Edit, RemoveSubtree, SplitRun
from linewright.model.kept import Kept, KeptEach, Last, itself
from linewright.report.check_json import check_json
from linewright.units import UnitSystem
from tests.draw.cases import ROOT

EDITS = 28


def _anew(self: Kept[Any], _: object, *parts: object) -> object:
    """Stand in for `Kept`: what was made before is not looked at."""
    return self._make(*parts)


def _each_anew(self: KeptEach[Any], _: object, rows: Sequence[tuple[object, ...]]) -> list[object]:
    return [self._make(*row) for row in rows]


def _shaped(random: Random, design: Design) -> Design:
    """Take a branch away, or split a run by a joint; what is refused is left."""
    system = random.choice(design.systems)
    run = random.choice(system.runs)
    name = f"N{random.randrange(10_000)}"
    edit: Edit = RemoveSubtree(system=system.id, node=run.to)
    if random.random() < 0.6:
        edit = SplitRun(system=system.id, run=run.to, node=name, at_m=random.uniform(0.1, 2.0))
    try:
        return apply(design, edit).design
    except InputFaultsError:
        return design


def _changed(random: Random, design: Design) -> Design:
    """Change the length of a run, most often, the load of a room, or the shape of the tree."""
    at = random.randrange(len(design.systems))
    system = design.systems[at]
    if random.random() < 0.15:
        return _shaped(random, design)
    if random.random() < 0.75:
        runs = list(system.runs)
        run = random.randrange(len(runs))
        runs[run] = replace(runs[run], length_m=random.choice((None, 0.3, round(random.uniform(0.5, 70.0), 2))))
        systems = list(design.systems)
        systems[at] = replace(system, runs=tuple(runs))
        return replace(design, systems=tuple(systems))
    rooms = list(design.rooms)
    room = random.randrange(len(rooms))
    rooms[room] = replace(rooms[room], cooling_w=random.choice((None, 800.0, 9_000.0)))
    return replace(design, rooms=tuple(rooms))


def _drawn(design: Design, library: Library, at: tuple[Axis, UnitSystem, float]) -> bytes:
    evaluation = evaluate(design, library)
    axis, units, width = at
    scenes = [
        scene_json(sheet_scene(layout(evaluation, result, axis=axis, with_flow=False), units, width=width))
        for result in evaluation.systems
    ]
    return orjson.dumps([check_json(evaluation, cures=False), scenes])


@pytest.mark.parametrize("name", ["boat-house", "harbour-clinic", "ferry-terminal", "pilot-station", "print-works"])
def test_a_sheet_is_the_same_whatever_was_drawn_before(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    random = Random(name)  # noqa: S311 - no secret
    project = open_project(ROOT / "examples" / name / f"{name}.design.yaml")
    design, library = project.loaded.design, project.library
    steps = []
    for _ in range(EDITS):
        design = _changed(random, design)
        at = random.choice(list(Axis)), random.choice(list(UnitSystem)), random.choice((1280.0, 1920.0))
        steps.append((design, at))
    warm = [_drawn(made, library, at) for made, at in steps]
    assert len(set(warm)) > EDITS / 2
    monkeypatch.setattr(Kept, "__call__", _anew)
    monkeypatch.setattr(KeptEach, "__call__", _each_anew)
    monkeypatch.setattr(Last, "get", lambda *_: None)
    assert warm == [_drawn(made, library, at) for made, at in steps]


def test_what_is_made_of_equal_parts_is_the_very_same() -> None:
    made: list[tuple[str, float]] = []

    def make(word: str, number: float) -> tuple[str, float]:
        made.append((word, number))
        return word, number

    kept = Kept(make)
    first = kept("a", "x", 1.5)
    assert kept("a", "x", 1.5) is first
    assert kept("b", "x", 1.5) == first
    assert kept("a", "x", 2.5) == ("x", 2.5)
    assert made == [("x", 1.5), ("x", 1.5), ("x", 2.5)]


def test_of_equal_values_under_one_name_the_first_is_given() -> None:
    same: Kept[tuple[float, ...]] = Kept(itself)
    first = same("a", (1.0, 2.0))
    assert same("a", (1.0, 2.0)) is first
    assert same("a", (1.0, 3.0)) == (1.0, 3.0)


def test_what_is_kept_stays_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("linewright.model.kept.MOST_KEPT", 3)
    same: Kept[int] = Kept(itself)
    for name in range(10):
        assert same(name, name) == name
        assert len(same._last) <= 3


def test_of_many_things_only_what_has_other_parts_is_made_again() -> None:
    made: list[str] = []

    def make(word: str, number: float) -> tuple[str, float]:
        made.append(word)
        return word, number

    each = KeptEach(make)
    first = each("a", [("x", 1.0), ("y", 2.0), ("z", 3.0)])
    second = each("a", [("x", 1.0), ("y", 2.5), ("z", 3.0)])
    assert second == [("x", 1.0), ("y", 2.5), ("z", 3.0)]
    assert second[0] is first[0]
    assert second[2] is first[2]
    assert made == ["x", "y", "z", "y"]


def test_of_many_things_those_that_moved_are_known_again() -> None:
    words = [f"word {i}" for i in range(4)]
    made: list[str] = []

    def make(word: str, number: float) -> tuple[str, float]:
        made.append(word)
        return word, number

    each = KeptEach(make)
    each("a", [(word, 1.0) for word in words])
    rest = [(words[0], 1.0), (words[2], 1.0), (words[3], 2.0)]
    assert each("a", rest) == rest
    assert each("b", rest) == rest
    assert made == [*words, words[3], words[0], words[2], words[3]]


def test_what_is_kept_of_many_things_stays_bounded(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("linewright.model.kept.MOST_KEPT", 5)
    each: KeptEach[int] = KeptEach(itself)
    for name in range(10):
        for count in (2, 3):
            assert each(name, [(i,) for i in range(count)]) == list(range(count))
            assert sum(len(rows) for rows, _ in each._last.values()) <= 5
