"""The only writer of a job's state (with `service.storage.recovery`, which acts from outside a run).

    held        -> pending      the last job it waited for completed        `complete`
    held        -> stopped      a job it waits for aborted                  `refuse`, `fail`, `sweep`
    pending     -> processing   a worker took it                            `claim`
    processing  -> completed    its files are stored                        `complete`
    processing  -> aborted      the input cannot be made into anything      `refuse`
    processing  -> aborted      it failed as often as it may                `fail`, `sweep`
    processing  -> pending      it failed, or its worker was lost           `fail`, `sweep`, `reset`
    processing  -> canceled     the run saw that it was canceled            `give_up`, `fail`, `sweep`
    held, pending, stopped -> canceled                                      `cancel`
    aborted     -> pending      somebody asks for another try               `retry`
    stopped     -> held         the job it waits for is tried again         `retry`

Each function is one short transaction's worth of work in the session it is given. A run is known by its
`owner`, an id made for that run alone: once the job has gone to another run, everything the old one still
says is answered with `Fenced` and changes nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from enum import Enum

from sqlalchemy import ColumnElement, and_, or_, select, update
from sqlalchemy.orm import Session

from service.storage.job_moves import (
    UNOWNED,
    Moved,
    add_event,
    make_pending,
    move,
    name_of,
    release_waiting,
    stop_waiting,
    take_batch_of,
    tell_if_ended,
)
from service.storage.models import Artifact, Job, JobState, Reason
from service.storage.times import uuid7


class Fenced(Exception):
    """The job belongs to another run by now, or is no longer processing; nothing was changed."""

    def __init__(self, job_id: str) -> None:
        super().__init__(f"job {job_id} no longer belongs to this run")


class Pulse(Enum):
    """What a run is told when it says that it is alive."""

    GO_ON = "go on"
    CANCEL = "cancel"
    FENCED = "fenced"


@dataclass(frozen=True)
class StoredFile:
    """A made file whose bytes are in the file store."""

    name: str
    kind: str
    media_type: str
    sha256: str
    size: int
    public: bool


def claim(
    session: Session, job_id: str, *, owner: str, now: datetime, lease: timedelta, cap: int
) -> Moved | None:
    """Take a job for the run `owner`; None when there is nothing to do: taken, ended, or not yet due.

    A job whose worker has been silent past its lease is taken over, if it has a try left.
    """
    if take_batch_of(session, job_id) is None:
        return None
    due = or_(Job.not_before.is_(None), Job.not_before <= now)
    silent = and_(Job.state == JobState.PROCESSING, Job.lease_until < now, Job.attempt < cap)
    return move(
        session,
        job_id,
        or_(and_(Job.state == JobState.PENDING, due), and_(silent, Job.cancel_requested.is_(False))),
        to=JobState.PROCESSING,
        reason=Reason.RUNNING,
        message="Being made.",
        now=now,
        owner=owner,
        lease_until=now + lease,
        attempt=Job.attempt + 1,
        started_at=now,
        progress_fraction=0.0,
        progress_message="",
    )


def heartbeat(
    session: Session,
    job_id: str,
    *,
    owner: str,
    now: datetime,
    lease: timedelta,
    fraction: float,
    message: str,
) -> Pulse:
    """Keep the lease and note the progress; the answer says whether the run still has its job."""
    canceled = session.scalar(
        update(Job)
        .where(Job.id == job_id, Job.owner == owner, Job.state == JobState.PROCESSING)
        .values(lease_until=now + lease, progress_fraction=fraction, progress_message=message)
        .returning(Job.cancel_requested)
        .execution_options(synchronize_session=False)
    )
    if canceled is None:
        return Pulse.FENCED
    return Pulse.CANCEL if canceled else Pulse.GO_ON


def complete(
    session: Session,
    job_id: str,
    *,
    owner: str,
    files: Sequence[StoredFile],
    input_key: str,
    now: datetime,
    reused: bool = False,
) -> list[str]:
    """Finish a job with its files and free what waited for it; the ids of the jobs that became pending."""
    moved = _end(
        session,
        job_id,
        owner,
        to=JobState.COMPLETED,
        reason=Reason.REUSED if reused else Reason.COMPLETED,
        message="Taken from an earlier batch, where it was made from the same." if reused else "Made.",
        now=now,
        input_key=input_key,
        progress_fraction=1.0,
        progress_message="",
    )
    session.add_all(
        Artifact(
            id=uuid7(now),
            job_id=job_id,
            project_id=moved.project_id,
            name=file.name,
            kind=file.kind,
            media_type=file.media_type,
            size=file.size,
            sha256=file.sha256,
            public=file.public,
            created_at=now,
        )
        for file in files
    )
    session.flush()
    freed = release_waiting(session, job_id, now)
    tell_if_ended(session, moved.batch_id, now)
    return freed


def refuse(
    session: Session, job_id: str, *, owner: str, detail: str, pointer: str, right: str, now: datetime
) -> None:
    """End a job that cannot be done with its input, whoever tries; it is not tried again by itself."""
    problem = {"detail": detail, "pointer": pointer, "right": right}
    _abort(session, job_id, owner, Reason.REFUSED, detail, problem, now)


def fail(
    session: Session,
    job_id: str,
    *,
    owner: str,
    detail: str,
    trace: str,
    now: datetime,
    cap: int,
    pause: timedelta,
) -> JobState:
    """A run broke: try again after `pause` times the tries so far, or give the job up at the cap."""
    take_batch_of(session, job_id)
    job = session.execute(
        select(Job.attempt, Job.cancel_requested, Job.batch_id).where(Job.id == job_id, Job.owner == owner)
    ).one_or_none()
    if job is None:
        raise Fenced(job_id)
    add_event(session, job.batch_id, "fault", {"detail": detail, "trace": trace}, now, job_id=job_id)
    if job.cancel_requested:
        give_up(session, job_id, owner=owner, now=now)
        return JobState.CANCELED
    if job.attempt < cap:
        message = f"Try {job.attempt} of {cap} failed ({detail}); it is tried again."
        _try_again(session, job_id, owner, message, now, not_before=now + pause * job.attempt)
        return JobState.PENDING
    message = f"Failed {job.attempt} times; the last time: {detail}"
    problem = {"detail": detail, "pointer": "", "right": "Retry the job; if it fails again, report its log."}
    _abort(session, job_id, owner, Reason.FAILED, message, problem, now)
    return JobState.ABORTED


def give_up(session: Session, job_id: str, *, owner: str, now: datetime) -> None:
    """End a run that saw that its job was canceled; `Fenced` when nobody canceled it."""
    moved = _end(
        session,
        job_id,
        owner,
        Job.cancel_requested.is_(True),
        to=JobState.CANCELED,
        reason=Reason.CANCELED,
        message="Canceled while it was being made.",
        now=now,
    )
    tell_if_ended(session, moved.batch_id, now)


def _end(
    session: Session,
    job_id: str,
    owner: str,
    *where: ColumnElement[bool],
    to: JobState,
    reason: Reason,
    message: str,
    now: datetime,
    **values: object,
) -> Moved:
    take_batch_of(session, job_id)
    mine = (Job.owner == owner, Job.state == JobState.PROCESSING, *where)
    values = {"finished_at": now, **UNOWNED, **values}
    moved = move(session, job_id, *mine, to=to, reason=reason, message=message, now=now, **values)
    if moved is None:
        raise Fenced(job_id)
    return moved


def _try_again(
    session: Session, job_id: str, owner: str, message: str, now: datetime, *, not_before: datetime
) -> None:
    mine = (Job.owner == owner, Job.state == JobState.PROCESSING)
    reason = Reason.TRIED_AGAIN
    if not make_pending(
        session, job_id, *mine, reason=reason, message=message, now=now, not_before=not_before
    ):
        raise Fenced(job_id)


def _abort(
    session: Session,
    job_id: str,
    owner: str,
    reason: Reason,
    message: str,
    problem: dict[str, str],
    now: datetime,
) -> None:
    to = JobState.ABORTED
    moved = _end(session, job_id, owner, to=to, reason=reason, message=message, now=now, problem=problem)
    stop_waiting(session, moved.id, name_of(moved.kind, moved.track), now)
    tell_if_ended(session, moved.batch_id, now)
