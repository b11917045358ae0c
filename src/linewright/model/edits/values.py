"""What can be done to a design: every change is one of these values.

`Put`, `Drop` and `Set` change one thing; all other edits are made of them. An edit of a system names it. A value of
`None` is unknown, or takes away what was stated.
"""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from typing import TypeAlias

from linewright.model.design import Fitting, Level, Outdoor, Room, Run, System, Unit
from linewright.model.values import NodeKind, Role, value
from linewright.units import LengthM, TubeM


class Kind(StrEnum):
    """What a field belongs to."""

    PROJECT = "project"
    SITE = "site"
    LEVEL = "level"
    ROOM = "room"
    SYSTEM = "system"
    OUTDOOR = "outdoor"
    MODULE = "module"
    PIPE = "pipe"
    RUN = "run"
    UNIT = "unit"
    FITTING = "fitting"


class Table(StrEnum):
    """A list of a design, or of one of its systems."""

    LEVELS = "levels"
    ROOMS = "rooms"
    SYSTEMS = "systems"
    LOCKS = "locks"
    UNITS = "units"
    RUNS = "runs"
    FITTINGS = "fittings"
    DECLARED = "declared"
    FORBIDDEN_ACTIONS = "forbidden_actions"


Item: TypeAlias = Level | Room | System | Unit | Run | Fitting | str
FieldValue: TypeAlias = object


@value
class Set:
    """Set fields of one element; a field of a mapping is named `override.gas`."""

    kind: Kind
    values: Mapping[str, FieldValue]
    id: str = ""
    system: str = ""


@value
class Put:
    """Put an item into a list: after the item of that name, or first; with `by_name` in its place among the names."""

    table: Table
    item: Item
    after: str | None = None
    by_name: bool = False
    system: str = ""


@value
class Drop:
    """Take an item out of a list."""

    table: Table
    id: str
    system: str = ""


@value
class AddSubtree:
    """Hang a part of a tree on a node: runs, the units at their ends, and what is stated of their fittings."""

    system: str
    runs: tuple[Run, ...]
    units: tuple[Unit, ...] = ()
    fittings: tuple[Fitting, ...] = ()


@value
class RemoveSubtree:
    """Take away the run to a node with everything beyond it."""

    system: str
    node: str


@value
class MoveSubtree:
    """Hang the run to a node, with everything beyond it, on another node."""

    system: str
    node: str
    to: str


@value
class SplitRun:
    """Put a node on a run, so far from its near end [m]; bends and items stay on the near part."""

    system: str
    run: str
    node: str
    at_m: LengthM


@value
class JoinRuns:
    """Take out a node that one run enters and one leaves: lengths, rises, bends and items add up."""

    system: str
    node: str


@value
class ChangeModel:
    """Change the model of a unit, of an outdoor module, or of a header or mode box that is listed."""

    system: str
    id: str
    model: str


@value
class ChangeKind:
    """Say what a fitting is; without a kind what follows from its arms.

    Its model goes with its kind, and so do the ports of what was a mode box.
    """

    system: str
    fitting: str
    kind: NodeKind | None


@value
class SetOutdoor:
    """Set the outdoor group of a system: modules, elevation, module pipes."""

    system: str
    outdoor: Outdoor


@value
class OverrideSize:
    """Set the size of one tube of a run [m], or leave it to the book again."""

    system: str
    run: str
    role: Role
    size_m: TubeM | None


@value
class ForbidAction:
    """Forbid a size action of the book."""

    system: str
    action: str


@value
class AllowAction:
    """Allow a size action that was forbidden."""

    system: str
    action: str


@value
class Declare:
    """Make a declaration that the book asks for."""

    system: str
    declaration: str


@value
class Withdraw:
    """Take a declaration back."""

    system: str
    declaration: str


@value
class Lock:
    """Keep something as it is: every edit of it is refused until it is unlocked."""

    subject: str


@value
class Unlock:
    """Let something be changed again."""

    subject: str


@value
class SetAsBuilt:
    """State the length of a run as it was built [m]."""

    system: str
    run: str
    length_m: LengthM | None


@value
class SetLabel:
    """Name a unit, a fitting, a system, a room or a level for people; its id stays."""

    kind: Kind
    id: str
    label: str = ""
    system: str = ""


@value
class AddRoom:
    """Add a room."""

    room: Room


@value
class RemoveRoom:
    """Take a room away that no unit serves."""

    room: str


@value
class AddLevel:
    """Add a level."""

    level: Level


@value
class RemoveLevel:
    """Take a level away on which no room is."""

    level: str


@value
class AddSystem:
    """Add a system."""

    added: System


@value
class RemoveSystem:
    """Take a system away."""

    system: str


@value
class Batch:
    """Edits that are one gesture: all of them or none."""

    edits: tuple[Edit, ...]


Edit: TypeAlias = (
    Set
    | Put
    | Drop
    | AddSubtree
    | RemoveSubtree
    | MoveSubtree
    | SplitRun
    | JoinRuns
    | ChangeModel
    | ChangeKind
    | SetOutdoor
    | OverrideSize
    | ForbidAction
    | AllowAction
    | Declare
    | Withdraw
    | Lock
    | Unlock
    | SetAsBuilt
    | SetLabel
    | AddRoom
    | RemoveRoom
    | AddLevel
    | RemoveLevel
    | AddSystem
    | RemoveSystem
    | Batch
)

__all__ = [
    "AddLevel",
    "AddRoom",
    "AddSubtree",
    "AddSystem",
    "AllowAction",
    "Batch",
    "ChangeKind",
    "ChangeModel",
    "Declare",
    "Drop",
    "Edit",
    "FieldValue",
    "ForbidAction",
    "Item",
    "JoinRuns",
    "Kind",
    "Lock",
    "MoveSubtree",
    "OverrideSize",
    "Put",
    "RemoveLevel",
    "RemoveRoom",
    "RemoveSubtree",
    "RemoveSystem",
    "Set",
    "SetAsBuilt",
    "SetLabel",
    "SetOutdoor",
    "SplitRun",
    "Table",
    "Unlock",
    "Withdraw",
]
