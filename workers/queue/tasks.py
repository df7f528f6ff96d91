"""The door through which Celery comes in."""

from __future__ import annotations

from functools import cache

from service.jobs.dispatch import RUN_JOB
from workers.queue.celery_app import app, settings
from workers.queue.context import Context
from workers.queue.run_job import run_job


@cache
def context() -> Context:
    """The context of this process; opened in the worker's main process and inherited unconnected."""
    return Context.open(settings)


@app.task(name=RUN_JOB)  # type: ignore[untyped-decorator]
def run(job_id: str) -> None:
    """Do one job; everything worth knowing about it is written to its row."""
    run_job(context(), job_id)
