"""The tasks: the same with make and without, and said alike in the README."""

import ast
import re
import subprocess
import sys
from collections.abc import Mapping

import pytest

from tests.house.files import ROOT
from tools import house, tasks


def text(name: str) -> str:
    return (ROOT / name).read_text(encoding="utf-8")


def test_make_offers_every_task() -> None:
    line = re.search(r"^TASKS := (.*)$", text("Makefile"), re.MULTILINE)
    assert line
    assert line[1].split() == list(tasks.TASKS)


def test_the_readme_speaks_only_of_tasks_that_exist() -> None:
    named = re.findall(r"make\s+([a-z]+)(?=[` \n])|tools\.house ([a-z]+)", text("README.md"))
    offered = {name for pair in named for name in pair if name}
    code = {"demo", "test", "check", "fmt", "bench", "properties", "soak", "dist", "lock", "clean"}
    assert code <= offered
    assert code <= set(tasks.TASKS)


def test_the_readme_begins_with_the_job_then_the_two_commands() -> None:
    blocks = re.findall(r"```sh\n(.*?)```", text("README.md"), re.DOTALL)
    assert [line.split("#")[0].strip() for line in blocks[0].splitlines()] == ["make demo", "make test"]
    first = text("README.md").split("\n\n")[1]
    assert first.startswith("Linewright is for the designer")


def test_ci_checks_and_runs_the_command_of_the_readme() -> None:
    lines = [line.split("#")[0].strip() for line in text(".ci/run").splitlines()]
    assert "make check" in lines
    assert "make test" in lines
    assert "set -eu" in lines


@pytest.mark.parametrize("version", [(3, 6), (3, 8), (3, 10)])
def test_an_old_python_is_told_what_to_do(version: tuple[int, int]) -> None:
    told = house.refusal(version)
    assert "needs Python 3.11" in told
    assert ".".join(str(part) for part in version) in told
    assert "make PYTHON=" in told


@pytest.mark.parametrize("version", [(3, 11), (3, 13), (4, 0)])
def test_a_new_python_will_do(version: tuple[int, int]) -> None:
    assert house.refusal(version) == ""


def test_an_old_python_can_read_the_script_as_far_as_the_refusal() -> None:
    body = ast.parse(text("tools/house.py"), feature_version=(3, 7)).body
    refusal = next(index for index, node in enumerate(body) if isinstance(node, ast.If))
    before = [node for node in body[:refusal] if isinstance(node, ast.Import | ast.ImportFrom)]
    assert [ast.unparse(node) for node in before] == ["import sys"]


def test_without_a_task_all_are_listed() -> None:
    command = [sys.executable, "-m", "tools.house"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, encoding="utf-8", check=False)
    assert done.returncode == 2
    assert all(re.search(rf"^  {name} +\S", done.stderr, re.MULTILINE) for name in tasks.TASKS)


def test_an_ordinary_run_leaves_the_soak_tests_out_and_a_soak_run_takes_them_in(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    ran: list[list[str]] = []

    def record(*, dev: bool, arguments: list[str], extra: Mapping[str, str]) -> int:
        assert dev
        assert extra == tasks.COMPILED_IS_KEPT
        ran.append(arguments)
        return 0

    monkeypatch.setattr(tasks, "python_task", record)
    assert tasks.TASKS["test"](["-k", "charge"]) == 0
    assert tasks.TASKS["soak"]([]) == 0
    assert ran[0][-2:] == ["-k", "charge"]
    assert ran[1][-2:] == ["-m", "soak"]
    assert all(int(arguments[arguments.index("-n") + 1]) <= 2 for arguments in ran)
    assert '"not soak"' in text("pyproject.toml")


def test_what_measures_the_speed_can_be_started(monkeypatch: pytest.MonkeyPatch) -> None:
    """Its modules are found from the folder of the project, and not only beside one another."""
    asked: list[list[str]] = []

    def start(*, dev: bool, arguments: list[str], extra: Mapping[str, str]) -> int:
        asked.append(arguments)
        assert extra == tasks.COMPILED_IS_KEPT
        assert dev, "the reference library, which physics is compared with, is one of the development tools"
        return 0

    monkeypatch.setattr(tasks, "python_task", start)
    assert tasks.bench(()) == 0
    (arguments,) = asked
    assert arguments[0] == "-m"
    started = subprocess.run([sys.executable, "-c", f"import {arguments[1]}"], cwd=ROOT, check=False)
    assert started.returncode == 0
