"""`linewright serve`: the program over HTTP, on this machine."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple, NoReturn

import click

from linewright.cli.common import Exit

if TYPE_CHECKING:
    from linewright.store import Store


class Target(NamedTuple):
    """What is served: a database, and the folder and the only design that it is kept in step with."""

    database: Path
    folder: Path | None
    only: str


@click.command("serve")
@click.argument("target", required=False, type=click.Path(path_type=Path))
@click.option("--port", type=click.IntRange(0, 65535), default=8340, show_default=True, help="0 takes a free one.")
def command(target: Path | None, port: int) -> None:
    """Serve TARGET to this machine: a folder of designs and books, one design file, or a database (NAME.db).

    Without TARGET: the folder in which the program is started. What was acknowledged is on the disk; designs of a
    folder are saved back to their files. Ends with Ctrl-C.
    """
    serve_target(target_of(target or Path()), port, ready=lambda address: click.echo(f"Linewright is at {address}"))


def serve_target(wanted: Target, port: int, *, ready: Callable[[str], None]) -> None:
    """Serve until the program is told to end; `ready` is called with the address."""
    from linewright.store import StoreError, open_store

    try:
        store = open_store(wanted.database)
    except StoreError as error:
        click.echo(str(error), err=True)
        raise SystemExit(Exit.NOT_UNDERSTOOD) from None
    try:
        _serve(wanted, port, store, ready=ready)
    finally:
        store.close()


def _serve(wanted: Target, port: int, store: Store, *, ready: Callable[[str], None]) -> None:
    from linewright.app.keeping import Workspace
    from linewright.app.keeping.folders import Folder
    from linewright.report.faults_text import faults_text
    from linewright.web.serving import listening, serve

    workspace = Workspace(store)
    try:
        listener = listening(port)
    except OSError as error:
        click.echo(f"port {port} cannot be had: {error.strerror}; expected a free one, such as --port 0", err=True)
        raise SystemExit(Exit.NOT_UNDERSTOOD) from None
    folder = Folder(workspace, wanted.folder, only=wanted.only) if wanted.folder is not None else None
    if folder is not None:
        opened = folder.open()
        for faulty in opened.faulty:
            click.echo(faults_text(faulty), err=True)
            click.echo("The file stays out until it is mended.", err=True)
        for name in opened.gone:
            click.echo(f"{name} is gone from the folder; its revisions stay in {wanted.database.name}", err=True)
    try:
        serve(workspace, listener, ready=ready)
    finally:
        listener.close()
        if folder is not None:
            folder.close()


def target_of(target: Path) -> Target:
    """Say what a target names; leaves the program where it is nothing that can be served."""
    from linewright.app.keeping.folders import DATABASE

    if target.suffix == ".db":
        if not target.parent.is_dir():
            _refuse(target, "there is no such folder for the database", "a folder that exists")
        return Target(target, None, "")
    if not target.exists():
        _refuse(target, "there is no such file or folder", "a folder, a design file, or a database NAME.db")
    folder = target if target.is_dir() else target.parent
    return Target(folder / DATABASE, folder, "" if target.is_dir() else target.name)


def _refuse(target: Path, message: str, expected: str) -> NoReturn:
    click.echo(f"{target}: {message}; expected {expected}", err=True)
    raise SystemExit(Exit.NOT_UNDERSTOOD)
