"""What can be asked of the project: each task sets up what it needs, then does its work."""

import os
import shutil
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path

from tools.environment import (
    BUILD_LOCK,
    DEV_LOCK,
    ENVIRONMENT,
    NODE_LOCK,
    ROOT,
    RUN_LOCK,
    STAMP,
    UV_LOCK,
    digest,
    make_environment,
    pip_install,
    program,
    read_stamp,
    run,
    say,
    set_up,
    write_stamp,
)
from tools.page import build as page

TOOLS = ROOT / ".tools"
OLDEST_PYTHON = "3.11"
MOST_TEST_WORKERS = 2
#: Where Python is told to keep no compiled modules, each start of the program compiles all of them anew.
COMPILED_IS_KEPT = {"PYTHONDONTWRITEBYTECODE": ""}
CACHES = (".hypothesis", ".import_linter_cache", ".mypy_cache", ".pytest_cache", ".ruff_cache", "__pycache__")


def python_task(*, dev: bool, arguments: Sequence[str | Path], extra: Mapping[str, str] | None = None) -> int:
    """Set up, then run the project's Python with `arguments` and `extra` environment variables."""
    set_up(dev=dev)
    return run([program(ENVIRONMENT, "python"), *arguments], extra=extra)


def setup(_: Sequence[str]) -> int:
    """Set up all, the development tools included."""
    set_up(dev=True)
    return 0


def demo(arguments: Sequence[str]) -> int:
    """Check the demonstration designs, print them and write their sheets; then show them on a page, until Ctrl-C.

    With DEMO=check in the environment: stop after the verdicts.
    """
    if os.environ.get("DEMO") == "check":
        return python_task(dev=False, arguments=["-m", "linewright", "demo", *arguments])
    set_up(dev=False)
    page.build()
    return python_task(dev=False, arguments=["-m", "linewright", "demo", "--page", *arguments])


def pytest(arguments: Sequence[str]) -> int:
    """Run the tests, by default on two workers at most; `arguments` go to pytest."""
    set_up(dev=True)
    page.build()
    workers = str(min(MOST_TEST_WORKERS, os.cpu_count() or 1))
    # What is read once in a file serves all of its tests; files in their order, since those with few tests take long.
    spread = ["-n", workers, "--dist", "loadfile", "--no-loadscope-reorder"]
    return python_task(dev=True, arguments=["-m", "pytest", *spread, *arguments], extra=COMPILED_IS_KEPT)


def test(arguments: Sequence[str]) -> int:
    """Run all tests: of the page what needs no browser, then pytest, to which `arguments` go."""
    set_up(dev=True)
    of_page = page.test() if not arguments else 0
    return pytest(arguments) or of_page


def soak(arguments: Sequence[str]) -> int:
    """Run the long random searches that an ordinary test run leaves out."""
    return pytest(["-m", "soak", *arguments])


def check(_: Sequence[str]) -> int:
    """Lint, formatting, types and import contracts: all of them, even if one fails."""
    set_up(dev=True)
    python = program(ENVIRONMENT, "python")
    commands: dict[str, list[str | Path]] = {
        "ruff check": [python, "-m", "ruff", "check", "--quiet"],
        "ruff format": [python, "-m", "ruff", "format", "--check", "--quiet"],
        "mypy": [python, "-m", "mypy"],
        "lint-imports": [program(ENVIRONMENT, "lint-imports")],
    }
    failed = [name for name, command in commands.items() if run(command) != 0]
    failed += ["the page"] if page.check() else []
    say("check failed: " + ", ".join(failed) if failed else "check passed: " + ", ".join([*commands, "the page"]))
    return 1 if failed else 0


def fmt(_: Sequence[str]) -> int:
    """Format the code and mend what the linter can mend safely."""
    mended = python_task(dev=True, arguments=["-m", "ruff", "check", "--fix", "--quiet", "--exit-zero"])
    return mended or run([program(ENVIRONMENT, "python"), "-m", "ruff", "format"])


def bench(arguments: Sequence[str]) -> int:
    """Measure the speed: prints a table and writes bench/results.json."""
    set_up(dev=True)
    page.build()
    return python_task(dev=True, arguments=["-m", "bench.run", *arguments], extra=COMPILED_IS_KEPT)


def types(_: Sequence[str]) -> int:
    """Make the types of the page anew from the description of the API."""
    set_up(dev=True)
    return page.write_types()


def properties(_: Sequence[str]) -> int:
    """Fit the property tables of the refrigerants anew and write them into the package."""
    return python_task(dev=True, arguments=["-m", "tools.properties.fit"])


def dist(_: Sequence[str]) -> int:
    """Build the wheel and the source archive into dist/ with the locked build backend."""
    shutil.rmtree(ROOT / "dist", ignore_errors=True)
    page.build()
    return python_task(dev=False, arguments=["-m", "hatchling", "build"])


def lock(arguments: Sequence[str]) -> int:
    """Write the hash locks anew from pyproject.toml; pins stay where they can (``--upgrade`` lifts them)."""
    tools, wanted = TOOLS / "uv", {"uv": digest(UV_LOCK.read_bytes())}
    stamp = tools / STAMP.name
    if read_stamp(stamp) != wanted:
        make_environment(tools)
        pip_install(tools, UV_LOCK)
        write_stamp(stamp, wanted)
    constraint = ["-c", RUN_LOCK.name]
    locks = {
        RUN_LOCK: ["pyproject.toml"],
        BUILD_LOCK: ["--group", "build", *constraint],
        DEV_LOCK: ["--group", "dev", *constraint, "-c", BUILD_LOCK.name],
        UV_LOCK: ["--group", "uv"],
        NODE_LOCK: ["--group", "node"],
    }
    return max(compile_lock(tools, target, [*source, *arguments]) for target, source in locks.items())


def compile_lock(tools: Path, target: Path, arguments: Sequence[str]) -> int:
    """Resolve for all systems and supported Pythons at once, and write `target` without an address."""
    options = ["--python-version", OLDEST_PYTHON, "--universal", "--generate-hashes", "--no-header"]
    options += ["--quiet", "--no-build", "--output-file", target.name]
    command: list[str | Path] = [program(tools, "uv"), "pip", "compile", *options, *arguments]
    return run(command, extra={"UV_PYTHON_DOWNLOADS": "never"})


def clean(_: Sequence[str]) -> int:
    """Remove all that the other tasks made: environments, builds and caches."""
    for folder in (ENVIRONMENT, TOOLS, ROOT / "dist", page.MODULES, page.STATIC):
        shutil.rmtree(folder, ignore_errors=True)
    for name in CACHES:
        for folder in ROOT.rglob(name):
            shutil.rmtree(folder, ignore_errors=True)
    return 0


TASKS: dict[str, Callable[[Sequence[str]], int]] = {
    "setup": setup,
    "demo": demo,
    "test": test,
    "check": check,
    "fmt": fmt,
    "types": types,
    "bench": bench,
    "properties": properties,
    "soak": soak,
    "dist": dist,
    "lock": lock,
    "clean": clean,
}
