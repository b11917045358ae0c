"""The files that belong to the project."""

import shutil
import subprocess
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
MADE = {"__pycache__", "build", "dist", "htmlcov", "node_modules", "sheets", "uv.lock"}


def project_files() -> list[Path]:
    """All files that are or may be committed; in a plain copy, all that are not made by running."""
    return listed_by_git() or found_by_walking()


def listed_by_git() -> list[Path]:
    git = shutil.which("git")
    if git is None or not (ROOT / ".git").exists():
        return []
    command = [git, "ls-files", "-z", "--cached", "--others", "--exclude-standard"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, check=False)
    names = done.stdout.decode().split("\0") if done.returncode == 0 else []
    return [ROOT / name for name in names if name and (ROOT / name).is_file()]


def found_by_walking() -> list[Path]:
    return [path for path in ROOT.rglob("*") if path.is_file() and not is_made(path.relative_to(ROOT))]


def is_made(relative: Path) -> bool:
    hidden = relative.parts[0].startswith(".") and relative.parts[0] not in {
        ".ci",
        ".editorconfig",
        ".gitattributes",
        ".gitignore",
    }
    return hidden or any(part in MADE or part.endswith("_cache") for part in relative.parts)
