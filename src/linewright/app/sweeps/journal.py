"""Rows that are done, kept beside the table while it is made, so that a sweep that was killed goes on.

One line of JSON each: first what the rows are of, then a row as soon as it is judged. A line is on the disk before
the next rows are asked for; what was written half when the machine stopped is cut off.
"""

from __future__ import annotations

import json
import os
from collections.abc import Iterable
from pathlib import Path
from types import TracebackType
from typing import BinaryIO, Self

from linewright.app.sweeps.holding import hold
from linewright.document.reading import refuse
from linewright.explore.sweeps import Row

SCHEMA = "linewright/sweep-journal/1"


class Journal:
    """The rows that are done so far; opened once, and appended to."""

    def __init__(self, path: Path, digest: str, columns: int, *, restart: bool = False) -> None:
        """Open it, or begin it, and hold it alone.

        restart : whether what is kept is thrown away

        Raises InputFaultsError where another process holds it or it is of another sweep, OSError.
        """
        self.path, self._columns = path, columns
        self._head = {"schema": SCHEMA, "digest": digest, "columns": columns}
        self.rows: dict[int, Row] = {}
        self._file: BinaryIO = path.open("ab")
        try:
            if not hold(self._file):
                refuse(str(path), "another sweep is writing this table", "to wait for it, or another name")
            whole = 0 if restart else self._read(path.read_bytes())
            self._file.truncate(whole)
            if not whole:
                self._write([self._head])
        except BaseException:
            self._file.close()
            raise

    def add(self, rows: Iterable[Row]) -> None:
        """Append rows; they are on the disk when this returns."""
        made = list(rows)
        self._write([row._asdict() for row in made])
        self.rows |= {row.row: row for row in made}

    def written(self) -> int:
        """How many rows are on the disk, whatever this one was doing when it was told to stop."""
        return self.path.read_bytes().count(b"\n") - 1

    def remove(self) -> None:
        """Take it away: the table is written."""
        self._file.close()
        self.path.unlink()

    def __enter__(self) -> Self:
        """Give itself."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Close it; it stays."""
        self._file.close()

    def _write(self, lines: list[dict[str, object]]) -> None:
        text = "".join(json.dumps(line, ensure_ascii=False, allow_nan=False) + "\n" for line in lines)
        self._file.write(text.encode())
        self._file.flush()
        os.fsync(self._file.fileno())

    def _read(self, data: bytes) -> int:
        """Take over whole lines; gives how many bytes they are."""
        whole = data.rfind(b"\n") + 1
        lines = data[:whole].splitlines()
        if not lines:
            return 0
        head = self._line(lines[0], 1)
        if head != self._head:
            message = "the rows that are kept here are of another design, book, sweep or version"
            refuse(str(self.path), message, "--restart to begin anew, or another name for the table")
        for number, line in enumerate(lines[1:], start=2):
            row = self._row(self._line(line, number), number)
            self.rows[row.row] = row
        return whole

    def _line(self, line: bytes, number: int) -> object:
        try:
            return json.loads(line)
        except ValueError:
            self._refuse(number)
            return None

    def _row(self, found: object, number: int) -> Row:
        try:
            row = Row(**found)  # type: ignore[arg-type] # what is no row is refused below
            if len(row.cells) == self._columns:
                return row._replace(row=int(row.row), cells=tuple(row.cells))
        except (TypeError, ValueError):
            pass
        self._refuse(number)
        raise AssertionError

    def _refuse(self, number: int) -> None:
        refuse(str(self.path), "this is no row of a sweep", "--restart to begin anew", line=number, column=1)
