"""Runs a task of the project, on any system: ``python -m tools.house TASK [ARGUMENTS]`` in its folder.

Written so that even a Python that is too old can read it and say so.
"""

import sys

OLDEST_PYTHON = (3, 11)
INTERRUPTED = 130  # what shells give for Ctrl-C


def refusal(version: "tuple[int, int]") -> str:
    """Say what to do if Python `version` is too old; empty if it will do."""
    if version >= OLDEST_PYTHON:
        return ""
    return (
        "Linewright needs Python {}.{} or newer; {} is {}.{}.\n"
        "Install one (python.org, your system's package manager) and name it:\n"
        "    make PYTHON=/path/to/python3.11 demo\n"
        "or, without make:\n"
        "    /path/to/python3.11 -m tools.house demo"
    ).format(*OLDEST_PYTHON, sys.executable, *version)


# Must stand before all that an older Python could not even load.
if refusal(sys.version_info[:2]):
    sys.exit(refusal(sys.version_info[:2]))

from collections.abc import Sequence  # noqa: E402

from tools.environment import HouseError, say  # noqa: E402
from tools.tasks import TASKS  # noqa: E402


def usage() -> str:
    """List the tasks, each with the first line of its description."""
    lines = [f"  {name:6} {(task.__doc__ or '').splitlines()[0]}" for name, task in TASKS.items()]
    return "usage: python -m tools.house TASK [ARGUMENTS]\n\n" + "\n".join(lines)


def main(arguments: Sequence[str]) -> int:
    """Run the task that `arguments` name; give the exit code."""
    if not arguments or arguments[0] not in TASKS:
        print(usage(), file=sys.stderr)
        return 2
    try:
        return TASKS[arguments[0]](arguments[1:])
    except HouseError as error:
        say(str(error))
        return 1
    except KeyboardInterrupt:
        return INTERRUPTED


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
