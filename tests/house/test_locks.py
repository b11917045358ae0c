"""What is installed is pinned, hashed, and says nothing of where it came from."""

import re
import tomllib
from typing import Any

import pytest

from tests.house.files import ROOT

LOCKS = {
    "requirements.lock": "run time",
    "requirements-build.lock": "build",
    "requirements-dev.lock": "dev",
    "requirements-uv.lock": "uv",
    "requirements-node.lock": "node",
}
PIN = re.compile(r"([A-Za-z0-9._-]+)(?:\[[^]]*\])?==(\S+)((?: ; [^\\]+)?) \\")
HASH = re.compile(r"    --hash=sha256:[0-9a-f]{64}(?: \\)?")


def lock_lines(name: str) -> list[str]:
    return (ROOT / name).read_text(encoding="utf-8").splitlines()


def pins(name: str) -> dict[str, str]:
    matches = [PIN.fullmatch(line) for line in lock_lines(name)]
    return {normal(match[1]): match[2] for match in matches if match}


def normal(name: str) -> str:
    return re.sub(r"[-_.]+", "-", name).lower()


def wanted(group: str) -> set[str]:
    """The names that pyproject.toml asks for in `group`."""
    content: dict[str, Any] = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    groups = {"run time": content["project"]["dependencies"], **content["dependency-groups"]}
    return {normal(re.split(r"[\[<>=!~; ]", requirement)[0]) for requirement in groups[group]}


def test_every_lock_is_known_here() -> None:
    assert {path.name for path in ROOT.glob("requirements*")} == set(LOCKS)


@pytest.mark.parametrize("name", LOCKS)
def test_every_line_is_a_pin_a_hash_or_a_reason(name: str) -> None:
    strange = [
        line
        for line in lock_lines(name)
        if not (PIN.fullmatch(line) or HASH.fullmatch(line) or line.startswith("    #"))
    ]
    assert strange == []
    assert "://" not in "".join(lock_lines(name))


@pytest.mark.parametrize("name", LOCKS)
def test_every_pin_has_a_hash(name: str) -> None:
    lines = lock_lines(name)
    pinned = [index for index, line in enumerate(lines) if PIN.fullmatch(line)]
    assert pinned
    assert all(HASH.fullmatch(lines[index + 1]) for index in pinned)


@pytest.mark.parametrize("name", LOCKS)
def test_the_lock_holds_what_the_project_asks_for(name: str) -> None:
    assert wanted(LOCKS[name]) <= set(pins(name))


ASKED_FOR = {
    "alembic",
    "click",
    "ezdxf",
    "fastapi",
    "highspy",
    "numpy",
    "orjson",
    "pydantic",
    "python-calamine",
    "pyyaml",
    "sqlalchemy",
    "typst",
    "uvicorn",
    "xlsxwriter",
}
ASKED_FOR_BY_THOSE = {
    "annotated-doc",
    "annotated-types",
    "anyio",
    "fonttools",
    "h11",
    "idna",
    "mako",
    "markupsafe",
    "opentelemetry-api",
    "pydantic-core",
    "pyparsing",
    "starlette",
    "typing-extensions",
    "typing-inspection",
}


def test_a_user_gets_the_run_time_packages_only() -> None:
    # click asks for colorama on Windows in some of its versions.
    assert set(pins("requirements.lock")) - {"colorama"} == ASKED_FOR | ASKED_FOR_BY_THOSE


def test_locks_agree_where_they_meet() -> None:
    versions: dict[str, set[str]] = {}
    for name in LOCKS:
        for package, version in pins(name).items():
            versions.setdefault(package, set()).add(version)
    assert {package: found for package, found in versions.items() if len(found) > 1} == {}
