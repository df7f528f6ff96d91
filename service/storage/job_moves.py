"""What every change of a job's state is made of: the batch's turn, one conditional UPDATE, an event.

A transaction that moves a job takes its batch's row first. So the moves of one batch happen one after
another, counts of finished jobs are never lost, and events are numbered in the order they are committed.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, func, select, update
from sqlalchemy.orm import Session

from service.storage.batch_state import OPEN, derive_batch_state
from service.storage.models import Batch, Event, Job, JobEdge, JobState, Reason

UNOWNED: dict[str, Any] = {"owner": None, "lease_until": None}
"""What is cleared when a job leaves its worker."""


@dataclass(frozen=True)
class Moved:
    """A job that has just changed its state."""

    id: str
    batch_id: str
    project_id: str
    snapshot_id: str
    kind: str
    track: str | None
    attempt: int


def take_batch_of(session: Session, job_id: str) -> str | None:
    """Take the turn of the job's batch until the transaction ends; its id, or None for an unknown job."""
    batch_id = session.scalar(select(Job.batch_id).where(Job.id == job_id))
    if batch_id is not None:
        take_batch(session, batch_id)
    return batch_id


def take_batch(session: Session, batch_id: str) -> None:
    """Take the turn of a batch until the transaction ends. (SQLite has one writer at a time anyway.)"""
    session.execute(select(Batch.id).where(Batch.id == batch_id).with_for_update())


def move(
    session: Session,
    job_id: str,
    *where: ColumnElement[bool],
    to: JobState,
    reason: Reason,
    message: str,
    now: datetime,
    **values: Any,
) -> Moved | None:
    """Move one job if it still is as `where` says; None, and nothing changed, if it is not."""
    row = session.execute(
        update(Job)
        .where(Job.id == job_id, *where)
        .values(state=to, state_reasons=[reason], message=message, **values)
        .returning(Job.id, Job.batch_id, Job.project_id, Job.snapshot_id, Job.kind, Job.track, Job.attempt)
        .execution_options(synchronize_session=False)
    ).one_or_none()
    if row is None:
        return None
    moved = Moved(*row)
    tell(session, moved, to, reason, message, now)
    return moved


def tell(
    session: Session, moved: Moved, state: JobState, reason: Reason, message: str, now: datetime
) -> None:
    """Write the event of a move, and that of the batch when this was the last thing it waited for."""
    data: dict[str, Any] = {"state": state, "state_reasons": [reason], "message": message, "kind": moved.kind}
    data |= {"track": moved.track, "project": moved.project_id, "attempt": moved.attempt}
    add_event(session, moved.batch_id, "job", data, now, job_id=moved.id)


def tell_if_ended(session: Session, batch_id: str, now: datetime) -> None:
    """Write the batch's own event when none of its jobs can go on by itself."""
    counts = count_states(session, batch_id)
    if not any(counts.get(state, 0) for state in OPEN):
        data = {"state": derive_batch_state(counts), "counts": counts}
        add_event(session, batch_id, "batch", data, now)


def count_states(session: Session, batch_id: str) -> dict[str, int]:
    """How many jobs of a batch are in which state; states without a job are left out."""
    rows = session.execute(
        select(Job.state, func.count()).where(Job.batch_id == batch_id).group_by(Job.state)
    )
    return {str(state): count for state, count in rows}


def add_event(
    session: Session,
    batch_id: str,
    type_: str,
    data: dict[str, Any],
    now: datetime,
    *,
    job_id: str | None = None,
) -> None:
    """Write an event under the batch's next number."""
    number = session.scalar(
        update(Batch)
        .where(Batch.id == batch_id)
        .values(last_event=Batch.last_event + 1)
        .returning(Batch.last_event)
        .execution_options(synchronize_session=False)
    )
    session.add(Event(batch_id=batch_id, seq=number, job_id=job_id, type=type_, data=data, at=now))
    session.flush()


def children_of(session: Session, job_id: str) -> Sequence[str]:
    """The jobs that wait for this one."""
    query = select(JobEdge.child_id).where(JobEdge.parent_id == job_id).order_by(JobEdge.child_id)
    return session.scalars(query).all()


def release_waiting(session: Session, job_id: str, now: datetime) -> list[str]:
    """A job completed: held -> pending for each job that waited for it and for nothing else any more."""
    children = children_of(session, job_id)
    session.execute(
        update(Job)
        .where(Job.id.in_(children))
        .values(waits_for=Job.waits_for - 1)
        .execution_options(synchronize_session=False)
    )
    freed = []
    for child in children:
        where = (Job.state == JobState.HELD, Job.waits_for == 0)
        if make_pending(
            session, child, *where, reason=Reason.QUEUED, message="Waiting for a worker.", now=now
        ):
            freed.append(child)
    return freed


def make_pending(
    session: Session,
    job_id: str,
    *where: ColumnElement[bool],
    reason: Reason,
    message: str,
    now: datetime,
    **values: Any,
) -> Moved | None:
    """Put a job into the queue, to be sent to a worker anew."""
    fresh: dict[str, Any] = {"dispatched_at": None, "ready_at": now, "not_before": None, "finished_at": None}
    fresh |= {"progress_fraction": 0.0, "progress_message": "", "problem": None}
    return move(
        session,
        job_id,
        *where,
        to=JobState.PENDING,
        reason=reason,
        message=message,
        now=now,
        **(fresh | UNOWNED | values),
    )


def stop_waiting(session: Session, job_id: str, what: str, now: datetime) -> None:
    """A job aborted: held -> stopped for every job that waits for it, directly or through others."""
    for child in children_of(session, job_id):
        stopped = move(
            session,
            child,
            Job.state == JobState.HELD,
            to=JobState.STOPPED,
            reason=Reason.EARLIER_FAILED,
            message=f"Cannot go on: {what} failed. Retry that job to set this one going again.",
            now=now,
        )
        if stopped:
            stop_waiting(session, child, what, now)


def name_of(kind: str, track: str | None) -> str:
    """A job in words, for messages.

    >>> name_of("handout", "by hand"), name_of("cutting", None)
    ('the handout for “by hand”', 'the cutting')
    """
    return f"the {kind} for “{track}”" if track else f"the {kind}"
