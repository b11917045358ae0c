"""Options of commands that draw on paper."""

from __future__ import annotations

from typing import Any

import click

from linewright.draw.paper import PAPERS
from linewright.draw.paper.facts import Revision


class RevisionType(click.ParamType):  # type: ignore[type-arg] # generic in some versions only
    """A revision: its mark, its day, what it is for."""

    name = "mark, day, text"

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Revision:  # noqa: ANN401
        """Read it."""
        from linewright.app.drawings import revision

        try:
            return value if isinstance(value, Revision) else revision(str(value))
        except ValueError as why:
            self.fail(f"{value!r} is no revision: {why}", param, ctx)


paper_option = click.option(
    "--paper",
    "paper",
    type=click.Choice(list(PAPERS)),
    help="Paper of the drawings.  [default: A3 or tabloid, larger where that is too small]",
)
revision_option = click.option(
    "--revision",
    "revisions",
    type=RevisionType(),
    multiple=True,
    help="Mark, day and text of a revision, the last one last.",
)
