"""Faults of the design that would come of a table, at the cells that they come from."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import replace

from linewright.document.lists import ListEdits, ListKind
from linewright.errors import Fault, InputFaultsError
from linewright.model.design import Design, Run
from linewright.model.edits import EditRefusedError, Table, draft
from linewright.model.edits.places import items, name_of
from linewright.model.values import key_of

_ITEM = re.compile(
    r"(?:systems\[(?P<system>[0-9]+)\][.])?(?:site[.])?(?P<list>[a-z_]+)\[(?P<at>[0-9]+)\]"
    r"(?:[.](?:override[.])?(?P<key>[a-z_]+))?"
)
#: A fault of an edit itself names its element, such as `main/run:J2`.
_ELEMENT = re.compile(r"(?:(?P<system>[^/:]+)/)?(?P<kind>[a-z_]+):(?P<name>[^/:]+)")
#: Lists of the design whose items the rows of a table are.
_TOLD = {
    ListKind.LEVELS: (Table.LEVELS,),
    ListKind.ROOMS: (Table.ROOMS,),
    ListKind.UNITS: (Table.UNITS, Table.RUNS),
    ListKind.RUNS: (Table.RUNS, Table.UNITS, Table.FITTINGS),
    ListKind.FITTINGS: (Table.FITTINGS, Table.RUNS),
}


def at_cells(error: InputFaultsError, found: ListEdits, design: Design, *, file: str) -> InputFaultsError:
    """Give each fault the row and the column that it comes from, where the table has that item.

    design : the one that the table was read on, before its edits
    """
    try:
        after = draft(design, found.edit)
    except EditRefusedError:
        after = design
    return InputFaultsError([_placed(fault, found, after, file=file) for fault in error.faults], more=error.more)


def _placed(fault: Fault, found: ListEdits, after: Design, *, file: str) -> Fault:
    for name, key in _meant(fault, found, after):
        place = found.places.get((name, key)) or found.places.get((name, ""))
        if place is not None:
            return replace(fault, file=file, line=place[0], column=place[1])
    return fault


def _meant(fault: Fault, found: ListEdits, after: Design) -> Iterator[tuple[str, str]]:
    """The item, and the key of the field, that a fault is about."""
    match = _ITEM.match(fault.path)
    tables = _TOLD[found.kind]
    if match is not None and match["list"] in tables and _is_system(found, after, match["system"]):
        listed = items(after, Table(match["list"]), found.system)
        if int(match["at"]) < len(listed):
            item = listed[int(match["at"])]
            yield name_of(item), match["key"] or ""
            if isinstance(item, Run) and match["key"] == "from":
                yield item.from_, "model"  # what the table says of the near end stands against a run that it leaves out
        return
    element = _ELEMENT.fullmatch(fault.path.partition("[")[0])
    if element is not None and (element["system"] or "") == found.system:
        yield element["name"], key_of(fault.value.removeprefix("override."))


def _is_system(found: ListEdits, after: Design, at: str | None) -> bool:
    if at is None:
        return not found.system
    return int(at) < len(after.systems) and after.systems[int(at)].id == found.system
