"""Setting up installs what is asked for, once, and again only when what it is made from has changed."""

from pathlib import Path

import pytest

from tools import environment
from tools.environment import HouseError, set_up


class Installer:
    """Stands in for venv and pip, and records what they would have been asked to do."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.done: list[str] = []
        self.fails_at = ""

    def make_environment(self, folder: Path) -> None:
        python = environment.program(folder, "python")
        python.parent.mkdir(parents=True, exist_ok=True)
        python.touch()
        environment.STAMP.unlink(missing_ok=True)
        self._do("environment")

    def pip_install(self, _: Path, *locks: Path) -> None:
        self._do("+".join(lock.name for lock in locks))

    def install_project(self) -> None:
        self._do("project")

    def asked(self, *, dev: bool) -> list[str]:
        self.done = []
        set_up(dev=dev)
        return self.done

    def _do(self, what: str) -> None:
        if what == self.fails_at:
            raise HouseError(what)
        self.done.append(what)


@pytest.fixture
def installer(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Installer:
    for constant in ("RUN_LOCK", "BUILD_LOCK", "DEV_LOCK"):
        path = tmp_path / f"{constant.lower()}.lock"
        path.write_text(constant, encoding="utf-8")
        monkeypatch.setattr(environment, constant, path)
    (tmp_path / "pyproject.toml").write_text("[project]", encoding="utf-8")
    monkeypatch.setattr(environment, "ROOT", tmp_path)
    monkeypatch.setattr(environment, "ENVIRONMENT", tmp_path / ".venv")
    monkeypatch.setattr(environment, "STAMP", tmp_path / ".venv" / "stamp.json")
    stand_in = Installer(tmp_path)
    for step in ("make_environment", "pip_install", "install_project"):
        monkeypatch.setattr(environment, step, getattr(stand_in, step))
    return stand_in


FRESH = ["environment", "run_lock.lock+build_lock.lock", "project"]


def test_the_demo_does_not_bring_the_development_tools(installer: Installer) -> None:
    assert installer.asked(dev=False) == FRESH


def test_the_second_time_nothing_is_done(installer: Installer) -> None:
    assert installer.asked(dev=True) == [*FRESH, "dev_lock.lock"]
    assert installer.asked(dev=True) == []
    assert installer.asked(dev=False) == []


def test_the_development_tools_come_on_top(installer: Installer) -> None:
    installer.asked(dev=False)
    assert installer.asked(dev=True) == ["dev_lock.lock"]


@pytest.mark.parametrize("lock", ["RUN_LOCK", "BUILD_LOCK", "DEV_LOCK"])
def test_a_changed_lock_starts_afresh(installer: Installer, lock: str) -> None:
    installer.asked(dev=True)
    getattr(environment, lock).write_text("changed", encoding="utf-8")
    assert installer.asked(dev=False) == FRESH


def test_a_changed_project_file_installs_the_project_again(installer: Installer) -> None:
    installer.asked(dev=True)
    (installer.root / "pyproject.toml").write_text("[project]\n", encoding="utf-8")
    assert installer.asked(dev=True) == ["project"]


def test_an_environment_that_was_moved_is_made_again(installer: Installer, monkeypatch: pytest.MonkeyPatch) -> None:
    installer.asked(dev=False)
    (installer.root / "elsewhere").mkdir()
    (installer.root / "pyproject.toml").rename(installer.root / "elsewhere" / "pyproject.toml")
    monkeypatch.setattr(environment, "ROOT", installer.root / "elsewhere")
    assert installer.asked(dev=False) == FRESH


def test_an_environment_without_its_python_is_made_again(installer: Installer) -> None:
    installer.asked(dev=False)
    environment.program(environment.ENVIRONMENT, "python").unlink()
    assert installer.asked(dev=False) == FRESH


@pytest.mark.parametrize("content", ["", "[]", "{", '{"locks": 1}'])
def test_a_damaged_stamp_counts_for_nothing(installer: Installer, content: str) -> None:
    installer.asked(dev=False)
    environment.STAMP.write_text(content, encoding="utf-8")
    assert installer.asked(dev=False) == FRESH


@pytest.mark.parametrize("step", [*FRESH, "dev_lock.lock"])
def test_what_failed_is_done_the_next_time(installer: Installer, step: str) -> None:
    installer.fails_at = step
    with pytest.raises(HouseError):
        installer.asked(dev=True)
    installer.fails_at = ""
    again = installer.asked(dev=True)
    assert step in again
    assert installer.asked(dev=True) == []
