"""Sends a pending job's id to the workers. A message is only a wake-up: the job's row is the truth."""

from __future__ import annotations

from typing import Protocol

from celery import Celery

RUN_JOB = "batchbee.run_job"
"""The task's name, which is all the service knows of it."""
QUEUE = "work"


class Dispatch(Protocol):
    """Wakes a worker for a job. May be lost or come twice; neither does harm."""

    def send(self, job_id: str) -> None:
        """Send the id; an error means that it was not sent."""
        ...


class CeleryDispatch:
    """Sends through Celery by the task's name, so that nobody here imports a worker."""

    def __init__(self, app: Celery) -> None:
        self._app = app

    def send(self, job_id: str) -> None:
        """Publish the id once; the dispatcher comes back to jobs whose message was lost."""
        self._app.send_task(RUN_JOB, args=(job_id,), queue=QUEUE, retry=False)
