"""What every edit says to its database, put into words once and said to the database itself."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from typing import Any

from sqlalchemy import ClauseElement, Connection
from sqlalchemy.dialects.sqlite.pysqlite import dialect
from sqlalchemy.exc import DBAPIError


class Words:
    """A statement whose values go in and come out as they are: numbers and texts."""

    def __init__(self, statement: ClauseElement) -> None:
        """Put it into words."""
        compiled = statement.compile(dialect=dialect())
        self._text, self._given = str(compiled), dict(compiled.params)
        self._order: tuple[str, ...] = tuple(getattr(compiled, "positiontup", None) or ())

    def say(self, connection: Connection, **values: Any) -> sqlite3.Cursor:  # noqa: ANN401 - numbers and texts
        """Say it within a connection; raises what any statement of the connection raises."""
        found = {**self._given, **values}
        return said(connection, self._text, [found[name] for name in self._order])


def said(connection: Connection, text: str, values: Sequence[Any] = ()) -> sqlite3.Cursor:
    """Say something within a connection; raises what any statement of the connection raises."""
    driver: Any = connection.connection.driver_connection
    try:
        found: sqlite3.Cursor = driver.execute(text, values)
    except sqlite3.Error as error:
        raise DBAPIError.instance(text, list(values), error, sqlite3.Error) from error
    return found
