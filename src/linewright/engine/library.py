"""The books that an evaluation may look up, by id, with the hashes of their texts."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import NamedTuple

from linewright.book.compiled import CompiledBook


class Library(NamedTuple):
    """Compiled books by id; a book without a hash was made in memory."""

    books: Mapping[str, CompiledBook]
    hashes: Mapping[str, str]

    @staticmethod
    def of(books: Mapping[str, CompiledBook], hashes: Mapping[str, str] | None = None) -> Library:
        """Make a library of compiled books."""
        return Library(MappingProxyType(dict(books)), MappingProxyType(dict(hashes or {})))
