"""Does one job from claim to completion. Called once or ten times for the same job, it is done once."""

from __future__ import annotations

import logging
import traceback
from collections.abc import Iterable
from datetime import timedelta
from enum import Enum
from uuid import uuid4

from celery.exceptions import SoftTimeLimitExceeded

from service.storage import batches
from service.storage.batches import Fenced, Pulse, StoredFile
from service.storage.job_moves import Moved
from workers.queue.context import Context
from workers.queue.gather import find_made, gather
from workers.queue.heart import Heart, StopRun
from workers.queue.limits import SOFT_LIMIT_SECONDS, run_down
from workers.queue.recipes import find_recipe
from workers.recipe import CannotMake, MadeFile

PAUSE_AFTER_FAULT = timedelta(seconds=2)
"""Times the number of tries so far."""

log = logging.getLogger(__name__)


class Outcome(Enum):
    """What came of a message."""

    NOT_OURS = "somebody else has the job, or it needs nothing"
    MADE = "made"
    REUSED = "taken from an earlier batch"
    REFUSED = "the input cannot be made into anything"
    FAILED = "broke; tried again or given up"
    CANCELED = "canceled"
    FENCED = "the job went to another run; the result was dropped"


def run_job(context: Context, job_id: str) -> Outcome:
    """Claim the job, compute, store, finish. Only trouble with the database itself is raised."""
    owner = str(uuid4())
    lease = timedelta(seconds=context.settings.lease_seconds)
    cap = context.settings.attempt_cap
    with context.database.writing() as session:
        job = batches.claim(session, job_id, owner=owner, now=context.clock(), lease=lease, cap=cap)
    if job is None:
        return Outcome.NOT_OURS
    log.info("job %s: %s %s, try %d", job.id, job.kind, job.track or "", job.attempt)
    return _Run(context, job, owner, lease).go()


def describe(why: Exception) -> str:
    """An unforeseen fault in one line.

    >>> describe(MemoryError()), describe(ValueError("no such bed"))
    ('there was not enough memory', 'ValueError: no such bed')
    """
    if isinstance(why, SoftTimeLimitExceeded):
        return f"it took longer than {SOFT_LIMIT_SECONDS} s"
    if isinstance(why, MemoryError):
        return "there was not enough memory"
    return f"{type(why).__name__}: {why}" if str(why) else type(why).__name__


class _Run:
    """One try at one job, known to the database by `owner`."""

    def __init__(self, context: Context, job: Moved, owner: str, lease: timedelta) -> None:
        self._context = context
        self._job = job
        self._owner = owner
        self._lease = lease

    def go(self) -> Outcome:
        """Compute, and say to the database how it ended."""
        heart = Heart(self._beat, self._lease.total_seconds())
        try:
            return self._go(heart)
        except Fenced:
            return Outcome.FENCED

    def _go(self, heart: Heart) -> Outcome:
        try:
            with heart:
                return self._make(heart)
        except StopRun:
            return self._stopped(heart.verdict)
        except CannotMake as why:
            return self._refused(why)
        except Fenced:
            raise
        except Exception as why:
            return self._failed(why)

    def _make(self, heart: Heart) -> Outcome:
        context = self._context
        with context.database.reading() as session:
            gathered = gather(session, self._job)
            key = gathered.name(context.code)
            earlier = find_made(session, context.store, key)
        if earlier is not None:
            self._complete(earlier, key, reused=True)
            return Outcome.REUSED
        recipe = find_recipe(context.recipes, self._job.kind)
        job_input = gathered.open(context.store, heart.note, run_down())
        with heart.computing():
            made = recipe(job_input)
        self._complete(self._store(made), key, reused=False)
        return Outcome.MADE

    def _store(self, made: Iterable[MadeFile]) -> list[StoredFile]:
        files = []
        for file in made:
            kept = self._context.store.put(file.data)
            files.append(
                StoredFile(file.name, file.kind, file.media_type, kept.sha256, kept.size, file.public)
            )
        return files

    def _complete(self, files: list[StoredFile], key: str, *, reused: bool) -> None:
        with self._context.database.writing() as session:
            batches.complete(
                session,
                self._job.id,
                owner=self._owner,
                files=files,
                input_key=key,
                now=self._context.clock(),
                reused=reused,
            )

    def _beat(self, fraction: float, message: str) -> Pulse:
        with self._context.database.writing() as session:
            return batches.heartbeat(
                session,
                self._job.id,
                owner=self._owner,
                now=self._context.clock(),
                lease=self._lease,
                fraction=fraction,
                message=message,
            )

    def _stopped(self, verdict: Pulse) -> Outcome:
        if verdict is not Pulse.CANCEL:
            return Outcome.FENCED
        with self._context.database.writing() as session:
            batches.give_up(session, self._job.id, owner=self._owner, now=self._context.clock())
        return Outcome.CANCELED

    def _refused(self, why: CannotMake) -> Outcome:
        with self._context.database.writing() as session:
            batches.refuse(
                session,
                self._job.id,
                owner=self._owner,
                detail=why.detail,
                pointer=why.pointer,
                right=why.right,
                now=self._context.clock(),
            )
        return Outcome.REFUSED

    def _failed(self, why: Exception) -> Outcome:
        log.warning("job %s broke on try %d", self._job.id, self._job.attempt, exc_info=why)
        with self._context.database.writing() as session:
            batches.fail(
                session,
                self._job.id,
                owner=self._owner,
                detail=describe(why),
                trace="".join(traceback.format_exception(why)),
                now=self._context.clock(),
                cap=self._context.settings.attempt_cap,
                pause=PAUSE_AFTER_FAULT,
            )
        return Outcome.FAILED
