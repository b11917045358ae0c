"""Numbers of a design that cannot be: negative lengths and loads, runs shorter than they rise."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.document.plans import key_of
from linewright.document.source import Source, excerpt
from linewright.model.design import Run
from linewright.units import over


def check_not_negative(item: object, fields: Sequence[str], path: str, *, source: Source) -> None:
    """Note every field that is below zero."""
    for name in fields:
        number = getattr(item, name)
        if number is not None and number < 0:
            where = f"{path}.{key_of(name)}"
            source.derive(
                where, f"the {key_of(name).replace('_', ' ')} {written(where, source)} is negative", "zero or more"
            )


def check_run(run: Run, path: str, source: Source) -> None:
    """Check the numbers of one run by itself."""
    check_not_negative(run, ("length_m", "as_built_m"), path, source=source)
    if (
        run.length_m is not None
        and run.rise_m is not None
        and run.length_m >= 0
        and over(abs(run.rise_m), run.length_m)
    ):
        rise, length = (written(f"{path}.{key}", source) for key in ("rise", "length"))
        message = f"the rise {rise} is longer than the run, which is {length} with its vertical part"
        source.derive(f"{path}.rise", message, f"at most {length} up or down")
    for role, size in run.override.items():
        if size <= 0:
            where = f"{path}.override.{role}"
            source.derive(where, f"no tube has a size of {written(where, source)}", "a tube size such as 15.88 mm")


def written(path: str, source: Source) -> str:
    """What the file says at a path."""
    return excerpt(source.nodes[path]) if path in source.nodes else ""
