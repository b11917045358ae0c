"""The reference of commands: every command, argument, option, choice and exit code."""

from collections.abc import Iterator

import click
import pytest

from linewright.cli.common import Exit
from linewright.cli.main import COMMANDS, cli
from tests.docs.pages import page, rows, sections, ticked

SECTIONS = sections(page("reference/commands.md"))
SHARED = SECTIONS["Options that several commands have"]


def _commands(command: click.Command, name: str) -> Iterator[tuple[str, click.Command]]:
    if not isinstance(command, click.Group):
        yield name, command
        return
    context = click.Context(command)
    for child in command.list_commands(context):
        found = command.get_command(context, child)
        assert found is not None
        yield from _commands(found, f"{name} {child}")


ALL = dict(_commands(cli, "linewright"))


def test_every_command_has_a_section_and_no_section_is_of_a_command_that_is_none() -> None:
    assert {name.split()[1] for name in ALL} == set(COMMANDS)
    assert {title for title in SECTIONS if title.startswith("linewright ")} == set(ALL)


@pytest.mark.parametrize("name", ALL)
def test_a_section_lists_exactly_the_options_of_its_command(name: str) -> None:
    options = [item for item in ALL[name].params if isinstance(item, click.Option) and item.name != "help"]
    listed = {word for row in rows(SECTIONS[name]) for word in row.names if word.startswith("-")}
    assert listed == {word for option in options for word in (*option.opts, *option.secondary_opts)}


@pytest.mark.parametrize("name", ALL)
def test_the_arguments_and_the_choices_of_a_command_are_named(name: str) -> None:
    arguments = [item.name or "" for item in ALL[name].params if isinstance(item, click.Argument)]
    assert " ".join([name, *(argument.upper() for argument in arguments)]) in ticked(SECTIONS[name])
    text = SECTIONS[name] + SHARED
    for option in ALL[name].params:
        choices = option.type.choices if isinstance(option.type, click.Choice) else ()
        assert {str(choice) for choice in choices} <= ticked(text), option.name
        if choices and isinstance(option.default, str):
            assert f"`{option.default}` (default)" in SECTIONS[name], option.name


def test_every_exit_code_is_told() -> None:
    assert [row.names[0] for row in rows(SECTIONS["Exit codes"])] == [str(code.value) for code in Exit]
