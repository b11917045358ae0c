"""The reference of JSON: what commands write and what the page lists are the same keys."""

import pytest

from linewright.engine.records import CheckKind, Standing
from tests.docs.emitted import documents, keys
from tests.docs.pages import page, rows, sections, ticked

SCHEMAS = [
    "linewright/check/1",
    "linewright/working/1",
    "linewright/book-check/1",
    "linewright/groups/1",
    "linewright/report/1",
    "linewright/compare/1",
    "linewright/remedies/1",
    "linewright/record/1",
    "linewright/reading/1",
    "linewright/edits/1",
    "linewright/book-edits/1",
    "linewright/faults/1",
    "linewright/tree/1",
    "linewright/headroom/1",
    "linewright/sweep/1",
]
PAGE = page("reference/json.md")
PARTS = {part.partition("\n")[0].strip(): part.partition("\n")[2] for part in PAGE.split("\n## ")[1:]}
#: Written only where there are more faults than are listed.
RARE = {("linewright/faults/1", "document", "more")}


def documented(schema: str) -> set[tuple[str, str]]:
    """Every object and key of one schema. A paragraph that ends with a colon names the objects of the next table."""
    found: set[tuple[str, str]] = set()
    objects: set[str] = set()
    for paragraph in PARTS[schema].split("\n\n"):
        if paragraph.startswith("|"):
            found |= {(at, key) for at in objects for row in rows(paragraph) for key in row.names}
        elif paragraph.rstrip().endswith(":"):
            objects = {name for name in ticked(paragraph) if name == "document" or name.startswith(STARTS)}
    return found


STARTS = (
    *("systems[]", "rooms[]", "steps[]", "faults[]", "doubts[]", "physics[]", "groups[]", "wanted", "standing"),
    *("about", "takeoff", "before", "after", "fields[]", "verdicts[]", "charges[]", "results[]", "start", "now"),
    *("columns[]", "rows[]", "records[]", "labels[]"),
    *("targets[]", "remedies[]", "trades[]", "reached", "tried[]"),
)


def emitted(schema: str) -> set[tuple[str, str]]:
    return {(at or "document", key) for doc in documents(schema) for at, key in keys(doc) if key != "*"}


@pytest.mark.parametrize("schema", SCHEMAS)
def test_every_key_that_is_written_is_listed(schema: str) -> None:
    assert documents(schema)
    assert all(doc["schema"] == schema for doc in documents(schema))
    assert emitted(schema) - documented(schema) == set()


@pytest.mark.parametrize("schema", SCHEMAS)
def test_every_key_that_is_listed_is_written(schema: str) -> None:
    rare = {(at, key) for of, at, key in RARE if of == schema}
    limits = {("systems[].limits[]", "subject"), ("systems[].limits[]", "kind"), ("rooms[].checks[]", "kind")}
    shared = {(at, key) for at, key in documented(schema) if at in CHECKS and key in ONLY_SOME}
    assert documented(schema) - emitted(schema) - rare - limits - shared == set()


#: One table serves all checks; these keys stand only in some of them.
CHECKS = ("systems[].checks[]", "rooms[].checks[]")
ONLY_SOME = ("plain_bound", "relaxed", "left", "note", "missing")


def test_the_examples_are_rich_enough_to_say_something() -> None:
    assert len(emitted("linewright/check/1")) > 130
    assert len(emitted("linewright/working/1")) > 15


def test_every_schema_has_a_part_of_its_own() -> None:
    assert [*SCHEMAS, "linewright/scene/1"] == list(PARTS)


def test_every_standing_and_every_kind_of_check_is_named() -> None:
    cells = {row.names[0]: ticked(row.cells[1]) for row in rows(sections(PAGE)["Limit and check"])}
    assert cells["standing"] == {standing.value for standing in Standing}
    assert cells["kind"] - {"checks"} == {kind.value for kind in CheckKind} - {"limit", "room"}
