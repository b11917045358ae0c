"""The command line. Commands load when they are called, so that help is instant."""

from __future__ import annotations

import importlib
import os
import sys
from contextlib import suppress
from pathlib import Path

import click

from linewright import __version__

#: Exit code where the result cannot be written: never one that says something of a design.
NOT_WRITTEN = 2
COMMANDS = {
    "book": ("linewright.cli.book", "Look into a book, or check it."),
    "check": ("linewright.cli.check", "Check a design against its books: limits, sizes, capacity, charge."),
    "compare": ("linewright.cli.compare", "Say what differs between two designs, and what comes of it."),
    "convert": ("linewright.cli.convert", "Convert documents (YAML, JSON) and run lists (CSV, XLSX)."),
    "demo": (
        "linewright.cli.demo",
        "Check the demonstration clinic, print its systems and write their sheets.",
    ),
    "edit": ("linewright.cli.edit", "Change a design file by edits; what is not touched keeps its text."),
    "draw": ("linewright.cli.draw", "Draw the sheet of a system."),
    "headroom": (
        "linewright.cli.headroom",
        "Say how far a design may grow before something gives, and what could be less.",
    ),
    "remedies": ("linewright.cli.remedies", "Find proven ways out of what is over."),
    "reading": ("linewright.cli.reading", "Tell whether a pressure test holds, by its gauge."),
    "record": ("linewright.cli.record", "Judge a filled record of the site: tests, charge, lengths as built."),
    "report": ("linewright.cli.report", "Write the hand-over set: take-off, schedules, sheets, calculations."),
    "serve": ("linewright.cli.serve", "Serve designs to this machine, and keep every revision of them."),
    "sweep": ("linewright.cli.sweep", "Judge a design over values of its inputs, and tabulate how it stands."),
    "why": ("linewright.cli.why", "Show the working behind a number."),
}


class LazyGroup(click.Group):
    """A group whose commands are imported when they are called."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """Give the names of all commands."""
        return sorted(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002
        """Import one command."""
        if cmd_name not in COMMANDS:
            return None
        module = importlib.import_module(COMMANDS[cmd_name][0])
        command: click.Command = module.command
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """List the commands without importing them."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, COMMANDS[name][1]) for name in sorted(COMMANDS)])


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="linewright")
def cli() -> None:
    """Check, size and charge the refrigerant piping of VRF systems.

    Exit codes: 0 nothing over and nothing unjudged; 1 something over or a room short; 2 input not understood;
    3 nothing over, something unjudged or to confirm.
    """


def main() -> None:
    """Start the command line; output is UTF-8 wherever it goes, and one that cannot be written is said."""
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(encoding="utf-8", errors="replace")
    try:
        cli()
    except OSError as error:
        with suppress(OSError):
            click.echo(f"the output cannot be written: {error.strerror or error}", err=True)
        # What is still kept back would be tried again, and fail again, when the program ends.
        sys.stdout = Path(os.devnull).open("w", encoding="utf-8")  # noqa: SIM115 - open until the end
        raise SystemExit(NOT_WRITTEN) from None
