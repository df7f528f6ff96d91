"""The maker's tips, and what a batch is computed from beside the document: tips and materials."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None

TEXT = sa.Text()


def upgrade() -> None:
    """Add the table of tips, and to a snapshot its tips and materials: none for one that is there already."""
    op.create_table(
        "tip",
        sa.Column("project_id", sa.String(36), nullable=False),
        sa.Column("track", TEXT, nullable=False),
        sa.Column("step_id", TEXT, nullable=False),
        sa.Column("place", sa.String(8), nullable=False),
        sa.Column("text", TEXT, nullable=False),
        sa.Column("computed_text", TEXT, nullable=False),
        sa.Column("updated_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["project_id"], ["project.id"], name="fk_tip_project_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("project_id", "track", "step_id", "place", name="pk_tip"),
    )
    for name in ("tips", "materials"):
        op.add_column("snapshot", sa.Column(name, sa.JSON(), nullable=False, server_default=sa.text("'[]'")))
