"""Files that documents are kept in step with, and long jobs."""

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"


def upgrade() -> None:
    """Add the columns of the file and the table of jobs."""
    op.add_column("document", sa.Column("file", sa.String(255), nullable=False, server_default=""))
    op.add_column("document", sa.Column("file_sha256", sa.String(64), nullable=False, server_default=""))
    op.create_table(
        "job",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("project_id", sa.Integer, sa.ForeignKey("project.id"), nullable=False),
        sa.Column("kind", sa.String(16), nullable=False),
        sa.Column("asked", sa.Text, nullable=False),
        sa.Column("state", sa.String(16), nullable=False),
        sa.Column("done", sa.Integer, nullable=False),
        sa.Column("of", sa.Integer, nullable=False),
        sa.Column("message", sa.Text, nullable=False),
        sa.Column("result", sa.Text, nullable=False),
        sa.Column("made_at", sa.String(32), nullable=False),
    )
