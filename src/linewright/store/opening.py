"""Opening a database: one that is damaged, foreign or newer is named and left; an older one is brought forward."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import closing, contextmanager
from pathlib import Path
from typing import Any

from alembic import command
from alembic.config import Config
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, Transaction, create_engine, event
from sqlalchemy.engine.interfaces import DBAPIConnection

from linewright.store.faults import StoreError

#: Stands in the head of every database of ours ("LWRT").
APPLICATION_ID = 0x4C575254
_MAGIC = b"SQLite format 3\0"
_HEAD = 100
_OURS = "a database that this program made"
#: How long a writer waits for another one [s].
BUSY_S = 20


class Store:
    """An open database. Whoever reads sees one state; whoever writes is alone."""

    def __init__(self, engine: Engine, place: str) -> None:
        """Keep the connection pool, and what the database is called in faults."""
        self.engine, self.place = engine, place
        self._disk = ThreadPoolExecutor(1, thread_name_prefix="disk")

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Look at one state of the database."""
        with self.engine.connect() as connection, connection.begin():
            yield connection

    @contextmanager
    def writing(self, meanwhile: Callable[[], object] | None = None) -> Iterator[Connection]:
        """Change the database: all of it is on the disk when the block ends, or nothing.

        meanwhile : what is done while the disk is waited for, which is the longest part of a change; it must not rely
            on the change, which may still fail
        """
        with self.engine.connect().execution_options(linewright_writes=True) as connection, connection.begin() as all_:
            yield connection
            if meanwhile is not None:
                written = self._disk.submit(_commit, connection, all_)
                try:
                    meanwhile()
                finally:
                    written.result()

    def close(self) -> None:
        """Let go of the file."""
        self._disk.shutdown()
        self.engine.dispose()


def _commit(connection: Connection, all_: Transaction) -> None:
    """Write a change through; where that fails, the connection goes, and with it all that it had begun."""
    try:
        all_.commit()
    except BaseException:
        connection.invalidate()
        raise


def open_store(path: Path) -> Store:
    """Open a database, or make one where there is none.

    Raises StoreError for one that is damaged, cut off, not ours, made by a newer version, or cannot be read.
    """
    is_new = not path.exists() or path.stat().st_size == 0
    if not is_new:
        _check_file(path)
    store = Store(_engine(path), str(path))
    try:
        _bring_forward(store, path, is_new=is_new)
    except BaseException:
        store.close()
        raise
    return store


def versions() -> list[str]:
    """Every version of the tables, oldest first."""
    scripts = ScriptDirectory.from_config(_config())
    return [script.revision for script in scripts.walk_revisions()][::-1]


def upgrade(connection: Connection, version: str = "head") -> None:
    """Bring the tables to a version."""
    config = _config()
    config.attributes["connection"] = connection
    command.upgrade(config, version)


def _config() -> Config:
    config = Config()
    config.set_main_option("script_location", str(Path(__file__).with_name("migrations")).replace("%", "%%"))
    return config


def _engine(path: Path) -> Engine:
    engine = create_engine(f"sqlite:///{path}", connect_args={"timeout": BUSY_S, "check_same_thread": False})
    event.listen(engine, "connect", _on_connect)
    event.listen(engine, "begin", _on_begin)
    return engine


def _on_connect(connection: DBAPIConnection, _: Any) -> None:  # noqa: ANN401 - what the pool keeps beside it
    """Acknowledged means written through: the log is synced at every commit."""
    connection.isolation_level = None
    cursor = connection.cursor()
    for pragma in ("journal_mode = WAL", "synchronous = FULL", "foreign_keys = ON", f"busy_timeout = {BUSY_S * 1000}"):
        cursor.execute(f"PRAGMA {pragma}")
    cursor.close()


def _on_begin(connection: Connection) -> None:
    writes = connection.get_execution_options().get("linewright_writes", False)
    connection.exec_driver_sql("BEGIN IMMEDIATE" if writes else "BEGIN")


def _check_file(path: Path) -> None:
    """Refuse what is no sound database of ours before anything is written to it."""
    place = str(path)
    try:
        if path.is_dir():
            raise StoreError(place, "this is a folder", _OURS)
        with path.open("rb") as file:
            head = file.read(_HEAD)
        if not head.startswith(_MAGIC):
            raise StoreError(place, "this is no database", _OURS)
        if _is_cut_off(path, head):
            raise StoreError(place, "the database is damaged: its end is missing", "a whole copy of it")
        with closing(sqlite3.connect(path, timeout=BUSY_S)) as connection:
            (application,) = connection.execute("PRAGMA application_id").fetchone()
            if application != APPLICATION_ID:
                raise StoreError(place, "this is the database of another program", _OURS)
            damage = connection.execute("PRAGMA quick_check(1)").fetchone()[0]
            if damage != "ok":
                raise StoreError(place, f"the database is damaged: {damage.splitlines()[-1]}", "a whole copy of it")
            _check_version(place, connection)
    except sqlite3.DatabaseError as error:
        raise StoreError(place, f"the database is damaged: {error}", "a whole copy of it") from None
    except OSError as error:
        raise StoreError(place, f"it cannot be read: {error.strerror}", "a file that you may read") from None


def _is_cut_off(path: Path, head: bytes) -> bool:
    """Say whether fewer pages are there than the head tells; with a log beside it the log knows better.

    Head of the file as in "Database File Format", sqlite.org: page size at 16, number of pages at 28, which counts
    where the numbers at 24 and 92 are the same.
    """
    log = path.with_name(f"{path.name}-wal")
    if len(head) < _HEAD or (log.exists() and log.stat().st_size):
        return len(head) < _HEAD
    page = int.from_bytes(head[16:18], "big")
    size = path.stat().st_size
    pages = int.from_bytes(head[28:32], "big") if head[24:28] == head[92:96] else 0
    return size < pages * (65536 if page == 1 else page)


def _check_version(place: str, connection: sqlite3.Connection) -> None:
    found = connection.execute("SELECT version_num FROM alembic_version").fetchone()
    version = found[0] if found else ""
    if version not in versions():
        newest = versions()[-1]
        message = f"it was written by a newer version of the program (tables {version or 'unknown'})"
        raise StoreError(place, message, f"that version of the program, or a database with tables up to {newest}")


def _bring_forward(store: Store, path: Path, *, is_new: bool) -> None:
    """Bring the tables to the newest version; of an older database a copy stays beside it."""
    if not is_new:
        with store.reading() as connection:
            version = connection.exec_driver_sql("SELECT version_num FROM alembic_version").scalar_one()
        if version == versions()[-1]:
            return
        _copy(path, path.with_name(f"{path.name}.before-{versions()[-1]}"))
    with store.writing() as connection:
        if is_new:
            connection.exec_driver_sql(f"PRAGMA application_id = {APPLICATION_ID}")
        upgrade(connection)


def _copy(path: Path, to: Path) -> None:
    with closing(sqlite3.connect(path)) as source, closing(sqlite3.connect(to)) as target:
        source.backup(target)
