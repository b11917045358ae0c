"""The page: its packages as locked, its types from the API, its bundle in the package; quick when nothing is to do."""

import os
import shutil
import subprocess
from pathlib import Path

from tools.environment import (
    ENVIRONMENT,
    NODE_LOCK,
    ROOT,
    STAMP,
    HouseError,
    digest,
    make_environment,
    pip_install,
    program,
    read_stamp,
    run,
    say,
    write_stamp,
)

PAGE = ROOT / "frontend"
STATIC = ROOT / "src" / "linewright" / "web" / "static"
MODULES = PAGE / "node_modules"
TYPES = PAGE / "src" / "api" / "schema.d.ts"
DESCRIPTION = PAGE / "openapi.json"
OLDEST_NODE = (20, 19)
#: What the bundle is made of.
_SOURCES = ("src/**/*", "index.html", "*.ts", "*.js", "package-lock.json")


def npm(*arguments: str) -> int:
    """Run npm in the folder of the page; gives its exit code."""
    tool = _npm()
    extra = {"PATH": os.pathsep.join([str(Path(tool).parent), os.environ.get("PATH", "")])}
    return run([tool, "--prefix", PAGE, *arguments], extra=extra)


def install() -> None:
    """Bring the packages of the page to the locked state; does nothing, fast, when that is how they stand."""
    lock = PAGE / "package-lock.json"
    wanted, stamp = {"lock": digest(str(ROOT), lock.read_bytes())}, MODULES / ".linewright-setup.json"
    if read_stamp(stamp) == wanted:
        return
    say("installing the packages of the page, once")
    if npm("ci", "--silent", "--ignore-scripts") != 0:
        message = (
            "npm could not install what is locked (its own words stand above).\n"
            "No network, or a mirror or proxy is needed: set npm up for it and try again."
        )
        raise HouseError(message)
    write_stamp(stamp, wanted)


def build() -> None:
    """Build the page into the package, where its sources have changed since."""
    wanted, stamp = {"sources": _sources()}, STATIC / ".linewright-built.json"
    if read_stamp(stamp) == wanted:
        return
    install()
    say("building the page")
    if npm("run", "--silent", "build", "--", "--logLevel", "warn") != 0:
        raise HouseError("the page could not be built: mend what is named above")
    write_stamp(stamp, wanted)


def check() -> int:
    """Check the page: types, and that those of the API are those of the program."""
    install()
    return max(_check_types(), npm("run", "--silent", "check", "--", "--output", "human"))


def test() -> int:
    """Test what of the page needs no browser."""
    install()
    return npm("run", "--silent", "test")


def write_types() -> int:
    """Make the types of the page anew from the description of the API."""
    install()
    DESCRIPTION.write_text(_description(), encoding="utf-8", newline="\n")
    try:
        return npm("run", "--silent", "types")
    finally:
        DESCRIPTION.unlink()


def _check_types() -> int:
    before = TYPES.read_text(encoding="utf-8")
    failed = write_types()
    after = TYPES.read_text(encoding="utf-8")
    TYPES.write_text(before, encoding="utf-8", newline="\n")
    if not failed and before != after:
        say("the types of the page are not those of the API: python -m tools.house types")
        return 1
    return failed


def _description() -> str:
    command = [program(ENVIRONMENT, "python"), "-m", "tools.page.describe"]
    done = subprocess.run([str(part) for part in command], cwd=ROOT, check=True, capture_output=True, encoding="utf-8")
    return done.stdout


def _sources() -> str:
    found = sorted({path for pattern in _SOURCES for path in PAGE.glob(pattern) if path.is_file()})
    return digest(*(part for path in found for part in (path.relative_to(PAGE).as_posix(), path.read_bytes())))


def _npm() -> str:
    """The npm of this machine where its Node is new enough, else one that is fetched into `.tools`."""
    found = shutil.which("npm")
    if found is not None and _node_version() >= OLDEST_NODE:
        return found
    tools, wanted = ROOT / ".tools" / "node", {"node": digest(NODE_LOCK.read_bytes())}
    stamp = tools / STAMP.name
    if read_stamp(stamp) != wanted:
        say("no Node.js of version 20.19 or newer here: fetching one into .tools, once")
        make_environment(tools)
        pip_install(tools, NODE_LOCK)
        write_stamp(stamp, wanted)
    return str(program(tools, "npm"))


def _node_version() -> tuple[int, ...]:
    node = shutil.which("node")
    if node is None:
        return (0,)
    done = subprocess.run([node, "--version"], check=False, capture_output=True, encoding="utf-8")
    return tuple(int(part) for part in done.stdout.strip().removeprefix("v").split(".") if part.isdigit())
