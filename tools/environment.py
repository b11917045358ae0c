"""The virtual environment `.venv`: made from the hash locks, told by a stamp, quick when nothing is to do.

All is installed by pip, so the mirror, proxy and certificates that pip is configured with hold here too.
Nothing is written outside the folder of the project.
"""

import hashlib
import json
import os
import subprocess
import sys
from collections.abc import Mapping, Sequence
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
ENVIRONMENT = ROOT / ".venv"
STAMP = ENVIRONMENT / "linewright-setup.json"

RUN_LOCK = ROOT / "requirements.lock"
BUILD_LOCK = ROOT / "requirements-build.lock"
DEV_LOCK = ROOT / "requirements-dev.lock"
UV_LOCK = ROOT / "requirements-uv.lock"
NODE_LOCK = ROOT / "requirements-node.lock"


class HouseError(Exception):
    """A task could not be done; the message says what to do about it."""


def program(environment: Path, name: str) -> Path:
    """Give the path of program `name` in the virtual environment `environment`."""
    if os.name == "nt":
        return environment / "Scripts" / (name + ".exe")
    return environment / "bin" / name


def run(command: Sequence["str | Path"], *, extra: Mapping[str, str] | None = None) -> int:
    """Run `command` in the root of the project with `extra` environment variables; give its exit code."""
    environ = dict(os.environ)
    environ.update(extra or {})
    sys.stdout.flush()
    return subprocess.run([str(part) for part in command], cwd=ROOT, env=environ, check=False).returncode


def say(message: str) -> None:
    """Tell the person at the terminal; standard output belongs to the task."""
    print("linewright: " + message, file=sys.stderr, flush=True)


def digest(*parts: str | bytes) -> str:
    """Give one fingerprint of all `parts`."""
    whole = hashlib.sha256()
    for part in parts:
        data = part.encode() if isinstance(part, str) else part
        whole.update(b"%d:" % len(data) + data)
    return whole.hexdigest()


def read_stamp(stamp: Path) -> dict[str, str]:
    """Read what was installed; nothing if that is not known for certain."""
    try:
        content = json.loads(stamp.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return content if isinstance(content, dict) else {}


def write_stamp(stamp: Path, state: Mapping[str, str]) -> None:
    """Record in `stamp` what is installed; called only when it is."""
    stamp.write_text(json.dumps(state), encoding="utf-8", newline="\n")


def wanted_state() -> dict[str, str]:
    """Fingerprint all that an installation is made from.

    The folder is part of it: a virtual environment that was copied or moved still points to the old place.
    """
    locks = [path.read_bytes() for path in (RUN_LOCK, BUILD_LOCK, DEV_LOCK)]
    version = ".".join(str(part) for part in sys.version_info[:3])
    return {
        "locks": digest(str(ROOT), version, *locks),
        "project": digest((ROOT / "pyproject.toml").read_bytes()),
    }


def set_up(*, dev: bool) -> None:
    """Bring `.venv` to the locked state: run time and build backend, and the development tools if `dev`.

    Does nothing, fast, when that is how it stands already.
    """
    wanted, found = wanted_state(), read_stamp(STAMP)
    if found.get("locks") != wanted["locks"] or not program(ENVIRONMENT, "python").exists():
        say("setting up .venv, once")
        make_environment(ENVIRONMENT)
        pip_install(ENVIRONMENT, RUN_LOCK, BUILD_LOCK)
        found = {"locks": wanted["locks"]}
        write_stamp(STAMP, found)
    if found.get("project") != wanted["project"]:
        install_project()
        found["project"] = wanted["project"]
        write_stamp(STAMP, found)
    if dev and "dev" not in found:
        say("installing the development tools into .venv, once")
        pip_install(ENVIRONMENT, DEV_LOCK)
        found["dev"] = "installed"
        write_stamp(STAMP, found)


def make_environment(folder: Path) -> None:
    """Make an empty virtual environment in `folder`, in place of one that is there."""
    # Run from inside .venv, the interpreter to build on is the one that .venv itself was built on.
    base = getattr(sys, "_base_executable", "") or sys.executable
    if run([base, "-m", "venv", "--clear", folder]) != 0:
        message = (
            f"{base} could not make a virtual environment in {folder}.\n"
            "Debian, Ubuntu: install the package python3-venv (or python3.11-venv).\n"
            "Elsewhere: install Python with its venv and ensurepip modules.\n"
            "If .venv is in use, leave it (`deactivate`), delete the folder and try again."
        )
        raise HouseError(message)


def pip_install(environment: Path, *locks: Path) -> None:
    """Install exactly what `locks` pin into `environment`, as wheels, each checked against its hashes."""
    requirements: list[str | Path] = []
    for lock in locks:
        requirements += ["-r", lock]
    # Wheels only: a source archive would fetch a build backend that no lock pins.
    if pip(environment, ["--only-binary", ":all:", "--require-hashes", *requirements]) != 0:
        message = (
            "pip could not install what is locked (its own words stand above).\n"
            "No network, or a package mirror or proxy is needed: set pip up for it and try again\n"
            "(`python -m pip config list` shows what it uses now).\n"
            "No matching distribution: there is no ready-made wheel for this system or Python;\n"
            "use CPython 3.11, 3.12 or 3.13: make PYTHON=/path/to/python3.11 demo\n"
            "Hashes do not match: what was sent is not what is locked; ask the keeper of the mirror."
        )
        raise HouseError(message)


def install_project() -> None:
    """Install the project itself, editable, with the locked build backend; needs no network."""
    if pip(ENVIRONMENT, ["--no-index", "--no-deps", "--no-build-isolation", "-e", ROOT]) != 0:
        message = "the project itself could not be installed: mend what pip names above"
        raise HouseError(message)


def pip(environment: Path, arguments: Sequence[str | Path]) -> int:
    """Run ``pip install`` in `environment` under the user's own pip configuration; give its exit code."""
    command = [program(environment, "python"), "-m", "pip", "install", "-qq", *arguments]
    # `user = true` in somebody's pip configuration makes no sense inside a virtual environment.
    return run(command, extra={"PIP_USER": "0", "PIP_DISABLE_PIP_VERSION_CHECK": "1"})
