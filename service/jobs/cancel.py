"""Cancels a batch: what waits ends at once, what runs ends when its run next looks up."""

from __future__ import annotations

from datetime import datetime

from sqlalchemy.orm import Session

from service.jobs.status import BatchStatus, read_batch
from service.storage import recovery


def cancel_batch(session: Session, batch_id: str, *, now: datetime) -> BatchStatus:
    """Cancel everything in a batch that has not ended; harmless when nothing is left. `NotFound`."""
    recovery.cancel(session, batch_id, now=now)
    session.expire_all()
    return read_batch(session, batch_id)
