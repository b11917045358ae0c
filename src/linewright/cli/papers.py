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
        from linewright.app.option_values import stated_revision

        try:
            return value if isinstance(value, Revision) else stated_revision(str(value))
        except ValueError as why:
            self.fail(str(why), param, ctx)


class Named(click.Choice):  # type: ignore[type-arg] # generic in some versions only
    """One of some names."""

    def get_invalid_choice_message(self, value: Any, ctx: click.Context | None) -> str:  # noqa: ANN401, ARG002
        """Say what is wrong, as the page says it."""
        from linewright.app.option_values import not_one_of

        return not_one_of(value, self.choices)


paper_option = click.option(
    "--paper",
    "paper",
    type=Named(list(PAPERS)),
    help="Paper of the drawings.  [default: A3 or tabloid, larger where that is too small or saves sheets]",
)
revision_option = click.option(
    "--revision",
    "revisions",
    type=RevisionType(),
    multiple=True,
    help="Mark, day and text of a revision, the last one last.",
)
