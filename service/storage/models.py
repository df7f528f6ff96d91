"""The tables. Ids are UUIDv7 texts, times are UTC, and JSON keeps the order of its fields as written."""

from __future__ import annotations

from datetime import date, datetime
from enum import StrEnum
from typing import Any, ClassVar

from sqlalchemy import JSON, Double, ForeignKey, Index, MetaData, String, Text, UniqueConstraint
from sqlalchemy.orm import DeclarativeBase, Mapped, mapped_column

from service.storage.times import UtcDateTime

ID = String(36)
SHA256 = String(64)


class JobState(StrEnum):
    """The states of RFC 8011 section 5.3.7; its pending-held is `held`, its processing-stopped `stopped`."""

    HELD = "held"
    PENDING = "pending"
    PROCESSING = "processing"
    STOPPED = "stopped"
    CANCELED = "canceled"
    ABORTED = "aborted"
    COMPLETED = "completed"


class Reason(StrEnum):
    """Why a job is in its state: keywords of RFC 8011 section 5.3.8 where it has one, else our own."""

    WAITS_FOR_JOBS = "waits-for-jobs"
    QUEUED = "job-queued"
    TRIED_AGAIN = "tried-again"
    RUNNING = "job-transforming"
    STOPPING = "processing-to-stop-point"
    COMPLETED = "job-completed-successfully"
    REUSED = "made-before"
    REFUSED = "refused"
    FAILED = "aborted-by-system"
    WORKER_LOST = "worker-lost"
    CANCELED = "job-canceled-by-user"
    EARLIER_FAILED = "job-it-waits-for-failed"


class Role(StrEnum):
    """Who a token speaks for."""

    MAKER = "maker"
    ASSISTANT = "assistant"


class Base(DeclarativeBase):
    """Gives every constraint a name, so that migrations can speak of it on both databases."""

    metadata = MetaData(
        naming_convention={
            "ix": "ix_%(table_name)s_%(column_0_N_name)s",
            "uq": "uq_%(table_name)s_%(column_0_N_name)s",
            "fk": "fk_%(table_name)s_%(column_0_N_name)s",
            "pk": "pk_%(table_name)s",
        }
    )
    type_annotation_map: ClassVar = {
        datetime: UtcDateTime,
        dict[str, Any]: JSON(none_as_null=True),
        list[str]: JSON(none_as_null=True),
        list[dict[str, Any]]: JSON(none_as_null=True),
        list[list[str | None]]: JSON(none_as_null=True),
    }


class Series(Base):
    """A run of projects with a rule for their release. `rule` and `release` are the series' own JSON."""

    __tablename__ = "series"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    title: Mapped[str] = mapped_column(Text)
    rule: Mapped[dict[str, Any]] = mapped_column(default=dict)
    release: Mapped[dict[str, Any]] = mapped_column(default=dict)
    revision: Mapped[int] = mapped_column(default=1)
    etag: Mapped[str] = mapped_column(String(80), default="")
    created_at: Mapped[datetime]
    updated_at: Mapped[datetime]


class Project(Base):
    """A project document and where it stands: its series, and the date from which it may be seen."""

    __tablename__ = "project"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    series_id: Mapped[str | None] = mapped_column(ForeignKey("series.id"), index=True)
    title: Mapped[str] = mapped_column(Text, default="")
    release: Mapped[date | None] = mapped_column(index=True)
    revision: Mapped[int] = mapped_column(default=1)
    document: Mapped[dict[str, Any]]
    etag: Mapped[str] = mapped_column(String(80), default="")
    created_at: Mapped[datetime]
    updated_at: Mapped[datetime]


class Material(Base):
    """A fabric, thread, batting or the like that the studio keeps; `data` is its own JSON."""

    __tablename__ = "material"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    name: Mapped[str] = mapped_column(Text)
    kind: Mapped[str] = mapped_column(String(40))
    data: Mapped[dict[str, Any]] = mapped_column(default=dict)
    revision: Mapped[int] = mapped_column(default=1)
    etag: Mapped[str] = mapped_column(String(80), default="")
    created_at: Mapped[datetime]
    updated_at: Mapped[datetime]


