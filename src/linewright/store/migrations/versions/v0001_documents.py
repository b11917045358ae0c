"""Projects, documents, revisions."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None

TIME, NAME, HASH = sa.String(32), sa.String(200), sa.String(64)


def upgrade() -> None:
    """Make the first tables; a revision can be added, and is then never changed nor taken away."""
    op.create_table(
        "project",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("name", NAME, nullable=False),
        sa.Column("made_at", TIME, nullable=False),
    )
    op.create_table(
        "document",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("project_id", sa.Integer, sa.ForeignKey("project.id"), nullable=False),
        sa.Column("kind", sa.String(8), nullable=False),
        sa.Column("name", NAME, nullable=False),
        sa.Column("head", sa.Integer, nullable=False),
        sa.Column("made_at", TIME, nullable=False),
        sa.Column("gone_at", TIME, nullable=False, server_default=""),
    )
    op.create_table(
        "revision",
        sa.Column("document_id", sa.Integer, sa.ForeignKey("document.id"), nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("base", sa.Integer, nullable=False),
        sa.Column("made_at", TIME, nullable=False),
        sa.Column("note", sa.Text, nullable=False),
        sa.Column("text", sa.Text, nullable=False),
        sa.Column("sha256", HASH, nullable=False),
        sa.Column("edits", sa.Text, nullable=False),
        sa.Column("inverse", sa.Text, nullable=False),
        sa.Column("touched", sa.Text, nullable=False),
        sa.PrimaryKeyConstraint("document_id", "number"),
    )
    if op.get_bind().dialect.name == "sqlite":
        for event in ("UPDATE", "DELETE"):
            op.execute(
                f"CREATE TRIGGER revision_stays_{event.lower()} BEFORE {event} ON revision "
                "BEGIN SELECT RAISE(ABORT, 'a revision stays as it is'); END"
            )
