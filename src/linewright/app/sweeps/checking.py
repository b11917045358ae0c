"""Whether what a sweep names is there: told before the first row, at the value that names it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from linewright.document.sweeps import Case, Sweep
from linewright.engine import Evaluation
from linewright.errors import Fault, InputFaultsError, UnknownSubjectError, one_of, quoted
from linewright.explore.sweeps import subjects_shown
from linewright.model.design import Design
from linewright.model.edits import Batch, EditRefusedError, apply, draft


def check_cases(design: Design, found: Sweep, file: str) -> None:
    """Raise InputFaultsError for every value that names what is not there, and for every one that a lock refuses.

    A value is tried with the first values of the axes before it. What only makes an unsound design is no fault of
    the sweep: the rows say so.
    """
    faults = [fault for number in range(len(found.axes)) for fault in _axis_faults(design, found, number, file=file)]
    if faults:
        raise InputFaultsError(faults)


def _axis_faults(design: Design, found: Sweep, number: int, *, file: str) -> Iterator[Fault]:
    before = tuple(axis.cases[0].edit for axis in found.axes[:number])
    if _undraftable(design, Batch(edits=before)):
        return
    told: set[tuple[str, str]] = set()
    for at, case in enumerate(found.axes[number].cases):
        edit = Batch(edits=(*before, case.edit))
        faults = _undraftable(design, edit) or (_locked(design, edit) if at == 0 else ())
        for fault in faults:
            if (fault.path, fault.message) not in told:
                told.add((fault.path, fault.message))
                yield _placed(fault, case, file)


def _undraftable(design: Design, edit: Batch) -> tuple[Fault, ...]:
    """What an edit names that is not there."""
    try:
        draft(design, edit)
    except EditRefusedError as error:
        return error.faults
    return ()


def _locked(design: Design, edit: Batch) -> tuple[Fault, ...]:
    """Locks that refuse an edit which could be made without them."""
    if not design.locks or _refused(replace(design, locks=()), edit):
        return ()
    return _refused(design, edit)


def _refused(design: Design, edit: Batch) -> tuple[Fault, ...]:
    try:
        apply(design, edit)
    except EditRefusedError as error:
        return error.faults
    return ()


def _placed(fault: Fault, case: Case, file: str) -> Fault:
    path = f"{case.place.path}: {fault.path}" if fault.path else case.place.path
    return replace(fault, file=file, line=case.place.line, column=case.place.column, path=path)


def check_shown(evaluation: Evaluation, found: Sweep, file: str) -> list[str]:
    """Give every subject that is shown; raises InputFaultsError for those, and systems, that the design has not."""
    shown: dict[str, None] = {}
    faults = list(_no_systems(evaluation, found, file))
    wanted = [(f"show[{i}]", name) for i, name in enumerate(found.show)]
    if found.chart is not None and found.chart.up:
        wanted.append(("chart.up", found.chart.up))
    for path, name in wanted:
        try:
            shown |= dict.fromkeys(subjects_shown(evaluation, [name]))
        except UnknownSubjectError as error:
            message = f"there is no subject {quoted(name)} in this design"
            near = ", ".join(quoted(one) for one in error.nearest)
            expected = near or "a subject that linewright why takes"
            faults.append(_at(found, path, file, value=name, message=message, expected=expected))
    if faults:
        raise InputFaultsError(faults)
    return list(shown)


def _no_systems(evaluation: Evaluation, found: Sweep, file: str) -> Iterator[Fault]:
    names = [result.id for result in evaluation.systems]
    for i, name in enumerate(found.systems):
        if name not in names:
            message = f"there is no system {quoted(name)}"
            expected = one_of(name, names, otherwise="none: the design has no systems")
            yield _at(found, f"systems[{i}]", file, value=name, message=message, expected=expected)


def _at(found: Sweep, path: str, file: str, *, value: str, message: str, expected: str) -> Fault:
    place = found.places[path]
    return Fault(
        file=file,
        line=place.line,
        column=place.column,
        path=path,
        value=value,
        message=message,
        expected=expected,
    )