class Outline(Base):
    """An uploaded outline file as it was read. `stored` is the JSON that jobs get, notes included."""

    __tablename__ = "outline"
    __table_args__ = (UniqueConstraint("project_id", "name"),)

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    project_id: Mapped[str] = mapped_column(ForeignKey("project.id", ondelete="CASCADE"))
    name: Mapped[str] = mapped_column(Text)
    sha256: Mapped[str] = mapped_column(SHA256)
    stored: Mapped[dict[str, Any]]
    notes: Mapped[list[str]] = mapped_column(default=list)
    created_at: Mapped[datetime]


class Swatch(Base):
    """A photograph of a cloth; the picture lies in the file store under its sha256. `stored` is what jobs get."""

    __tablename__ = "swatch"
    __table_args__ = (UniqueConstraint("project_id", "name"),)

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    project_id: Mapped[str] = mapped_column(ForeignKey("project.id", ondelete="CASCADE"))
    name: Mapped[str] = mapped_column(Text)
    sha256: Mapped[str] = mapped_column(SHA256)
    stored: Mapped[dict[str, Any]]
    created_at: Mapped[datetime]


class Wording(Base):
    """The maker's own text for one step, and the computed text it was written beside."""

    __tablename__ = "wording"

    project_id: Mapped[str] = mapped_column(ForeignKey("project.id", ondelete="CASCADE"), primary_key=True)
    track: Mapped[str] = mapped_column(Text, primary_key=True)
    step_id: Mapped[str] = mapped_column(Text, primary_key=True)
    text: Mapped[str] = mapped_column(Text)
    computed_text: Mapped[str] = mapped_column(Text, default="")
    updated_at: Mapped[datetime]


class Tip(Base):
    """The maker's tip before or after a step, and the computed text of the step it was written for.

    `track` is empty for a tip that stands in every track which has the step.
    """

    __tablename__ = "tip"

    project_id: Mapped[str] = mapped_column(ForeignKey("project.id", ondelete="CASCADE"), primary_key=True)
    track: Mapped[str] = mapped_column(Text, primary_key=True)
    step_id: Mapped[str] = mapped_column(Text, primary_key=True)
    place: Mapped[str] = mapped_column(String(8), primary_key=True)
    text: Mapped[str] = mapped_column(Text)
    computed_text: Mapped[str] = mapped_column(Text, default="")
    updated_at: Mapped[datetime]


class Batch(Base):
    """Projects submitted together. Its state is derived from its jobs (`service.jobs.status`)."""

    __tablename__ = "batch"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    project_ids: Mapped[list[str]]
    series_id: Mapped[str | None] = mapped_column(ID)
    release: Mapped[date | None]
    kinds: Mapped[list[str]] = mapped_column(default=list)
    priority: Mapped[int] = mapped_column(default=5)
    last_event: Mapped[int] = mapped_column(default=0)
    cancel_requested: Mapped[bool] = mapped_column(default=False)
    created_at: Mapped[datetime] = mapped_column(index=True)


class Snapshot(Base):
    """One project as it was when its batch was submitted; later edits do not reach the batch.

    `plan` names every job the project needed then, as [kind, track], also those that were not asked for.
    """

    __tablename__ = "snapshot"
    __table_args__ = (UniqueConstraint("batch_id", "project_id"),)

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    batch_id: Mapped[str] = mapped_column(ForeignKey("batch.id", ondelete="CASCADE"))
    project_id: Mapped[str] = mapped_column(ID, index=True)
    revision: Mapped[int]
    release: Mapped[date | None]
    document: Mapped[dict[str, Any]]
    outlines: Mapped[dict[str, Any]] = mapped_column(default=dict)
    swatches: Mapped[dict[str, Any]] = mapped_column(default=dict)
    wording: Mapped[dict[str, Any]] = mapped_column(default=dict)
    tips: Mapped[list[dict[str, Any]]] = mapped_column(default=list)
    materials: Mapped[list[dict[str, Any]]] = mapped_column(default=list)
    plan: Mapped[list[list[str | None]]] = mapped_column(default=list)
    created_at: Mapped[datetime]


