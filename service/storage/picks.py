"""Chooses which pending jobs are sent to the workers next. It moves no job: it notes when one was sent."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from sqlalchemy import ColumnElement, and_, func, or_, select, update
from sqlalchemy.orm import Session

from service.storage.models import Beat, Job, JobState
from service.storage.session import Database

STUCK_AFTER = timedelta(seconds=15)
LOOKED_AT = 2000
"""How many waiting jobs are put in order at once."""


@dataclass(frozen=True)
class Waiting:
    """A job that can be sent. A smaller `priority` is more urgent."""

    id: str
    project_id: str
    priority: int
    ready_at: datetime
    position: int = 0


def order_by_turn(waiting: Iterable[Waiting], under_way: Mapping[str, int], now: datetime) -> list[Waiting]:
    """The most urgent first; among equals every project in turn; then the oldest.

    A job grows more urgent by one for each minute it waits, so none waits for ever. `under_way` counts
    the jobs of each project that are sent or running: a project with many of them is behind one with few.
    """
    turns = Counter(under_way)
    keyed = []
    for job in sorted(waiting, key=lambda job: (_urgency(job, now), job.ready_at, job.position, job.id)):
        keyed.append((_urgency(job, now), turns[job.project_id], job.ready_at, job.position, job.id, job))
        turns[job.project_id] += 1
    return [entry[-1] for entry in sorted(keyed, key=lambda entry: entry[:-1])]


def _urgency(job: Waiting, now: datetime) -> int:
    return max(0, job.priority - int((now - job.ready_at).total_seconds() // 60))


def pick(database: Database, *, now: datetime, window: int, patience: timedelta) -> list[str]:
    """The ids to send now, noted as sent. At most `window` are under way, so that order is decided late.

    A message that led to nothing for the length of `patience` may be lost, and is sent again. That does no
    harm when it was not: the second one finds its job taken.
    """
    lost_before = now - patience
    with database.reading() as session:
        waiting = _read_waiting(session, now, lost_before)
        if not waiting:
            return []
        under_way = _count_under_way(session, lost_before)
    room = window - sum(under_way.values())
    if room <= 0:
        return []
    chosen = [job.id for job in order_by_turn(waiting, under_way, now)[:room]]
    with database.writing() as session:
        taken = _note_sent(session, chosen, now, lost_before)
    return [id_ for id_ in chosen if id_ in taken]


def unpick(database: Database, job_ids: Sequence[str]) -> None:
    """Sending failed: the jobs are to be picked again."""
    with database.writing() as session:
        session.execute(
            update(Job)
            .where(Job.id.in_(job_ids), Job.state == JobState.PENDING)
            .values(dispatched_at=None)
            .execution_options(synchronize_session=False)
        )


def note_beat(database: Database, name: str, now: datetime) -> None:
    """Note that a background loop is at work."""
    with database.writing() as session:
        session.merge(Beat(name=name, at=now))


def read_beat(session: Session, name: str) -> datetime | None:
    """When a background loop was last at work; None if it never was."""
    return session.scalar(select(Beat.at).where(Beat.name == name))


def _read_waiting(session: Session, now: datetime, lost_before: datetime) -> list[Waiting]:
    query = (
        select(Job.id, Job.project_id, Job.priority, Job.ready_at, Job.position)
        .where(Job.state == JobState.PENDING, _can_be_sent(now, lost_before))
        .order_by(Job.priority, Job.ready_at)
        .limit(LOOKED_AT)
    )
    return [
        Waiting(id_, project, priority, ready or now, place)
        for id_, project, priority, ready, place in session.execute(query)
    ]


def _can_be_sent(now: datetime, lost_before: datetime) -> ColumnElement[bool]:
    unsent = or_(Job.dispatched_at.is_(None), Job.dispatched_at < lost_before)
    return and_(unsent, or_(Job.not_before.is_(None), Job.not_before <= now))


def _count_under_way(session: Session, lost_before: datetime) -> dict[str, int]:
    sent = and_(Job.state == JobState.PENDING, Job.dispatched_at >= lost_before)
    query = select(Job.project_id, func.count()).where(or_(Job.state == JobState.PROCESSING, sent))
    return {row[0]: row[1] for row in session.execute(query.group_by(Job.project_id))}


def _note_sent(session: Session, job_ids: Sequence[str], now: datetime, lost_before: datetime) -> set[str]:
    """On PostgreSQL several dispatchers may choose the same jobs: each row goes to the first to lock it."""
    free = select(Job.id).where(
        Job.id.in_(job_ids), Job.state == JobState.PENDING, _can_be_sent(now, lost_before)
    )
    locked = session.scalars(free.with_for_update(skip_locked=True)).all()
    session.execute(
        update(Job)
        .where(Job.id.in_(locked))
        .values(dispatched_at=now)
        .execution_options(synchronize_session=False)
    )
    return set(locked)


def looks_stuck(session: Session, now: datetime) -> bool:
    """Whether jobs were sent long ago and nothing happens: the worker is there but takes no messages.

    A pool whose child was killed while it waited for work is left with a lock that nobody opens again, and
    workers have stopped taking messages after a broker came back (issues of Celery). A restart helps, and
    harms nobody: nothing is running.
    """
    long_ago = now - STUCK_AFTER
    waits = and_(
        Job.state == JobState.PENDING,
        Job.ready_at < long_ago,
        Job.dispatched_at.is_not(None),
        or_(Job.not_before.is_(None), Job.not_before < long_ago),
    )
    moves = or_(Job.state == JobState.PROCESSING, Job.started_at >= long_ago, Job.finished_at >= long_ago)
    first = select(Job.id).limit(1)
    return session.scalar(first.where(waits)) is not None and session.scalar(first.where(moves)) is None
