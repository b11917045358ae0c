"""The reference of measures: each one with its unit and what its series runs over."""

import dataclasses

import pytest

from linewright.book.measures import FACTS, MeasureName
from linewright.book.measures import VARIANTS as TAKEN
from linewright.book.schema import MeasureUse
from linewright.model.values import key_of
from tests.docs.pages import page, rows

ROWS = {row.names[0]: row for row in rows(page("reference/measures.md"))}
METHODS = page("methods.md")
VARIANTS = {key_of(field.name) for field in dataclasses.fields(MeasureUse)} - {"measure"}


def test_every_measure_stands_once_and_nothing_else_does() -> None:
    names = [row.names[0] for row in rows(page("reference/measures.md"))]
    assert sorted(names) == sorted(MeasureName)


@pytest.mark.parametrize("name", MeasureName)
def test_a_measure_has_its_series_and_its_unit(name: MeasureName) -> None:
    _, over, judged, unit, _, text = ROWS[name].cells
    assert (over, unit) == (FACTS[name].over.value, FACTS[name].dimension.si)
    assert judged
    assert len(text) > 15
    assert f"`{name}`" in METHODS


@pytest.mark.parametrize("name", MeasureName)
def test_a_measure_lists_the_variants_that_it_takes(name: MeasureName) -> None:
    listed = {word.partition(":")[0] for word in ROWS[name].cells[4].split("`")[1::2]}
    assert listed == {key_of(key) for key in TAKEN.get(name, ())}


def test_the_variants_are_those_of_the_format() -> None:
    named = {word.partition(":")[0] for row in ROWS.values() for word in row.cells[4].split("`")[1::2]}
    assert named == VARIANTS
