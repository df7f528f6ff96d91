"""Batches and jobs as they stand in answers."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from service.api.paging import format_time
from service.jobs.status import BatchStatus, queue_seconds, run_seconds
from service.storage.batch_state import OPEN
from service.storage.models import Batch, Job, JobState

LOOK_AGAIN_SECONDS = 1


def show_job(job: Job, now: datetime) -> dict[str, Any]:
    """A job, how far it is, and what can be done with it."""
    links = {"self": f"/api/v1/jobs/{job.id}", "batch": f"/api/v1/batches/{job.batch_id}"}
    if job.state == JobState.ABORTED:
        links["retry"] = f"/api/v1/jobs/{job.id}/retry"
    return {
        "id": job.id,
        "kind": job.kind,
        "project": job.project_id,
        "batch": job.batch_id,
        "track": job.track,
        "state": str(job.state),
        "reasons": list(job.state_reasons),
        "message": job.message,
        "problem": _show_problem(job),
        "attempt": job.attempt,
        "progress": {"fraction": job.progress_fraction, "message": job.progress_message},
        "queue_seconds": _rounded(queue_seconds(job, now)),
        "run_seconds": _rounded(run_seconds(job, now)),
        "links": links,
    }


def show_card(batch: Batch, state: str) -> dict[str, Any]:
    """A batch in a list."""
    itself = f"/api/v1/batches/{batch.id}"
    links = {"self": itself, "events": f"{itself}/events"}
    if state in OPEN:
        links["cancel"] = f"{itself}/cancel"
    return {
        "id": batch.id,
        "state": str(state),
        "projects": list(batch.project_ids),
        "series": batch.series_id,
        "release": batch.release.isoformat() if batch.release else None,
        "created": format_time(batch.created_at),
        "links": links,
    }


def show_batch(status: BatchStatus, now: datetime) -> dict[str, Any]:
    """A batch with its jobs."""
    return {
        **show_card(status.batch, status.state),
        "counts": {str(state): count for state, count in status.counts.items()},
        "fraction_done": status.fraction_done,
        "jobs": [show_job(job, now) for job in status.jobs],
    }


def look_again(*, ended: bool) -> dict[str, str]:
    """The header that says when to ask again, for answers that are not final."""
    return {} if ended else {"Retry-After": str(LOOK_AGAIN_SECONDS)}


def _show_problem(job: Job) -> dict[str, str] | None:
    if job.problem is None or job.state != JobState.ABORTED:
        return None
    return {name: str(job.problem.get(name, "")) for name in ("detail", "pointer", "right")}


def _rounded(seconds: float | None) -> float | None:
    return None if seconds is None else round(seconds, 3)
