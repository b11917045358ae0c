"""What is handed to a user as a wheel is complete."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from tests.house.files import ROOT, project_files


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("dist")
    command = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, encoding="utf-8", check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    (built,) = folder.glob("linewright-*.whl")
    return built


def in_wheel(path: Path) -> str:
    """Where a file of the repository stands in the wheel; empty if it has no place there."""
    relative = path.relative_to(ROOT)
    if relative.parts[:2] == ("src", "linewright"):
        return relative.relative_to("src").as_posix()
    if relative.parts[0] in {"books", "examples"}:
        return f"linewright/shipped/{relative.as_posix()}"
    return ""


@pytest.mark.parametrize("top", ["src/linewright", "books", "examples"])
def test_every_file_of_the_package_and_of_the_demonstration_is_in_the_wheel(wheel: Path, top: str) -> None:
    wanted = {in_wheel(path) for path in project_files() if path.is_relative_to(ROOT / top)}
    assert wanted
    with zipfile.ZipFile(wheel) as archive:
        assert wanted - set(archive.namelist()) == set()


def test_the_wheel_holds_nothing_else(wheel: Path) -> None:
    wanted = {in_wheel(path) for path in project_files()}
    with zipfile.ZipFile(wheel) as archive:
        found = {name for name in archive.namelist() if ".dist-info/" not in name}
    page = {name for name in found if name.startswith("linewright/web/static/")}
    assert found - wanted - page == set()
    assert {name.rpartition(".")[2] for name in page} <= {"html", "js", "css", "json"}
    assert "linewright/web/static/index.html" in page


def test_the_unpacked_wheel_runs(wheel: Path, tmp_path: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(tmp_path)
    script = "import linewright; print(linewright.__file__); print(linewright.__version__)"
    command = [sys.executable, "-c", script]
    done = subprocess.run(command, cwd=tmp_path, capture_output=True, text=True, encoding="utf-8", check=True)
    place, version = done.stdout.splitlines()
    assert Path(place).samefile(tmp_path / "linewright" / "__init__.py")
    assert version == wheel.name.split("-")[1]


def test_the_licence_goes_with_it(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        (name,) = (name for name in archive.namelist() if name.endswith("licenses/LICENSE"))
        assert archive.read(name) == (ROOT / "LICENSE").read_bytes()
