"""How values of a book are written beside one another."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Annotated, TypeAlias

from linewright.model.values import Role, value
from linewright.units import Amount, TubeM


class Inline:
    """Marks a mapping whose entries stand beside the other keys of its owner."""


class OneOrMany:
    """Marks a tuple for which a single value may be written without a list."""


ByRole: TypeAlias = Annotated[Mapping[Role, TubeM], Inline()]


@value
class Band:
    """A row that holds up to an edge; a stated lower edge must meet the row before."""

    upto: Amount | None = None
    below: Amount | None = None
    from_: Amount | None = None
    over: Amount | None = None
