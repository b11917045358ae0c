"""No file says where packages were fetched from or on which machine it was written.

The forbidden words are put together here from pieces, so that this file passes its own test.
"""

import re

import pytest

from tests.house.files import ROOT, found_by_walking, project_files

HOSTS = [
    "py" + "pi.org",
    "python" + "hosted.org",
    "npm" + "js.org",
    "npm" + "js.com",
    "yarn" + "pkg.com",
    "crates" + ".io",
    "proxy.golang" + ".org",
    "conda.ana" + "conda.org",
    "deb.deb" + "ian.org",
    "archive.ubu" + "ntu.com",
    "repo.maven.apa" + "che.org",
    "repo1.mav" + "en.org",
    "ruby" + "gems.org",
]
INDEX_SETTINGS = ["index" + "-url", "find" + "-links", "trusted" + "-host"]
FORBIDDEN = [re.compile(re.escape(word).encode(), re.IGNORECASE) for word in (*HOSTS, *INDEX_SETTINGS)]

#: A path from the root of somebody's disk, or one that leads out of the repository.
MACHINE_PATHS = [
    re.compile(rb"(?<![\w./~$}>-])/(?:home|mnt|opt|root|tmp|work|Users)/\w"),
    re.compile(rb"\b[A-Za-z]:\\+(?:Users|Documents and Settings)\\", re.IGNORECASE),
    re.compile(rb"\.\./" + b"shared"),
]


def findings(content: bytes, patterns: list[re.Pattern[bytes]]) -> list[str]:
    return [match.group().decode() for pattern in patterns for match in pattern.finditer(content)]


def all_findings(patterns: list[re.Pattern[bytes]]) -> dict[str, list[str]]:
    found = {path: findings(path.read_bytes(), patterns) for path in project_files()}
    return {str(path.relative_to(ROOT)): words for path, words in found.items() if words}


@pytest.mark.parametrize("name", ["pyproject.toml", "requirements-dev.lock", "tests/house/files.py", ".ci/run"])
def test_the_files_are_really_looked_at(name: str) -> None:
    assert ROOT / name in project_files()
    assert ROOT / name in found_by_walking()


def test_no_file_names_a_package_registry() -> None:
    assert all_findings(FORBIDDEN) == {}


def test_no_file_names_a_place_on_a_machine() -> None:
    assert all_findings(MACHINE_PATHS) == {}


@pytest.mark.parametrize("host", HOSTS)
def test_a_registry_would_be_found(host: str) -> None:
    assert findings(f"# from https://files.{host}/simple/x.whl".encode(), FORBIDDEN) == [host]


@pytest.mark.parametrize("setting", INDEX_SETTINGS)
def test_a_setting_of_an_index_would_be_found(setting: str) -> None:
    assert findings(f"--{setting} https://mirror.example/simple".encode(), FORBIDDEN) == [setting]


@pytest.mark.parametrize(
    "text",
    [
        "read " + "/" + "home/ann/design.yaml",
        "'" + "/" + "tmp/x'",
        "(" + "/" + "Users/ann/a.py)",
        "C:" + "\\Users\\ann",
        '"C:' + '\\\\Users\\\\ann"',
        "see .." + "/" + "shared" + "/a.md",
    ],
)
def test_a_machine_path_would_be_found(text: str) -> None:
    assert findings(text.encode(), MACHINE_PATHS)


@pytest.mark.parametrize("text", ["~/designs/home/x", "a/tmp/b", "https://example.org/home/x", "#!/usr/bin/env bash"])
def test_an_innocent_path_is_left_alone(text: str) -> None:
    assert findings(text.encode(), MACHINE_PATHS) == []
