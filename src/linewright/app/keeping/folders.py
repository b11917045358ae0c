"""A folder of files that is opened: what is changed here is saved back, what is changed there is taken in."""

from __future__ import annotations

import queue
from collections.abc import Iterable
from contextlib import suppress
from pathlib import Path
from threading import Thread
from typing import NamedTuple

from linewright.app.keeping.changes import Wanted, add, put_outside
from linewright.app.keeping.kinds import BOOK, DESIGN, KINDS, Kind
from linewright.app.keeping.texts import file_text
from linewright.app.keeping.workspace import Workspace
from linewright.app.output import write_aside
from linewright.document.reading import read_text
from linewright.errors import InputFaultsError
from linewright.store import Document, NotThereError, documents
from linewright.store.revisions import hash_of

#: The database of an opened folder, in it.
DATABASE = ".linewright.db"
OUTSIDE = "changed outside the program"
_ENDINGS = {kind: tuple(f".{kind.name}.{ending}" for ending in ("yaml", "yml", "json")) for kind in (BOOK, DESIGN)}


class Opened(NamedTuple):
    """What opening a folder came to: its project, what was taken in, what was not understood, what is gone."""

    project: int
    taken_in: tuple[str, ...]
    faulty: tuple[InputFaultsError, ...]
    gone: tuple[str, ...]


class Folder:
    """A folder whose documents are kept in step with a database."""

    def __init__(self, workspace: Workspace, folder: Path, *, only: str = "") -> None:
        """Keep both; with `only`, no other design of the folder is opened."""
        self._workspace, self._folder, self._only = workspace, folder, only
        self._seen: dict[int, tuple[int, int]] = {}
        self._queue: queue.SimpleQueue[int | None] = queue.SimpleQueue()
        self._failed: dict[int, str] = {}
        self._saver = Thread(target=self._save_all, name="files", daemon=True)

    def open(self) -> Opened:
        """Bring files and database together; a file that is not understood stays out, and is told."""
        project = self._project()
        taken_in, faulty = [], []
        for kind, endings in _ENDINGS.items():
            known = {one.file: one for one in self._documents(project, kind)}
            for path in self._files(endings, kind):
                try:
                    if self._bring_in(project, kind, path, known.get(path.name)):
                        taken_in.append(path.name)
                except InputFaultsError as error:
                    faulty.append(error)
        gone = self._take_away(project)
        self._workspace.files = self
        self._saver.start()
        for kind in _ENDINGS:
            for one in self._documents(project, kind):
                self._queue.put(one.id)
        return Opened(project, tuple(taken_in), tuple(faulty), gone)

    def bring_in(self, document: Document) -> None:
        """Take in what was changed outside, before anything else is done to the document.

        Raises InputFaultsError where the file is not understood: then nobody may change it here either.
        """
        path = self._folder / document.file
        if not document.file or not path.is_file() or self._seen.get(document.id) == _stamp(path):
            return
        self._bring_in(document.project_id, KINDS[document.kind], path, document)
        self._seen[document.id] = _stamp(path)

    def changed(self, document: int) -> None:
        """Save a document to its file, soon."""
        self._queue.put(document)

    def close(self) -> None:
        """Save what is left, and end."""
        self._queue.put(None)
        self._saver.join(timeout=30)

    def unsaved(self, document: int) -> str:
        """Say why a document could not be saved to its file; "" where it was."""
        return self._failed.get(document, "")

    def _project(self) -> int:
        with self._workspace.store.writing() as connection:
            found = documents.list_projects(connection)
            name = self._folder.resolve().name or "project"
            return (found[0] if found else documents.add_project(connection, name, at=self._workspace.now())).id

    def _documents(self, project: int, kind: Kind) -> list[Document]:
        with self._workspace.store.reading() as connection:
            return documents.list_documents(connection, project, kind.name)

    def _files(self, endings: tuple[str, ...], kind: Kind) -> Iterable[Path]:
        found = sorted(path for path in self._folder.iterdir() if path.name.endswith(endings) and path.is_file())
        return [path for path in found if kind is BOOK or not self._only or path.name == self._only]

    def _bring_in(self, project: int, kind: Kind, path: Path, known: Document | None) -> bool:
        """Take in a file that is new, or whose text is not the one that was last read or written."""
        text = read_text(path)
        sha256 = hash_of(text)
        if known is None or known.file_sha256 != sha256:
            kind.read(text, str(path))
        if known is None:
            made = add(self._workspace, kind, project, name=_stem(path.name), text=text, note=path.name)
            self._keep(made.document.id, path.name, sha256)
            return True
        if known.file_sha256 == sha256:
            return False
        put_outside(self._workspace, kind, known.id, Wanted(known.head, text, OUTSIDE))
        self._keep(known.id, path.name, sha256)
        return True

    def _keep(self, document: int, file: str, sha256: str) -> None:
        with self._workspace.store.writing() as connection:
            documents.keep_file(connection, document, file, sha256)

    def _take_away(self, project: int) -> tuple[str, ...]:
        """Take out documents whose files are gone; their revisions stay."""
        gone = []
        for kind in _ENDINGS:
            for one in self._documents(project, kind):
                if one.file and not (self._folder / one.file).is_file():
                    with self._workspace.store.writing() as connection:
                        documents.take_away(connection, one.id, at=self._workspace.now())
                    gone.append(one.file)
        return tuple(gone)

    def _save_all(self) -> None:
        """Save what was asked for, each document once however often it was changed meanwhile."""
        ends = False
        while not ends:
            wanted = {self._queue.get()}
            while not self._queue.empty():
                wanted.add(self._queue.get())
            ends = None in wanted
            for document in sorted(one for one in wanted if one is not None):
                self._save(document)

    def _save(self, document: int) -> None:
        found = self._find(document)
        if found is None:
            return
        try:
            self._write(found)
            self._failed.pop(document, None)
        except (OSError, InputFaultsError) as error:
            self._failed[document] = str(error)

    def _find(self, document: int) -> Document | None:
        for kind in _ENDINGS:
            with suppress(NotThereError):
                return self._workspace.document(kind.name, document)
        return None

    def _write(self, found: Document) -> None:
        """Write a document into its file, unless somebody else wrote there meanwhile."""
        name = found.file or self._free_name(found)
        path, text = self._folder / name, file_text(self._workspace, found, found.head)
        sha256 = hash_of(text)
        if found.file and path.is_file() and hash_of(read_text(path)) != found.file_sha256:
            raise OSError(f"{name} was changed outside the program, and is not written over")
        if found.file and found.file_sha256 == sha256 and path.is_file():
            self._seen[found.id] = _stamp(path)
            return
        write_aside(path, text)
        self._keep(found.id, name, sha256)
        self._seen[found.id] = _stamp(path)

    def _free_name(self, found: Document) -> str:
        """A name for the file of a document that was made here."""
        plain = "".join(letter if letter.isalnum() or letter in "._-" else "-" for letter in found.name).strip("-.")
        stem = plain or found.kind
        number, ending = 1, f".{found.kind}.yaml"
        while (self._folder / f"{stem}{ending}").exists():
            number += 1
            stem = f"{plain or found.kind}-{number}"
        return f"{stem}{ending}"


def _stem(name: str) -> str:
    return next((name[: -len(end)] for ends in _ENDINGS.values() for end in ends if name.endswith(end)), name)


def _stamp(path: Path) -> tuple[int, int]:
    found = path.stat()
    return found.st_mtime_ns, found.st_size