class Job(Base):
    """One thing to compute. Only `service.storage.batches` writes its state."""

    __tablename__ = "job"
    __table_args__ = (
        UniqueConstraint("snapshot_id", "kind", "track"),
        Index("ix_job_state_priority_ready_at", "state", "priority", "ready_at"),
        Index("ix_job_project_id_kind", "project_id", "kind"),
    )

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    batch_id: Mapped[str] = mapped_column(ForeignKey("batch.id", ondelete="CASCADE"), index=True)
    snapshot_id: Mapped[str] = mapped_column(ForeignKey("snapshot.id", ondelete="CASCADE"))
    project_id: Mapped[str] = mapped_column(ID)
    kind: Mapped[str] = mapped_column(String(40))
    track: Mapped[str | None] = mapped_column(Text)
    position: Mapped[int] = mapped_column(default=0)
    state: Mapped[str] = mapped_column(String(12))
    state_reasons: Mapped[list[str]] = mapped_column(default=list)
    message: Mapped[str] = mapped_column(Text, default="")
    problem: Mapped[dict[str, Any] | None]
    waits_for: Mapped[int] = mapped_column(default=0)
    attempt: Mapped[int] = mapped_column(default=0)
    owner: Mapped[str | None] = mapped_column(ID)
    lease_until: Mapped[datetime | None]
    priority: Mapped[int] = mapped_column(default=5)
    dispatched_at: Mapped[datetime | None]
    not_before: Mapped[datetime | None]
    progress_fraction: Mapped[float] = mapped_column(Double, default=0.0)
    progress_message: Mapped[str] = mapped_column(Text, default="")
    cancel_requested: Mapped[bool] = mapped_column(default=False)
    input_key: Mapped[str | None] = mapped_column(SHA256, index=True)
    created_at: Mapped[datetime]
    ready_at: Mapped[datetime | None]
    started_at: Mapped[datetime | None]
    finished_at: Mapped[datetime | None]


class JobEdge(Base):
    """`child_id` waits for `parent_id`."""

    __tablename__ = "job_edge"

    parent_id: Mapped[str] = mapped_column(ForeignKey("job.id", ondelete="CASCADE"), primary_key=True)
    child_id: Mapped[str] = mapped_column(
        ForeignKey("job.id", ondelete="CASCADE"), primary_key=True, index=True
    )


class Artifact(Base):
    """A file a job made; its bytes lie in the file store under their sha256."""

    __tablename__ = "artifact"
    __table_args__ = (UniqueConstraint("job_id", "name"),)

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    job_id: Mapped[str] = mapped_column(ForeignKey("job.id", ondelete="CASCADE"))
    project_id: Mapped[str] = mapped_column(ID, index=True)
    name: Mapped[str] = mapped_column(Text)
    kind: Mapped[str] = mapped_column(String(40))
    media_type: Mapped[str] = mapped_column(String(120))
    size: Mapped[int]
    sha256: Mapped[str] = mapped_column(SHA256)
    public: Mapped[bool] = mapped_column(default=True)
    created_at: Mapped[datetime]


class Event(Base):
    """What happened in a batch, numbered within it in the order in which it was committed."""

    __tablename__ = "event"

    batch_id: Mapped[str] = mapped_column(ForeignKey("batch.id", ondelete="CASCADE"), primary_key=True)
    seq: Mapped[int] = mapped_column(primary_key=True, autoincrement=False)
    job_id: Mapped[str | None] = mapped_column(ID)
    type: Mapped[str] = mapped_column(String(40))
    data: Mapped[dict[str, Any]] = mapped_column(default=dict)
    at: Mapped[datetime]


class Token(Base):
    """A key to the API. Only the sha256 of its secret is kept."""

    __tablename__ = "token"

    id: Mapped[str] = mapped_column(ID, primary_key=True)
    name: Mapped[str] = mapped_column(Text)
    role: Mapped[str] = mapped_column(String(12))
    sha256: Mapped[str] = mapped_column(SHA256, unique=True)
    created_at: Mapped[datetime]
    expires_at: Mapped[datetime | None]
    last_used_at: Mapped[datetime | None]
    revoked_at: Mapped[datetime | None]


class Idempotency(Base):
    """The answer given to a request with an Idempotency-Key, kept so that a repeat gets the same."""

    __tablename__ = "idempotency"

    token_id: Mapped[str] = mapped_column(ID, primary_key=True)
    key: Mapped[str] = mapped_column(String(255), primary_key=True)
    request_hash: Mapped[str] = mapped_column(SHA256)
    status: Mapped[int | None]
    body: Mapped[dict[str, Any] | None]
    created_at: Mapped[datetime]


class Beat(Base):
    """When a background loop (`dispatcher`) was last seen at work."""

    __tablename__ = "beat"

    name: Mapped[str] = mapped_column(String(40), primary_key=True)
    at: Mapped[datetime]
