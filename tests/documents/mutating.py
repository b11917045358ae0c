"""Seeded damage to a text: what a slip of the hand, a bad merge or a broken editor may leave behind."""

from __future__ import annotations

import random
import re
from collections.abc import Callable

Damage = Callable[[random.Random, str], str]

TOKEN = re.compile(r"[A-Za-z0-9_.'\"/%-]+|[^\sA-Za-z0-9]")
ODD = (
    "\t", "\x00", "\x07", "\x1b[31m", "\ufeff", "\u200b", "\u2028", "\x85", "é", "漢", "🙂", "'", '"', "\\", "#", ": ",
    "- ", "? ", "[", "]", "{", "}", ",", "&a ", "*a", "!x ", "!!int ", "%", "@", "`", "|", ">", "~", "<<: ", "---\n",
    "...\n", "\r", "\r\n", "\n", " ", "\ud7ff",
)  # fmt: skip
VALUES = (
    "", "~", "null", "NO", "yes", "true", "0", "-1", "1e3", "1e308", "1e-308", "-0.0", ".nan", ".inf", "NaN", "inf",
    "0x10", "1_000", "1,5", "½", "unknown", "0 m", "-5 m", "1e308 m", "1e9 m", "1e-9 m", "24", "24 ft", "24 kg",
    "5/8 in", "0 %", "115 %", "0 C", "-400 C", "outdoor", "J1", "U1", "main", "minimal", "[]", "{}", "[1, 2]", "{a: b}",
    "[[]]", "group", "99999999999", "x" * 3000,
)  # fmt: skip


def mutant(text: str, seed: int) -> str:
    """Damage a text in one to four ways, or (every other seed) put one other value that may well be understood."""
    dice = random.Random(seed)  # noqa: S311 - chance, not secrecy
    if seed % 2:
        return dice.choice(GENTLE)(dice, text)
    for _ in range(dice.choice((1, 1, 1, 2, 2, 3, 4))):
        text = dice.choice(DAMAGES)(dice, text)
    return text


def _lines(text: str) -> list[str]:
    return text.splitlines(keepends=True) or [""]


def _delete_line(dice: random.Random, text: str) -> str:
    lines = _lines(text)
    del lines[dice.randrange(len(lines))]
    return "".join(lines)


def _repeat_line(dice: random.Random, text: str) -> str:
    lines = _lines(text)
    lines.insert(dice.randrange(len(lines) + 1), dice.choice(lines))
    return "".join(lines)


def _swap_lines(dice: random.Random, text: str) -> str:
    lines = _lines(text)
    a, b = dice.randrange(len(lines)), dice.randrange(len(lines))
    lines[a], lines[b] = lines[b], lines[a]
    return "".join(lines)


def _indent_line(dice: random.Random, text: str) -> str:
    lines = _lines(text)
    at = dice.randrange(len(lines))
    lines[at] = lines[at].removeprefix("  ") if dice.random() < 0.5 else "  " + lines[at]
    return "".join(lines)


def _cut(dice: random.Random, text: str) -> str:
    a, b = sorted(dice.randrange(len(text) + 1) for _ in range(2))
    return text[:a] if dice.random() < 0.2 else text[:a] + text[min(b, a + dice.randrange(1, 40)) :]


def _tokens(text: str) -> list[re.Match[str]]:
    return list(TOKEN.finditer(text))


def _replace_token(dice: random.Random, text: str, new: Callable[[str], str]) -> str:
    tokens = _tokens(text)
    if not tokens:
        return text
    token = dice.choice(tokens)
    return text[: token.start()] + new(token[0]) + text[token.end() :]


def _delete_token(dice: random.Random, text: str) -> str:
    return _replace_token(dice, text, lambda _: "")


def _double_token(dice: random.Random, text: str) -> str:
    return _replace_token(dice, text, lambda token: f"{token} {token}")


def _other_token(dice: random.Random, text: str) -> str:
    tokens = _tokens(text)
    return _replace_token(dice, text, lambda _: dice.choice(tokens)[0]) if tokens else text


def _typo(dice: random.Random, text: str) -> str:
    def slip(token: str) -> str:
        at = dice.randrange(len(token))
        return token[:at] + dice.choice(("", token[at] * 2, "x", "é")) + token[at + 1 :]

    return _replace_token(dice, text, slip)


def _other_value(dice: random.Random, text: str) -> str:
    """Put another value, of another type, behind a key."""
    values = list(re.finditer(r"(?<=: )[^,{}\[\]\n]+", text))
    if not values:
        return text
    found = dice.choice(values)
    return text[: found.start()] + dice.choice(VALUES) + text[found.end() :]


def _other_number(dice: random.Random, text: str) -> str:
    numbers = list(re.finditer(r"[0-9]+(?:\.[0-9]+)?", text))
    if not numbers:
        return text
    found = dice.choice(numbers)
    new = dice.choice(("0", "1", "-1", "1e9", "1e-9", "0.000001", "999999", found[0] + "0", "-" + found[0]))
    return text[: found.start()] + new + text[found.end() :]


def _like_value(dice: random.Random, text: str) -> str:
    """Put the value of one key behind another of the same name."""
    pairs = list(re.finditer(r"([a-z_]+): ([^,{}\[\]\n]+)", text))
    found = dice.choice(pairs) if pairs else None
    if found is None:
        return text
    other = dice.choice([pair for pair in pairs if pair[1] == found[1]])
    return text[: found.start(2)] + other[2] + text[found.end(2) :]


def _near_number(dice: random.Random, text: str) -> str:
    numbers = list(re.finditer(r"(?<![\w.])[0-9]+(?:\.[0-9]+)?", text))
    if not numbers:
        return text
    found = dice.choice(numbers)
    new = f"{float(found[0]) * dice.choice((0.0, 0.01, 0.5, 0.9, 1.1, 2.0, 10.0, 1000.0)):.9g}"
    return text[: found.start()] + new + text[found.end() :]


def _odd_character(dice: random.Random, text: str) -> str:
    at = dice.randrange(len(text) + 1)
    return text[:at] + dice.choice(ODD) + text[at:]


GENTLE: tuple[Damage, ...] = (_like_value, _like_value, _near_number, _near_number, _delete_line, _swap_lines)

DAMAGES: tuple[Damage, ...] = (
    _delete_line,
    _repeat_line,
    _swap_lines,
    _indent_line,
    _cut,
    _delete_token,
    _double_token,
    _other_token,
    _other_token,
    _typo,
    _typo,
    _other_value,
    _other_value,
    _other_number,
    _other_number,
    _odd_character,
)
