"""Changes of a job's state that come from outside its run: lost workers, cancel, retry.

The transitions stand in `service.storage.batches`.
"""

from __future__ import annotations

from datetime import datetime

from sqlalchemy import select, update
from sqlalchemy.orm import Session

from service.storage.job_moves import (
    UNOWNED,
    add_event,
    children_of,
    make_pending,
    move,
    name_of,
    stop_waiting,
    take_batch,
    take_batch_of,
    tell_if_ended,
)
from service.storage.models import Batch, Job, JobEdge, JobState, Reason
from service.storage.session import Database

SWEEP_AT_ONCE = 100
BLOCKED = (JobState.ABORTED, JobState.CANCELED, JobState.STOPPED)


class NotFound(LookupError):
    """There is no such thing under this id."""

    def __init__(self, what: str, id_: str) -> None:
        super().__init__(f"there is no {what} with the id {id_}")
        self.what = what
        self.id = id_


class NotFailed(Exception):
    """A retry was asked of a job that has not failed."""

    def __init__(self, job_id: str, state: str) -> None:
        super().__init__(f"job {job_id} is {state}; only an aborted job can be retried")
        self.job_id = job_id
        self.state = state


def sweep(database: Database, *, now: datetime, cap: int) -> int:
    """Take back every job whose worker has been silent past its lease; how many there were."""
    with database.reading() as session:
        silent = select(Job.id).where(Job.state == JobState.PROCESSING, Job.lease_until < now)
        lost = session.scalars(silent.order_by(Job.lease_until).limit(SWEEP_AT_ONCE)).all()
    taken = 0
    for job_id in lost:
        with database.writing() as session:
            taken += _take_back(session, job_id, now=now, cap=cap, even_leased=False)
    return taken


def reset(database: Database, *, now: datetime, cap: int) -> int:
    """Take back every job in progress, and send all waiting ones anew.

    Only right when every earlier worker is dead and the broker has forgotten what it held: at the start
    of the one embedded worker.
    """
    with database.writing() as session:
        session.execute(
            update(Job)
            .where(Job.state == JobState.PENDING, Job.dispatched_at.is_not(None))
            .values(dispatched_at=None)
            .execution_options(synchronize_session=False)
        )
        lost = session.scalars(select(Job.id).where(Job.state == JobState.PROCESSING)).all()
    for job_id in lost:
        with database.writing() as session:
            _take_back(session, job_id, now=now, cap=cap, even_leased=True)
    return len(lost)


def _take_back(session: Session, job_id: str, *, now: datetime, cap: int, even_leased: bool) -> bool:
    batch_id = take_batch_of(session, job_id)
    if batch_id is None:
        return False
    lost = [Job.state == JobState.PROCESSING]
    if not even_leased:
        lost.append(Job.lease_until < now)
    job = session.execute(
        select(Job.attempt, Job.cancel_requested).where(Job.id == job_id, *lost)
    ).one_or_none()
    if job is None:
        return False
    if job.cancel_requested:
        canceled = _cancel_one(session, job_id, now)
        tell_if_ended(session, batch_id, now)
        return canceled
    if job.attempt < cap:
        message = f"The worker of try {job.attempt} was lost; it is tried again."
        again = make_pending(session, job_id, *lost, reason=Reason.WORKER_LOST, message=message, now=now)
        return again is not None
    message = f"The worker was lost {job.attempt} times while making this."
    right = "Look for lack of memory or a time limit in the worker's log, then retry the job."
    moved = move(
        session,
        job_id,
        *lost,
        to=JobState.ABORTED,
        reason=Reason.WORKER_LOST,
        message=message,
        now=now,
        problem={"detail": message, "pointer": "", "right": right},
        finished_at=now,
        **UNOWNED,
    )
    if moved:
        stop_waiting(session, job_id, name_of(moved.kind, moved.track), now)
        tell_if_ended(session, moved.batch_id, now)
    return moved is not None


def cancel(session: Session, batch_id: str, *, now: datetime) -> int:
    """Cancel what has not ended: what waits at once, what runs at its next heartbeat. How many jobs."""
    take_batch(session, batch_id)
    known = session.scalar(
        update(Batch)
        .where(Batch.id == batch_id)
        .values(cancel_requested=True)
        .returning(Batch.id)
        .execution_options(synchronize_session=False)
    )
    if known is None:
        raise NotFound("batch", batch_id)
    in_batch = select(Job.id).where(Job.batch_id == batch_id).order_by(Job.id)
    waiting = in_batch.where(Job.state.in_((JobState.HELD, JobState.PENDING, JobState.STOPPED)))
    ended = sum(_cancel_one(session, job_id, now) for job_id in session.scalars(waiting).all())
    running = session.scalars(in_batch.where(Job.state == JobState.PROCESSING)).all()
    asked = sum(_ask_to_stop(session, job_id, now) for job_id in running)
    if ended and not asked:
        tell_if_ended(session, batch_id, now)
    return ended + asked


def _cancel_one(session: Session, job_id: str, now: datetime) -> bool:
    moved = move(
        session,
        job_id,
        Job.state.in_((JobState.HELD, JobState.PENDING, JobState.STOPPED, JobState.PROCESSING)),
        to=JobState.CANCELED,
        reason=Reason.CANCELED,
        message="Canceled.",
        now=now,
        finished_at=now,
        cancel_requested=True,
        **UNOWNED,
    )
    return moved is not None


def _ask_to_stop(session: Session, job_id: str, now: datetime) -> bool:
    asked = move(
        session,
        job_id,
        Job.state == JobState.PROCESSING,
        to=JobState.PROCESSING,
        reason=Reason.STOPPING,
        message="Canceled; stopping.",
        now=now,
        cancel_requested=True,
    )
    return asked is not None


def retry(session: Session, job_id: str, *, now: datetime) -> list[str]:
    """Set an aborted job going again, and with it what stopped because of it; the ids of all of them.

    `NotFailed` for a job in any other state, `NotFound` for no job.
    """
    batch_id = take_batch_of(session, job_id)
    if batch_id is None:
        raise NotFound("job", job_id)
    again = make_pending(
        session,
        job_id,
        Job.state == JobState.ABORTED,
        reason=Reason.QUEUED,
        message="Waiting for a worker, after a retry.",
        now=now,
        attempt=0,
        cancel_requested=False,
    )
    if again is None:
        state = session.scalar(select(Job.state).where(Job.id == job_id))
        raise NotFailed(job_id, str(state))
    add_event(session, batch_id, "retry", {}, now, job_id=job_id)
    return [job_id, *_hold_again(session, job_id, now)]


def _hold_again(session: Session, job_id: str, now: datetime) -> list[str]:
    """stopped -> held for each job that waits for this one and for no other that is blocked."""
    held = []
    for child in children_of(session, job_id):
        parents = (
            select(Job.state).join(JobEdge, JobEdge.parent_id == Job.id).where(JobEdge.child_id == child)
        )
        states = session.scalars(parents).all()
        if any(state in BLOCKED for state in states):
            continue
        moved = move(
            session,
            child,
            Job.state == JobState.STOPPED,
            to=JobState.HELD,
            reason=Reason.WAITS_FOR_JOBS,
            message="Waiting for other jobs.",
            now=now,
            waits_for=sum(state != JobState.COMPLETED for state in states),
        )
        if moved:
            held += [child, *_hold_again(session, child, now)]
    return held
