"""How far a batch is: counts, one fraction, and each job's state with its reason."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.storage.batch_state import OPEN, derive_batch_state
from service.storage.job_moves import count_states
from service.storage.models import Artifact, Batch, Event, Job, JobState, Snapshot
from service.storage.recovery import NotFound


@dataclass(frozen=True)
class BatchStatus:
    """A batch and its jobs at one moment. `fraction_done` is 0 to 1, a running job counting in part."""

    batch: Batch
    state: JobState
    counts: dict[str, int]
    fraction_done: float
    jobs: Sequence[Job]

    @property
    def ended(self) -> bool:
        """True when nothing more happens by itself."""
        return not any(self.counts.get(state, 0) for state in OPEN)


def read_batch(session: Session, batch_id: str) -> BatchStatus:
    """A batch with all of its jobs, in the order they were planned; `NotFound` if there is none."""
    batch = session.get(Batch, batch_id)
    if batch is None:
        raise NotFound("batch", batch_id)
    jobs = session.scalars(select(Job).where(Job.batch_id == batch_id).order_by(Job.position)).all()
    counts = {state.value: 0 for state in JobState}
    for job in jobs:
        counts[job.state] += 1
    return BatchStatus(batch, derive_batch_state(counts), counts, _fraction_done(jobs), jobs)


def read_batch_state(session: Session, batch_id: str) -> JobState:
    """The state of a batch alone, for lists of many."""
    return derive_batch_state(count_states(session, batch_id))


def read_job(session: Session, job_id: str) -> Job:
    """One job; `NotFound` if there is none."""
    job = session.get(Job, job_id)
    if job is None:
        raise NotFound("job", job_id)
    return job


def read_events(session: Session, batch_id: str, *, after: int = 0, limit: int = 500) -> Sequence[Event]:
    """What happened in a batch after the event numbered `after`, oldest first."""
    query = select(Event).where(Event.batch_id == batch_id, Event.seq > after)
    return session.scalars(query.order_by(Event.seq).limit(limit)).all()


def read_project_artifacts(session: Session, project_id: str) -> Sequence[Artifact]:
    """The newest files of a project: for each kind of job and track, those of the last one completed.

    What the project no longer needed when it was last submitted (a track that was renamed) is left out.
    """
    snapshots = select(Snapshot).where(Snapshot.project_id == project_id)
    last = session.scalars(
        snapshots.order_by(Snapshot.created_at.desc(), Snapshot.id.desc()).limit(1)
    ).one_or_none()
    needed = {(kind, track) for kind, track in last.plan} if last else set()
    jobs = (
        select(Job.id, Job.kind, Job.track)
        .where(Job.project_id == project_id, Job.state == JobState.COMPLETED)
        .order_by(Job.finished_at, Job.id)
    )
    newest = {(kind, track): id_ for id_, kind, track in session.execute(jobs) if (kind, track) in needed}
    files = select(Artifact).where(Artifact.job_id.in_(newest.values())).order_by(Artifact.name, Artifact.id)
    return session.scalars(files).all()


def queue_seconds(job: Job, now: datetime) -> float | None:
    """How long the job's last try waited for a worker; None while it waits for other jobs."""
    if job.ready_at is None:
        return None
    begun = job.started_at if job.started_at and job.started_at >= job.ready_at else job.finished_at or now
    return max(0.0, (begun - job.ready_at).total_seconds())


def run_seconds(job: Job, now: datetime) -> float | None:
    """How long the job's last try has been running, or ran; None before it was begun."""
    if job.started_at is None or job.state == JobState.PENDING:
        return None
    return max(0.0, ((job.finished_at or now) - job.started_at).total_seconds())


def _fraction_done(jobs: Sequence[Job]) -> float:
    done = sum(1.0 if job.state == JobState.COMPLETED else _part(job) for job in jobs)
    return round(done / len(jobs), 4) if jobs else 1.0


def _part(job: Job) -> float:
    return min(max(job.progress_fraction, 0.0), 1.0) if job.state == JobState.PROCESSING else 0.0
