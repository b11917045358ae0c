"""Plain trees to text: YAML as people write it by hand, or JSON."""

from __future__ import annotations

import json
import re
from functools import cache, lru_cache

from linewright.document.encode import MOST_KNOWN, Tree, Word
from linewright.model.same import OfSame, Same

#: A text that may stand without quotes in a list or mapping on one line.
_PLAIN = re.compile(r"[A-Za-z0-9_(](?:[^\s:#,\[\]{}\"'&*!|>%@`\\]|[ ](?![#\s])|[:#](?=[^\s,\[\]{}]))*")
WIDTH = 120
#: Entries of lists up to so many characters are all kept at hand as text; of longer ones, such as systems, a few.
_SHORT, _MOST_LONG = 2_000, 64
#: So many lists and mappings behind keys, some as long as the whole text: those of a design and of the one before.
_MOST_ENTRIES = 32


class Form:
    """How text is written: JSON or YAML."""

    def __init__(self, *, as_json: bool = False) -> None:
        """Choose the form."""
        self.as_json = as_json

    def key(self, text: str) -> str:
        """A key as it is written."""
        return json.dumps(text, ensure_ascii=False) if self.as_json else _text(text)

    def word(self, word: Word) -> str:
        """A scalar as it is written; JSON has numbers without a unit bare."""
        if self.as_json:
            return word.text if not word.is_text and _is_json(word.text) else json.dumps(word.text, ensure_ascii=False)
        return _text(word.text) if word.is_text else word.text

    def flow(self, tree: Tree) -> str:
        """A tree on one line."""
        if isinstance(tree, Word):
            return self.word(tree)
        if isinstance(tree, list):
            return f"[{', '.join(self.flow(item) for item in tree)}]"
        return "{" + ", ".join(f"{self.key(key)}: {self.flow(item)}" for key, item in tree.items()) + "}"

    def entry(self, key: str, tree: Tree, indent: int) -> str:
        """A key and its value, where it is long on lines of its own; begins at the key."""
        if isinstance(tree, Word) or not tree or self.as_json:
            return f"{self.key(key)}: {self.flow(tree)}"
        return self.key(key) + _behind_key(Same(tree), indent)

    def block(self, tree: Tree, indent: int) -> str:
        """A list or mapping on lines of its own, each with its indentation; no line end after the last."""
        pad = " " * indent
        if isinstance(tree, list):
            return "\n".join([f"{pad}- {item}" for item in _items(indent, as_json=self.as_json).all(tree)])
        if isinstance(tree, Word):
            return pad + self.word(tree)
        return "\n".join(f"{pad}{self.entry(key, item, indent)}" for key, item in tree.items())

    def item(self, tree: Tree, indent: int, *, on_lines: bool = False) -> str:
        """An entry of a list whose dash stands at `indent`; begins behind the dash."""
        if isinstance(tree, dict) and tree and not self.as_json and (_is_deep(tree) or on_lines):
            return self.block(tree, indent + 2).lstrip()
        return self.flow(tree)


@lru_cache(maxsize=_MOST_ENTRIES)
def _behind_key(tree: Same[Tree], indent: int) -> str:
    """Write what stands behind a key, where it is long on lines of its own; the encoder gives the same for the same."""
    form = Form()
    return f":\n{form.block(tree.value, indent + 2)}" if _is_deep(tree.value) else f": {form.flow(tree.value)}"


@cache
def _items(indent: int, *, as_json: bool) -> OfSame[Tree, str]:
    """Entries that were written; the encoder gives the same tree for the same entry."""
    return OfSame(
        lambda tree: _item(Same(tree), indent, as_json=as_json), MOST_KNOWN, keeps=lambda text: len(text) <= _SHORT
    )


@lru_cache(maxsize=_MOST_LONG)
def _item(tree: Same[Tree], indent: int, *, as_json: bool) -> str:
    """Write an entry of a list."""
    return Form(as_json=as_json).item(tree.value, indent)


def document(tree: dict[str, Tree], *, as_json: bool = False) -> str:
    """A whole document."""
    if as_json:
        return Form(as_json=True).flow(tree) + "\n"
    return Form().block(tree, 0) + "\n"


def _text(text: str) -> str:
    if _PLAIN.fullmatch(text) and not text.endswith((" ", ":")):
        return text
    return json.dumps(text, ensure_ascii=False)


def _is_json(text: str) -> bool:
    try:
        return isinstance(json.loads(text), int | float)
    except ValueError:
        return False


def _is_deep(tree: Tree) -> bool:
    """Whether a tree is better written on several lines: it holds mappings of mappings or lists of mappings."""
    children = tree.values() if isinstance(tree, dict) else tree if isinstance(tree, list) else ()
    if isinstance(tree, list):
        return any(isinstance(child, dict) for child in children)
    return any(isinstance(child, dict | list) and _is_deep(child) for child in children) or (
        isinstance(tree, dict) and any(isinstance(child, dict) for child in children) and len(Form().flow(tree)) > WIDTH
    )
