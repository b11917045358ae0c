"""Numbers of a design that cannot be: negative lengths and loads, runs shorter than they rise."""

from __future__ import annotations

from collections.abc import Sequence

from linewright.model.design import Run
from linewright.model.soundness.notes import Notes
from linewright.model.values import key_of
from linewright.units import over


def check_not_negative(item: object, fields: Sequence[str], path: str, *, notes: Notes) -> None:
    """Note every field that is below zero."""
    for name in fields:
        number = getattr(item, name)
        if number is not None and number < 0:
            where = f"{path}.{key_of(name)}"
            notes.derive(
                where, f"the {key_of(name).replace('_', ' ')} {notes.written(where)} is negative", "zero or more"
            )


def check_run(run: Run, path: str, notes: Notes) -> None:
    """Check the numbers of one run by itself."""
    check_not_negative(run, ("length_m", "as_built_m"), path, notes=notes)
    if (
        run.length_m is not None
        and run.rise_m is not None
        and run.length_m >= 0
        and over(abs(run.rise_m), run.length_m)
    ):
        rise, length = (notes.written(f"{path}.{key}") for key in ("rise", "length"))
        message = f"the rise {rise} is longer than the run, which is {length} with its vertical part"
        notes.derive(f"{path}.rise", message, f"at most {length} up or down")
    for role, size in run.override.items():
        if size <= 0:
            where = f"{path}.override.{role}"
            notes.derive(where, f"no tube has a size of {notes.written(where)}", "a tube size such as 15.88 mm")
