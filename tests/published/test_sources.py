"""Every source that is cited stands in docs/sources.md, and every source that stands there is cited."""

import ast
import io
import re
import tokenize
from functools import cache
from pathlib import Path

import pytest

from tests.house.files import ROOT

SOURCES = ROOT / "docs" / "sources.md"
#: `[ASHRAE34]`, `[ASTM-B280]`: two capitals or digits and more, and no link behind it.
KEY = re.compile(r"(?<![\w\])])\[([A-Z][A-Z0-9]+(?:-[A-Z0-9]+)*)\](?![(\[:])")
CODE = re.compile(r"```.*?```|`[^`\n]*`", re.DOTALL)


def keys_in(text: str) -> set[str]:
    return set(KEY.findall(text))


def words_of_python(text: str) -> str:
    """Comments and texts only: `levels[ROOT]` in code is no citation."""
    tree = ast.walk(ast.parse(text))
    said = [node.value for node in tree if isinstance(node, ast.Constant) and isinstance(node.value, str)]
    tokens = tokenize.generate_tokens(io.StringIO(text).readline)
    return "\n".join([*said, *(token.string for token in tokens if token.type == tokenize.COMMENT)])


def words_of(path: Path) -> str:
    text = path.read_text(encoding="utf-8")
    if not KEY.search(text):
        return ""
    if path.suffix == ".py":
        return words_of_python(text)
    return CODE.sub("", text) if path.suffix == ".md" else text


def citing_files() -> list[Path]:
    files = [path for folder in ("src", "docs") for path in sorted((ROOT / folder).rglob("*"))]
    return [path for path in files if path.suffix in {".py", ".md", ".csv"} and path != SOURCES]


@cache
def cited() -> dict[str, list[str]]:
    found: dict[str, list[str]] = {}
    for path in citing_files():
        for key in keys_in(words_of(path)):
            found.setdefault(key, []).append(path.relative_to(ROOT).as_posix())
    return found


def known() -> list[str]:
    rows = [line for line in SOURCES.read_text(encoding="utf-8").splitlines() if line.startswith("| [")]
    return [row.split("]")[0].removeprefix("| [") for row in rows]


def test_no_cited_key_is_an_orphan() -> None:
    assert {key: files for key, files in cited().items() if key not in known()} == {}


def test_no_source_stands_uncited_or_twice() -> None:
    assert [key for key in known() if key not in cited()] == []
    assert known() == sorted(set(known()))


def test_every_source_says_what_it_is_and_what_it_is_for() -> None:
    for row in (line for line in SOURCES.read_text(encoding="utf-8").splitlines() if line.startswith("| [")):
        _, key, source, use, _ = row.split("|")
        assert keys_in(key) == {key.strip()[1:-1]}
        assert len(source.strip()) > 20, key
        assert len(use.strip()) > 10, key


def test_the_files_that_cite_are_really_read() -> None:
    found = cited()
    assert "src/linewright/units/table.py" in found["SP811"]
    assert "docs/reference/units.md" in found["SIBROCHURE"]
    assert "src/linewright/standards/astm_b280.csv" in found["ASTM-B280"]
    assert "src/linewright/standards/tube.py" in found["ETB-1084"]


@pytest.mark.parametrize(
    ("text", "keys"),
    [
        ("the size of [NOWHERE-99], table 2", {"NOWHERE-99"}),
        ("[EN378] and [ISO-817].", {"EN378", "ISO-817"}),
        ("a length [m], a mass [kg/m], a share [1]", set()),
        ("a link [HOME](index.md)", set()),
        ("one of [A-Z]", set()),
    ],
)
def test_a_key_is_told_from_other_brackets(text: str, keys: set[str]) -> None:
    assert keys_in(text) == keys


def test_code_is_no_citation_but_its_comments_are() -> None:
    text = 'stack = [ROOT]  # as in [NOWHERE-99]\n"""See [EN378]."""\n'
    assert keys_in(words_of_python(text)) == {"NOWHERE-99", "EN378"}
