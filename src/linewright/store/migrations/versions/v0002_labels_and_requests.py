"""Names of revisions, and keys by which a change that was sent twice is made once."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"


def upgrade() -> None:
    """Add both tables."""
    op.create_table(
        "label",
        sa.Column("id", sa.Integer, primary_key=True),
        sa.Column("document_id", sa.Integer, sa.ForeignKey("document.id"), nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.Column("name", sa.String(200), nullable=False),
        sa.Column("made_at", sa.String(32), nullable=False),
    )
    op.create_table(
        "request",
        sa.Column("document_id", sa.Integer, sa.ForeignKey("document.id"), nullable=False),
        sa.Column("key", sa.String(64), nullable=False),
        sa.Column("number", sa.Integer, nullable=False),
        sa.UniqueConstraint("document_id", "key"),
    )
