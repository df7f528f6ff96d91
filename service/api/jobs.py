"""Jobs: one thing to make each."""

from __future__ import annotations

from typing import Any

from service.api.access import Circle
from service.api.problems import Problem, fault
from service.api.room import Answer, Room
from service.api.schemas.batches import JobSchema
from service.api.showing import look_again, show_job
from service.api.wake import wake
from service.api.wiring import now, parts
from service.jobs.retry import retry_job
from service.jobs.status import read_job
from service.storage.batch_state import OPEN
from service.storage.recovery import NotFailed

room = Room("jobs", __name__, description="One thing to make each.")


@room.route_to("/jobs/<id_>", "GET", Circle.STUDIO, Answer(200, JobSchema), refuses=(404,))
def get_job(id_: str) -> Any:
    """Show a job: its state, why it is in it, how far it is."""
    with parts().database.reading() as session:
        job = read_job(session, id_)
    return show_job(job, now()), look_again(ended=job.state not in OPEN)


@room.route_to("/jobs/<id_>/retry", "POST", Circle.STUDIO, Answer(202, JobSchema), refuses=(404, 409))
def post_retry(id_: str) -> Any:
    """Set a failed job going again, and with it the jobs that stopped because of it."""
    try:
        with parts().database.writing() as session:
            job = retry_job(session, id_, now=now())
    except NotFailed as why:
        detail = f"The job is {why.state}; only a job that failed (aborted) can be retried."
        right = (
            "Retry the job it waits for." if why.state == "stopped" else "Submit a new batch to make it anew."
        )
        raise Problem(409, detail, name="not-failed", errors=[fault(detail, right)]) from why
    wake(job.batch_id)
    location = {"Location": f"/api/v1/jobs/{job.id}"}
    return show_job(job, now()), {**location, **look_again(ended=False)}
