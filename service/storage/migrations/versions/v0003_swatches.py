"""Photographs of cloth, and those that a batch is computed from."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0003"
down_revision = "0002"
branch_labels = None
depends_on = None


def upgrade() -> None:
    """Add the table of photographs, and to a snapshot its own: none for one that is there already."""
    op.create_table(
        "swatch",
        sa.Column("id", sa.String(36), nullable=False),
        sa.Column("project_id", sa.String(36), nullable=False),
        sa.Column("name", sa.Text(), nullable=False),
        sa.Column("sha256", sa.String(64), nullable=False),
        sa.Column("stored", sa.JSON(), nullable=False),
        sa.Column("created_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(
            ["project_id"], ["project.id"], name="fk_swatch_project_id", ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name="pk_swatch"),
        sa.UniqueConstraint("project_id", "name", name="uq_swatch_project_id_name"),
    )
    op.add_column(
        "snapshot", sa.Column("swatches", sa.JSON(), nullable=False, server_default=sa.text("'{}'"))
    )
