"""Sets a failed job going again, and with it the jobs that stopped because of it."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy.orm import Session

from service.jobs.status import read_job
from service.storage import recovery
from service.storage.models import Job


def retry_job(session: Session, job_id: str, *, now: datetime) -> Job:
    """Give an aborted job its tries anew. `recovery.NotFailed` for any other state, `NotFound` for none."""
    recovery.retry(session, job_id, now=now)
    session.expire_all()
    return read_job(session, job_id)
