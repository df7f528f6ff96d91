"""Waking a worker for new jobs, where the application was given a way to."""

from __future__ import annotations

import logging

from sqlalchemy import select

from service.api.wiring import parts
from service.storage.models import Job, JobState

log = logging.getLogger(__name__)


def wake(batch_id: str) -> None:
    """Send the pending jobs of a batch to the workers; call it after the batch was committed.

    Only a quicker start hangs on it: the dispatcher finds jobs that were not sent.
    """
    dispatch = parts().dispatch
    if dispatch is None:
        return
    with parts().database.reading() as session:
        pending = select(Job.id).where(Job.batch_id == batch_id, Job.state == JobState.PENDING)
        ids = session.scalars(pending.order_by(Job.position)).all()
    try:
        for id_ in ids:
            dispatch.send(id_)
    except Exception as why:
        log.warning("no worker was woken for the batch %s: %s", batch_id, why)
