"""When two figures are the same."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from decimal import Decimal

RELATIVE = 1e-9


def close(value: float | None, naive: Decimal | None) -> bool:
    if value is None or naive is None:
        return value is None and naive is None
    return abs(value - float(naive)) <= RELATIVE * max(1.0, abs(value))


def pairs(name: str, triples: Iterable[tuple[str, object, object]]) -> Iterator[str]:
    """What differs among triples of what is compared, the engine's figure and the naive one."""
    for what, got, want in triples:
        if not _same(got, want):
            yield f"{name}: {what} {got}, naive {want}"


def _same(got: object, want: object) -> bool:
    if isinstance(want, Decimal):
        return isinstance(got, int | float) and close(got, want)
    return got == want
