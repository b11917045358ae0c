"""The tables. They change only together with a migration."""

from __future__ import annotations

from sqlalchemy import (
    Column,
    ForeignKey,
    Integer,
    MetaData,
    PrimaryKeyConstraint,
    String,
    Table,
    Text,
    UniqueConstraint,
)

metadata = MetaData(
    naming_convention={
        "uq": "uq_%(table_name)s_%(column_0_name)s",
        "fk": "fk_%(table_name)s_%(column_0_name)s",
        "pk": "pk_%(table_name)s",
    }
)
_TIME, _NAME, _HASH = String(32), String(200), String(64)

projects = Table(
    "project",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("name", _NAME, nullable=False),
    Column("made_at", _TIME, nullable=False),
)
documents = Table(
    "document",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("project_id", ForeignKey("project.id"), nullable=False),
    Column("kind", String(8), nullable=False),
    Column("name", _NAME, nullable=False),
    Column("head", Integer, nullable=False),
    Column("made_at", _TIME, nullable=False),
    Column("gone_at", _TIME, nullable=False, server_default=""),
    Column("file", String(255), nullable=False, server_default=""),
    Column("file_sha256", _HASH, nullable=False, server_default=""),
)
revisions = Table(
    "revision",
    metadata,
    Column("document_id", ForeignKey("document.id"), nullable=False),
    Column("number", Integer, nullable=False),
    Column("base", Integer, nullable=False),
    Column("made_at", _TIME, nullable=False),
    Column("note", Text, nullable=False),
    Column("text", Text, nullable=False),
    Column("sha256", _HASH, nullable=False),
    Column("edits", Text, nullable=False),
    Column("inverse", Text, nullable=False),
    Column("touched", Text, nullable=False),
    PrimaryKeyConstraint("document_id", "number"),
)
#: Names that were given to revisions; the last one given to a revision counts.
labels = Table(
    "label",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("document_id", ForeignKey("document.id"), nullable=False),
    Column("number", Integer, nullable=False),
    Column("name", _NAME, nullable=False),
    Column("made_at", _TIME, nullable=False),
)
#: Keys by which a change is known again that was sent twice.
requests = Table(
    "request",
    metadata,
    Column("document_id", ForeignKey("document.id"), nullable=False),
    Column("key", String(64), nullable=False),
    Column("number", Integer, nullable=False),
    UniqueConstraint("document_id", "key"),
)
jobs = Table(
    "job",
    metadata,
    Column("id", Integer, primary_key=True),
    Column("project_id", ForeignKey("project.id"), nullable=False),
    Column("kind", String(16), nullable=False),
    Column("asked", Text, nullable=False),
    Column("state", String(16), nullable=False),
    Column("done", Integer, nullable=False),
    Column("of", Integer, nullable=False),
    Column("message", Text, nullable=False),
    Column("result", Text, nullable=False),
    Column("made_at", _TIME, nullable=False),
)
