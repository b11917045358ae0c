"""What a YAML parser complains of, in words for somebody who writes a file by hand."""

from __future__ import annotations

from typing import NamedTuple

import yaml

from linewright.document.source import MOST_DEPTH

_INDENT = "entries that belong together begin in the same column, indented with spaces"
_QUOTES = "the text in quotes"

# What the parser says (a part of it), what that means, what would be right; the first that fits is taken.
_PROBLEMS: tuple[tuple[tuple[str, ...], str, str], ...] = (
    (("found unexpected end of stream",), "the quotes opened {context} are not closed", "a closing quote"),
    (
        ("expected ',' or '}'",),
        "the brace opened {context} is not closed, or a comma is missing before this",
        "entries apart by ',' and a '}' at the end",
    ),
    (
        ("expected ',' or ']'",),
        "the bracket opened {context} is not closed, or a comma is missing before this",
        "entries apart by ',' and a ']' at the end",
    ),
    (
        ("mapping values are not allowed",),
        "a colon stands where none fits",
        "one 'key: value' on a line; a text that holds ': ' in quotes",
    ),
    (("could not find expected ':'", "did not find expected ':'"), "a key without its colon", "key: value"),
    (("tab character",), "a tab stands where the indentation is", "spaces"),
    (
        ("block sequence entries are not allowed", "sequence entries are not allowed"),
        "a '-' stands where no list can be",
        _INDENT,
    ),
    (
        ("expected '-' indicator", "expected <block end>, but found '-'"),
        "this line is no entry of the list {context}",
        _INDENT,
    ),
    (("did not find expected key", "expected <block end>"), "this line does not fit under the lines above it", _INDENT),
    (
        ("escape character", "hexdecimal", "hexadecimal"),
        "in double quotes a backslash begins a code",
        "single quotes, or the backslash twice",
    ),
    (("alphabetic or numeric character",), "a text that begins with '*' or '&' has a meaning of its own", _QUOTES),
    (
        ("tag", "URI", "expected '>'", "expected '!'", "whitespace or line break"),
        "a text that begins with '!' has a meaning of its own",
        _QUOTES,
    ),
    (("directive", "%YAML", "non-alphabetical"), "a line that begins with '%' has a meaning of its own", _QUOTES),
    (
        ("expected <document start>", "expected '<document start>'"),
        "something stands after the end of the document",
        "one document in a file",
    ),
    (("node content",), "nothing stands where a value is due", "a value"),
    (("mapping keys are not allowed",), "a '?' stands where no key can be", _QUOTES),
)
TOO_DEEP = ("lists and mappings are nested too deeply", f"at most {MOST_DEPTH} levels")
_ANY = "a YAML or JSON document"


class Words(NamedTuple):
    """What is wrong, what would be right, and where."""

    message: str
    expected: str
    mark: yaml.Mark | None


def in_words(error: yaml.MarkedYAMLError, text: str) -> Words:
    """Say what a parser stumbled over."""
    mark = error.problem_mark or error.context_mark
    if "expected ':'" in (error.problem or ""):
        mark = error.context_mark or mark
    return Words(*_said(error, text), mark)


def _said(error: yaml.MarkedYAMLError, text: str) -> tuple[str, str]:
    problem = error.problem or error.context or ""
    if "nesting depth" in problem:
        return TOO_DEEP
    if "cannot start any token" in problem:
        return _start(error, text)
    context = f"on line {error.context_mark.line + 1}" if error.context_mark is not None else "before it"
    for signs, message, expected in _PROBLEMS:
        if any(sign in problem for sign in signs):
            return f"this is not YAML: {message.format(context=context)}", expected
    return f"this is not YAML: {problem}", _ANY


def _start(error: yaml.MarkedYAMLError, text: str) -> tuple[str, str]:
    """A character that YAML keeps for itself, or a tab."""
    mark = error.problem_mark
    lines = text.splitlines()
    line = lines[mark.line] if mark is not None and mark.line < len(lines) else ""
    character = line[mark.column : mark.column + 1] if mark is not None else ""
    if character == "\t":
        return "this is not YAML: a tab stands where the indentation is", "spaces"
    return f"this is not YAML: a text that begins with '{character}' has a meaning of its own", _QUOTES
