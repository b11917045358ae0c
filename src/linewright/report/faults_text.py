"""What is wrong with an input, for a reader at a terminal."""

from __future__ import annotations

from collections.abc import Iterator
from textwrap import wrap

from linewright.errors import Fault, InputFaultsError, quoted

_WIDTH = 80
_INDENT = "    "
#: Values that are named by what they are say nothing beside the place.
STANDS_FOR = ("a list", "a mapping")


def faults_text(error: InputFaultsError) -> str:
    """Give each fault as a block of lines: place and path, what is wrong, what would be right; then their number."""
    lines = [line for fault in error.faults for line in _block(fault)]
    count = len(error.faults) + error.more
    noun = "fault" if count == 1 else "faults"
    if error.more:
        lines.append(f"and {error.more:,} more.")
    lines.append(f"{count:,} {noun}: nothing was judged.")
    return "\n".join(lines)


def _block(fault: Fault) -> Iterator[str]:
    yield f"{fault.place}: {fault.path}" if fault.path else f"{fault.place}:"
    yield from _wrapped(fault.message)
    if fault.value and fault.value not in fault.message and fault.value not in STANDS_FOR:
        yield from _wrapped(f"found {quoted(fault.value)[1:-1]}")
    if fault.expected:
        yield from _wrapped(f"expected {fault.expected}")


def _wrapped(text: str) -> list[str]:
    return wrap(
        text,
        _WIDTH,
        initial_indent=_INDENT,
        subsequent_indent=_INDENT * 2,
        break_long_words=False,
        break_on_hyphens=False,
    )
