"""The first tables."""

from __future__ import annotations

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None

ID = sa.String(36)
SHA256 = sa.String(64)
TEXT = sa.Text()
JSON = sa.JSON()
TIME = sa.DateTime(timezone=True)


def upgrade() -> None:
    """Make every table, those first that others point to."""
    _create_batch()
    _create_beat()
    _create_idempotency()
    _create_material()
    _create_series()
    _create_token()
    _create_event()
    _create_project()
    _create_snapshot()
    _create_job()
    _create_outline()
    _create_wording()
    _create_artifact()
    _create_job_edge()


def _create_batch() -> None:
    op.create_table(
        "batch",
        sa.Column("id", ID, nullable=False),
        sa.Column("project_ids", JSON, nullable=False),
        sa.Column("series_id", ID, nullable=True),
        sa.Column("release", sa.Date(), nullable=True),
        sa.Column("kinds", JSON, nullable=False),
        sa.Column("priority", sa.Integer(), nullable=False),
        sa.Column("last_event", sa.Integer(), nullable=False),
        sa.Column("cancel_requested", sa.Boolean(), nullable=False),
        sa.Column("created_at", TIME, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_batch"),
    )
    op.create_index("ix_batch_created_at", "batch", ["created_at"], unique=False)


def _create_beat() -> None:
    op.create_table(
        "beat",
        sa.Column("name", sa.String(length=40), nullable=False),
        sa.Column("at", TIME, nullable=False),
        sa.PrimaryKeyConstraint("name", name="pk_beat"),
    )


def _create_idempotency() -> None:
    op.create_table(
        "idempotency",
        sa.Column("token_id", ID, nullable=False),
        sa.Column("key", sa.String(length=255), nullable=False),
        sa.Column("request_hash", SHA256, nullable=False),
        sa.Column("status", sa.Integer(), nullable=True),
        sa.Column("body", JSON, nullable=True),
        sa.Column("created_at", TIME, nullable=False),
        sa.PrimaryKeyConstraint("token_id", "key", name="pk_idempotency"),
    )


def _create_material() -> None:
    op.create_table(
        "material",
        sa.Column("id", ID, nullable=False),
        sa.Column("name", TEXT, nullable=False),
        sa.Column("kind", sa.String(length=40), nullable=False),
        sa.Column("data", JSON, nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("etag", sa.String(length=80), nullable=False),
        sa.Column("created_at", TIME, nullable=False),
        sa.Column("updated_at", TIME, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_material"),
    )


def _create_series() -> None:
    op.create_table(
        "series",
        sa.Column("id", ID, nullable=False),
        sa.Column("title", TEXT, nullable=False),
        sa.Column("rule", JSON, nullable=False),
        sa.Column("release", JSON, nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("etag", sa.String(length=80), nullable=False),
        sa.Column("created_at", TIME, nullable=False),
        sa.Column("updated_at", TIME, nullable=False),
        sa.PrimaryKeyConstraint("id", name="pk_series"),
    )


def _create_token() -> None:
    op.create_table(
        "token",
        sa.Column("id", ID, nullable=False),
        sa.Column("name", TEXT, nullable=False),
        sa.Column("role", sa.String(length=12), nullable=False),
        sa.Column("sha256", SHA256, nullable=False),
        sa.Column("created_at", TIME, nullable=False),
        sa.Column("expires_at", TIME, nullable=True),
        sa.Column("last_used_at", TIME, nullable=True),
        sa.Column("revoked_at", TIME, nullable=True),
        sa.PrimaryKeyConstraint("id", name="pk_token"),
        sa.UniqueConstraint("sha256", name="uq_token_sha256"),
    )


def _create_event() -> None:
    op.create_table(
        "event",
        sa.Column("batch_id", ID, nullable=False),
        sa.Column("seq", sa.Integer(), autoincrement=False, nullable=False),
        sa.Column("job_id", ID, nullable=True),
        sa.Column("type", sa.String(length=40), nullable=False),
        sa.Column("data", JSON, nullable=False),
        sa.Column("at", TIME, nullable=False),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name="fk_event_batch_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("batch_id", "seq", name="pk_event"),
    )


def _create_project() -> None:
    op.create_table(
        "project",
        sa.Column("id", ID, nullable=False),
        sa.Column("series_id", ID, nullable=True),
        sa.Column("title", TEXT, nullable=False),
        sa.Column("release", sa.Date(), nullable=True),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("document", JSON, nullable=False),
        sa.Column("etag", sa.String(length=80), nullable=False),
        sa.Column("created_at", TIME, nullable=False),
        sa.Column("updated_at", TIME, nullable=False),
        sa.ForeignKeyConstraint(["series_id"], ["series.id"], name="fk_project_series_id"),
        sa.PrimaryKeyConstraint("id", name="pk_project"),
    )
    op.create_index("ix_project_release", "project", ["release"], unique=False)
    op.create_index("ix_project_series_id", "project", ["series_id"], unique=False)


def _create_snapshot() -> None:
    op.create_table(
        "snapshot",
        sa.Column("id", ID, nullable=False),
        sa.Column("batch_id", ID, nullable=False),
        sa.Column("project_id", ID, nullable=False),
        sa.Column("revision", sa.Integer(), nullable=False),
        sa.Column("release", sa.Date(), nullable=True),
        sa.Column("document", JSON, nullable=False),
        sa.Column("outlines", JSON, nullable=False),
        sa.Column("wording", JSON, nullable=False),
        sa.Column("plan", JSON, nullable=False),
        sa.Column("created_at", TIME, nullable=False),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name="fk_snapshot_batch_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_snapshot"),
        sa.UniqueConstraint("batch_id", "project_id", name="uq_snapshot_batch_id_project_id"),
    )
    op.create_index("ix_snapshot_project_id", "snapshot", ["project_id"], unique=False)


def _create_job() -> None:
    op.create_table(
        "job",
        sa.Column("id", ID, nullable=False),
        sa.Column("batch_id", ID, nullable=False),
        sa.Column("snapshot_id", ID, nullable=False),
        sa.Column("project_id", ID, nullable=False),
        sa.Column("kind", sa.String(length=40), nullable=False),
        sa.Column("track", TEXT, nullable=True),
        sa.Column("position", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(length=12), nullable=False),
        sa.Column("state_reasons", JSON, nullable=False),
        sa.Column("message", TEXT, nullable=False),
        sa.Column("problem", JSON, nullable=True),
        sa.Column("waits_for", sa.Integer(), nullable=False),
        sa.Column("attempt", sa.Integer(), nullable=False),
        sa.Column("owner", ID, nullable=True),
        sa.Column("lease_until", TIME, nullable=True),
        sa.Column("priority", sa.Integer(), nullable=False),
        sa.Column("dispatched_at", TIME, nullable=True),
        sa.Column("not_before", TIME, nullable=True),
        sa.Column("progress_fraction", sa.Double(), nullable=False),
        sa.Column("progress_message", TEXT, nullable=False),
        sa.Column("cancel_requested", sa.Boolean(), nullable=False),
        sa.Column("input_key", SHA256, nullable=True),
        sa.Column("created_at", TIME, nullable=False),
        sa.Column("ready_at", TIME, nullable=True),
        sa.Column("started_at", TIME, nullable=True),
        sa.Column("finished_at", TIME, nullable=True),
        sa.ForeignKeyConstraint(["batch_id"], ["batch.id"], name="fk_job_batch_id", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(
            ["snapshot_id"], ["snapshot.id"], name="fk_job_snapshot_id", ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name="pk_job"),
        sa.UniqueConstraint("snapshot_id", "kind", "track", name="uq_job_snapshot_id_kind_track"),
    )
    op.create_index("ix_job_batch_id", "job", ["batch_id"], unique=False)
    op.create_index("ix_job_input_key", "job", ["input_key"], unique=False)
    op.create_index("ix_job_project_id_kind", "job", ["project_id", "kind"], unique=False)
    op.create_index("ix_job_state_priority_ready_at", "job", ["state", "priority", "ready_at"], unique=False)


def _create_outline() -> None:
    op.create_table(
        "outline",
        sa.Column("id", ID, nullable=False),
        sa.Column("project_id", ID, nullable=False),
        sa.Column("name", TEXT, nullable=False),
        sa.Column("sha256", SHA256, nullable=False),
        sa.Column("stored", JSON, nullable=False),
        sa.Column("notes", JSON, nullable=False),
        sa.Column("created_at", TIME, nullable=False),
        sa.ForeignKeyConstraint(
            ["project_id"], ["project.id"], name="fk_outline_project_id", ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("id", name="pk_outline"),
        sa.UniqueConstraint("project_id", "name", name="uq_outline_project_id_name"),
    )


def _create_wording() -> None:
    op.create_table(
        "wording",
        sa.Column("project_id", ID, nullable=False),
        sa.Column("track", TEXT, nullable=False),
        sa.Column("step_id", TEXT, nullable=False),
        sa.Column("text", TEXT, nullable=False),
        sa.Column("computed_text", TEXT, nullable=False),
        sa.Column("updated_at", TIME, nullable=False),
        sa.ForeignKeyConstraint(
            ["project_id"], ["project.id"], name="fk_wording_project_id", ondelete="CASCADE"
        ),
        sa.PrimaryKeyConstraint("project_id", "track", "step_id", name="pk_wording"),
    )


def _create_artifact() -> None:
    op.create_table(
        "artifact",
        sa.Column("id", ID, nullable=False),
        sa.Column("job_id", ID, nullable=False),
        sa.Column("project_id", ID, nullable=False),
        sa.Column("name", TEXT, nullable=False),
        sa.Column("kind", sa.String(length=40), nullable=False),
        sa.Column("media_type", sa.String(length=120), nullable=False),
        sa.Column("size", sa.Integer(), nullable=False),
        sa.Column("sha256", SHA256, nullable=False),
        sa.Column("public", sa.Boolean(), nullable=False),
        sa.Column("created_at", TIME, nullable=False),
        sa.ForeignKeyConstraint(["job_id"], ["job.id"], name="fk_artifact_job_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("id", name="pk_artifact"),
        sa.UniqueConstraint("job_id", "name", name="uq_artifact_job_id_name"),
    )
    op.create_index("ix_artifact_project_id", "artifact", ["project_id"], unique=False)


def _create_job_edge() -> None:
    op.create_table(
        "job_edge",
        sa.Column("parent_id", ID, nullable=False),
        sa.Column("child_id", ID, nullable=False),
        sa.ForeignKeyConstraint(["child_id"], ["job.id"], name="fk_job_edge_child_id", ondelete="CASCADE"),
        sa.ForeignKeyConstraint(["parent_id"], ["job.id"], name="fk_job_edge_parent_id", ondelete="CASCADE"),
        sa.PrimaryKeyConstraint("parent_id", "child_id", name="pk_job_edge"),
    )
    op.create_index("ix_job_edge_child_id", "job_edge", ["child_id"], unique=False)
