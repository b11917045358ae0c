"""The program as a user starts it: its own process, its streams and its exit code."""

import subprocess
import sys
from functools import cache
from pathlib import Path
from typing import NamedTuple

DATA = Path(__file__).with_name("data")
MINIMAL = DATA / "minimal.design.yaml"


class Done(NamedTuple):
    """What a finished command said."""

    code: int
    stdout: str
    stderr: str


@cache
def linewright(*arguments: str | Path) -> Done:
    """Run one command to its end, once for all tests that look at it."""
    command = [sys.executable, "-m", "linewright", *(str(argument) for argument in arguments)]
    done = subprocess.run(command, capture_output=True, check=False, timeout=60)
    return Done(done.returncode, done.stdout.decode("utf-8"), done.stderr.decode("utf-8"))
