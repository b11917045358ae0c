"""Draw mutants at random and see which of them the tests notice.

`python -m tools.mutation.run COUNT [SEED]` prints the share that was noticed and every mutant that was not.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Sequence
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from random import Random
from typing import NamedTuple

from tools.mutation.operators import Mutant, mutants
from tools.mutation.plugin import VARIABLE

ROOT = Path(__file__).parents[2]
SOURCE = ROOT / "src"
PACKAGES = ("linewright/engine", "linewright/units")
#: The tests that judge the engine and the units, the quickest first.
TESTS = ("units", "contract", "practice", "published", "engine", "working", "language", "recovery", "oracle")
SECONDS, WORKERS = 240, 2


class Drawn(NamedTuple):
    """A mutant and the module that it changes."""

    module: str
    path: str
    mutant: Mutant

    def __str__(self) -> str:
        """Where it is and what it changes."""
        return f"{self.path}:{self.mutant.line}: {self.mutant.change} (number {self.mutant.number})"


def every() -> list[Drawn]:
    """All mutants of the judged packages."""
    found = []
    for package in PACKAGES:
        for path in sorted((SOURCE / package).rglob("*.py")):
            place = path.relative_to(SOURCE)
            module = ".".join(place.with_suffix("").parts).removesuffix(".__init__")
            text = path.read_text(encoding="utf-8")
            found += [Drawn(module, place.as_posix(), mutant) for mutant in mutants(text)]
    return found


def draw(count: int, seed: int) -> list[Drawn]:
    """So many mutants, every place as likely as any other."""
    found = every()
    return sorted(Random(seed).sample(found, min(count, len(found))))  # noqa: S311 - no secrets


def is_noticed(drawn: Drawn) -> bool:
    """Run the tests on one mutant; one that never ends is noticed as well."""
    folders = [str(ROOT / "tests" / name) for name in TESTS if (ROOT / "tests" / name).is_dir()]
    if "units" in drawn.module.split("."):
        folders.sort(key=lambda name: not name.endswith("units"))
    command = [sys.executable, "-m", "pytest", "-x", "-p", "tools.mutation.plugin", "-p", "no:cacheprovider", *folders]
    environment = {**os.environ, VARIABLE: f"{drawn.module}:{drawn.mutant.number}"}
    try:
        done = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, check=False, timeout=SECONDS)
    except subprocess.TimeoutExpired:
        return True
    return done.returncode != 0


def survivors(drawn: Sequence[Drawn]) -> list[Drawn]:
    """Mutants that no test notices; progress goes to standard error."""
    missed = []
    with ThreadPoolExecutor(min(WORKERS, os.cpu_count() or 1)) as pool:
        for done, (mutant, noticed) in enumerate(zip(drawn, pool.map(is_noticed, drawn), strict=True), start=1):
            if not noticed:
                missed.append(mutant)
            print(f"{done} of {len(drawn)}: {len(missed)} not noticed", end="\r", file=sys.stderr, flush=True)
    return missed


def main() -> None:
    """Print what was drawn, what share was noticed, and the rest."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    drawn = draw(count, int(sys.argv[2]) if len(sys.argv) > 2 else 0)
    missed = survivors(drawn)
    print(f"{len(drawn) - len(missed)} of {len(drawn)} mutants noticed, {len(every())} in all")
    for mutant in missed:
        print(mutant)


if __name__ == "__main__":
    main()
