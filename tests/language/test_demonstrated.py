"""What the language of books can say beyond plain tables is said by at least one demonstration book."""

import dataclasses
import math
from collections.abc import Iterator, Mapping
from enum import Enum
from functools import cache
from pathlib import Path

import pytest

from linewright.app.project import open_project
from linewright.app.shipped import shipped
from linewright.book import schema
from linewright.book.schema import Book
from linewright.book.schema.capacity import FactorBy
from linewright.document.files import load_book
from linewright.engine import Standing, evaluate
from linewright.engine.records import SystemResult
from linewright.engine.working import replay, subjects, working
from linewright.model.values import Role
from linewright.report.book_text import book_text
from linewright.units import Amount, UnitSystem

BOOKS = sorted(shipped("books").glob("*.book.yaml"))
CLASSES = (
    schema.Option,
    schema.Requirement,
    schema.Operation,
    schema.OperatingRange,
    schema.Pressures,
    schema.PressureStage,
    schema.PrintedNote,
    schema.Term,
    schema.Covered,
    schema.Group,
    schema.GroupRatio,
    schema.PowerTable,
    schema.NamedFactor,
    schema.Condition,
    schema.Need,
    schema.BoundTable,
    schema.Where,
    schema.CapacityMode,
    schema.Boxes,
    schema.BoxModel,
    schema.Joined,
    schema.Outlet,
    schema.InSeries,
    Book,
)
WORDS: tuple[type[Enum], ...] = (schema.AppliesTo, schema.FromGroup, schema.FromBox, FactorBy)
#: Fields that a condition and a need share with every use of a measure.
SET_ASIDE = {field.name for field in dataclasses.fields(schema.MeasureUse)} - {"measure"}


@cache
def said() -> tuple[frozenset[tuple[type, str]], frozenset[Enum]]:
    """Fields of declared values that some book states otherwise than by default, and the words that stand in books."""
    fields: set[tuple[type, str]] = set()
    words: set[Enum] = set()
    for path in BOOKS:
        for value in _values(load_book(path).compiled.book):
            if isinstance(value, Enum):
                words.add(value)
            else:
                fields |= {(type(value), name) for name in _stated(value)}
    return frozenset(fields), frozenset(words)


def _values(value: object) -> Iterator[object]:
    if isinstance(value, Enum):
        yield value
    elif isinstance(value, Mapping):
        for item in (*value, *value.values()):
            yield from _values(item)
    elif isinstance(value, tuple):
        for item in value:
            yield from _values(item)
    elif dataclasses.is_dataclass(value) and not isinstance(value, Amount):
        yield value
        for field in dataclasses.fields(value):
            yield from _values(getattr(value, field.name))


def _stated(value: object) -> Iterator[str]:
    for field in dataclasses.fields(value):  # type: ignore[arg-type]
        default = field.default_factory() if field.default_factory is not dataclasses.MISSING else field.default
        if getattr(value, field.name) != default:
            yield field.name


def test_the_books_were_found() -> None:
    assert len(BOOKS) >= 4
    assert {name for cls, name in said()[0] if cls is Book} >= {"options", "requirements", "operation", "notes"}


@pytest.mark.parametrize("cls", CLASSES, ids=lambda cls: cls.__name__)
def test_every_key_is_used_by_a_demonstration_book(cls: type) -> None:
    fields = said()[0]
    own = {field.name for field in dataclasses.fields(cls)} - (
        SET_ASIDE if issubclass(cls, schema.MeasureUse) else set()
    )
    assert {name for name in own if not any(name == other and issubclass(of, cls) for of, other in fields)} == set()


@pytest.mark.parametrize("words", WORDS, ids=lambda words: words.__name__)
def test_every_word_is_used_by_a_demonstration_book(words: type[Enum]) -> None:
    assert set(words) - said()[1] == set()


HOSTEL = shipped("examples") / "ridge-hostel" / "ridge-hostel.design.yaml"
OPTIONS = ["high-lift", "large main", "pressed", "quiet"]


@pytest.mark.parametrize("name", OPTIONS)
def test_each_option_of_the_mountain_book_can_be_asked_for_its_working(name: str) -> None:
    project = open_project(HOSTEL)
    (system,) = project.loaded.design.systems
    design = dataclasses.replace(
        project.loaded.design, systems=(dataclasses.replace(system, options=(*system.options, name)),)
    )
    evaluation = evaluate(design, project.library)
    (result,) = evaluation.systems
    moved = {"large main": "sizing", "pressed": "fittings", "quiet": "capacity"}.get(name)
    assert (moved is None) or moved in result.state.ground.book.moved.sections
    for subject in subjects(evaluation):
        for step in working(evaluation, subject).steps:
            if isinstance(step.result, float):
                assert math.isclose(replay(step), step.result, rel_tol=1e-9, abs_tol=1e-9), (subject, step)


def test_what_the_options_of_the_mountain_book_change() -> None:
    project = open_project(HOSTEL)
    (system,) = project.loaded.design.systems

    def with_option(name: str) -> SystemResult:
        made = dataclasses.replace(system, options=(*system.options, name))
        return evaluate(dataclasses.replace(project.loaded.design, systems=(made,)), project.library).systems[0]

    # The indices of the indoor units are 434: the main by the smaller, to 480.
    main = next(run for run in with_option("large main").runs if run.id == "J1")
    assert round((main.tubes[Role.GAS].od_m or 0) * 1000, 2) == 34.92
    # Pressed fittings have no header.
    assert [c.subject for c in with_option("pressed").checks if c.standing is Standing.OVER] == ["lodge/fitting:H1"]
    # 434 of 480 lies 20.4167 of 60 points between 70 and 130 %; at 30 C and 19 C 31.95 and 46.65 kW: 36.952 kW.
    quiet = with_option("quiet").cooling
    assert quiet is not None
    assert quiet.power is not None
    assert quiet.power.capacity_w == pytest.approx(36_952, abs=0.5)


@pytest.mark.parametrize("path", BOOKS, ids=lambda path: path.name)
def test_a_book_is_shown_whole(path: Path) -> None:
    """Every text of the file stands in what `book show` prints, so that it can be compared with the maker's page."""
    compiled = load_book(path).compiled
    shown = book_text(compiled, line="book", system=UnitSystem.SI, colour=False)
    flat = "".join(shown.split())
    missing = []
    for value in _values(compiled.book):
        if dataclasses.is_dataclass(value):
            texts = [getattr(value, field.name) for field in dataclasses.fields(value)]
            texts = [text for text in texts if isinstance(text, str) and not isinstance(text, Enum)]
            missing += [text for text in texts if "".join(text.split()) not in flat]
    stated = compiled.book.document
    apart = {compiled.book.title, stated.title, stated.edition, stated.date, stated.typed_by, stated.checked_by}
    assert set(missing) - apart - {compiled.book.refrigerant} == set()
