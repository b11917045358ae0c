"""How tubes are chosen."""

from __future__ import annotations

from enum import StrEnum

from linewright.book.schema.marks import Band, ByRole
from linewright.book.schema.uses import Condition
from linewright.model.values import Role, value


class MainBy(StrEnum):
    """What the main's size is looked up by."""

    OUTDOOR_INDEX = "outdoor-index"
    GROUP = "group"
    INDOOR_INDEX = "indoor-index"
    SMALLER = "smaller"


@value
class SizeRow(Band):
    """A band of indices (or a group) and its tubes."""

    group: str = ""
    sizes: ByRole


@value
class SizeTable:
    """Tube sizes by index."""

    rows: tuple[SizeRow, ...]
    by: MainBy = MainBy.OUTDOOR_INDEX
    page: int | None = None


class UnitSizing(StrEnum):
    """A unit's own run takes the unit's port sizes."""

    PORTS = "ports"


class Cap(StrEnum):
    """Whether a run may be larger than the main."""

    MAIN = "main"
    NONE = "none"


class Capped(StrEnum):
    """What happens to a size action whose run the cap holds back."""

    FAILS = "fails"
    COUNTS = "counts"
    RAISES_MAIN = "raises-main"


class ActionRuns(StrEnum):
    """Which runs a size action touches."""

    MAIN = "main"
    FIRST_TO_LAST_BRANCH = "first-to-last-branch"
    PATH = "path"
    UNIT_RUN = "unit-run"


class Paths(StrEnum):
    """To which units the touched runs lead."""

    EACH_FAR = "each-far"
    LONGEST = "longest"
    ALL = "all"


@value
class SizeAction:
    """Tubes that go up along the ladder: mandatory when `when` holds, elective without it."""

    id: str
    runs: ActionRuns
    lines: tuple[Role, ...]
    steps: int = 1
    when: Condition | None = None
    paths: Paths = Paths.EACH_FAR
    unit_run: bool = False
    page: int | None = None
    note: str = ""


@value
class Sizing:
    """How tube sizes are chosen."""

    main: SizeTable
    branch: SizeTable
    unit: UnitSizing | SizeTable = UnitSizing.PORTS
    module: SizeTable | None = None
    below_box: SizeTable | None = None
    cap: Cap = Cap.MAIN
    capped: Capped = Capped.FAILS
    actions: tuple[SizeAction, ...] = ()
