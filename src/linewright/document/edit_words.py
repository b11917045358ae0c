"""The words by which edits go in a file, and what their lists hold."""

from __future__ import annotations

from types import MappingProxyType
from typing import Any

from linewright.model.design import Design, Fitting, Level, Module, Outdoor, Room, Run, Site, System, Unit
from linewright.model.edits import values as v
from linewright.model.edits.values import Kind, Table

#: Key that says which edit it is, and the words for each.
EDIT = "edit"
WORDS: MappingProxyType[str, type] = MappingProxyType(
    {
        "set": v.Set,
        "put": v.Put,
        "drop": v.Drop,
        "add": v.AddSubtree,
        "remove": v.RemoveSubtree,
        "move": v.MoveSubtree,
        "split": v.SplitRun,
        "join": v.JoinRuns,
        "change_model": v.ChangeModel,
        "change_kind": v.ChangeKind,
        "set_outdoor": v.SetOutdoor,
        "override": v.OverrideSize,
        "forbid": v.ForbidAction,
        "allow": v.AllowAction,
        "declare": v.Declare,
        "withdraw": v.Withdraw,
        "lock": v.Lock,
        "unlock": v.Unlock,
        "as_built": v.SetAsBuilt,
        "label": v.SetLabel,
        "add_room": v.AddRoom,
        "remove_room": v.RemoveRoom,
        "add_level": v.AddLevel,
        "remove_level": v.RemoveLevel,
        "add_system": v.AddSystem,
        "remove_system": v.RemoveSystem,
        "batch": v.Batch,
    }
)
WORD_OF: MappingProxyType[type, str] = MappingProxyType({cls: word for word, cls in WORDS.items()})
#: What an element of each kind is.
CLASSES: MappingProxyType[Kind, type] = MappingProxyType(
    {
        Kind.PROJECT: Design,
        Kind.SITE: Site,
        Kind.LEVEL: Level,
        Kind.ROOM: Room,
        Kind.SYSTEM: System,
        Kind.OUTDOOR: Outdoor,
        Kind.MODULE: Module,
        Kind.PIPE: Run,
        Kind.RUN: Run,
        Kind.UNIT: Unit,
        Kind.FITTING: Fitting,
    }
)
#: What a list holds.
ITEMS: MappingProxyType[Table, Any] = MappingProxyType(
    {
        Table.LEVELS: Level,
        Table.ROOMS: Room,
        Table.SYSTEMS: System,
        Table.LOCKS: str,
        Table.UNITS: Unit,
        Table.RUNS: Run,
        Table.FITTINGS: Fitting,
        Table.DECLARED: str,
        Table.FORBIDDEN_ACTIONS: str,
    }
)
#: Kinds by whose key an element of a system is named, and those outside systems.
OF_SYSTEM = (Kind.RUN, Kind.UNIT, Kind.FITTING, Kind.MODULE, Kind.PIPE)
WITHOUT_NAME = (Kind.PROJECT, Kind.SITE, Kind.OUTDOOR)
#: A value that is taken away; `unknown` says the same of a quantity.
NONE = "none"
