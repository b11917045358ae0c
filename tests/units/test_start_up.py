"""What importing the package costs: it is on the way of every command."""

import json
import subprocess
import sys

# What the package may bring in beyond a bare interpreter.
ALLOWED = {"linewright", "dataclasses", "enum", "re", "typing", "math", "collections"}

PROGRAM = """
import sys, json
import dataclasses, enum, re, typing, math, collections.abc
before = set(sys.modules)
import linewright.units
print(json.dumps(sorted(set(sys.modules) - before)))
"""


def test_only_light_parts_of_the_standard_library_are_imported() -> None:
    run = subprocess.run([sys.executable, "-c", PROGRAM], capture_output=True, text=True, check=True, encoding="utf-8")
    loaded = json.loads(run.stdout)
    assert "linewright.units" in loaded
    assert [name for name in loaded if name.partition(".")[0] not in ALLOWED] == []
