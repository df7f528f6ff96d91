"""The steps viewers follow, one list a track."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from flask import jsonify
from sqlalchemy.orm import Session

from service.api.access import Circle
from service.api.problems import Problem, fault
from service.api.room import Answer, Room
from service.api.schemas.projects import StepList, StepsLater
from service.api.schemas.steps import OwnSteps, TrackQuery
from service.api.tags import found
from service.api.wake import wake
from service.api.wiring import now, parts
from service.craft.tracks import Track
from service.storage.batch_state import OPEN
from service.storage.models import Job, JobState, Project
from service.studio.steps import (
    Computed,
    NoSuchStep,
    NoSuchTrack,
    find_sewing_job,
    find_track,
    keep_wording,
    order_steps,
    read_computed,
    show_steps,
)
from service.studio.tips import find_strange, keep_tips

WAIT_SECONDS = 8.0
LOOK_EVERY_SECONDS = 0.2

room = Room("steps", __name__, description="The steps of a track, and the maker's own words for them.")


@room.route_to(
    "/projects/<id_>/steps",
    "GET",
    Circle.STUDIO,
    Answer(200, StepList),
    Answer(202, StepsLater, words="They are being computed; ask again after Retry-After seconds."),
    query=TrackQuery,
    refuses=(404, 409),
)
def get_steps(query: dict[str, Any], id_: str) -> Any:
    """Show the steps of a track, with the maker's own words beside the computed text.

    Where they were not computed for the present state of the project, that is begun now.
    """
    job = _wait_for_job(id_, query["track"])
    if job.state in OPEN:
        later = {"detail": "The steps are being computed. Ask again in a moment.", "batch": job.batch_id}
        return jsonify(later), 202, {"Retry-After": "2"}
    with parts().database.reading() as session:
        project, track = _project_and_track(session, id_, query["track"])
        return jsonify(show_steps(session, project, track, _computed(session, job, track)))


@room.route_to(
    "/projects/<id_>/steps",
    "PUT",
    Circle.STUDIO,
    Answer(200, StepList),
    query=TrackQuery,
    body=OwnSteps,
    refuses=(404, 409),
)
def put_steps(query: dict[str, Any], body: dict[str, Any], id_: str) -> Any:
    """Keep the maker's own words for steps, beside the computed text.

    Steps that are not named keep the words they have; null takes own words away. Own words stay through
    later batches, and are flagged when the computed text under them has changed. Tips stand before or after a
    step and are kept the same way; null takes one away.
    """
    with parts().database.writing() as session:
        project, track = _project_and_track(session, id_, query["track"])
        job = find_sewing_job(session, project)
        if job is None or job.state in OPEN:
            right = "Read the steps first (GET), then send your words."
            raise Problem(
                409, "The steps are not computed yet.", name="not-made-yet", errors=[fault(right, right)]
            )
        computed = _computed(session, job, track)
        try:
            keep_wording(session, project, track, computed, body["steps"], now=now())
        except NoSuchStep as why:
            raise _unknown_steps(why.places, computed, "/steps/{}/id") from why
        strange = find_strange(session, project, track, body["tips"], computed.texts)
        if strange:
            raise _unknown_steps(strange, computed, "/tips/{}/step")
        keep_tips(session, project, track, body["tips"], computed.texts, now=now())
        return jsonify(show_steps(session, project, track, computed))


def _wait_for_job(id_: str, track_name: str | None) -> Job:
    """The sewing job of the present state, begun if need be, after waiting a few seconds for its end."""
    job = _find_or_order(id_, track_name)
    waited = 0.0
    while job.state in OPEN and waited < WAIT_SECONDS:
        parts().sleep(LOOK_EVERY_SECONDS)
        waited += LOOK_EVERY_SECONDS
        with parts().database.reading() as session:
            job = found(session.get(Job, job.id), "job", job.id)
    return job


def _find_or_order(id_: str, track_name: str | None) -> Job:
    with parts().database.reading() as session:
        project, _ = _project_and_track(session, id_, track_name)
        job = find_sewing_job(session, project)
    if job is not None:
        return job
    with parts().database.writing() as session:
        project = found(session.get(Project, id_, with_for_update=True), "project", id_)
        job = find_sewing_job(session, project)
        if job is None:
            batch_id = order_steps(session, project, now=now()).id
            job = found(find_sewing_job(session, project), "job of the batch", batch_id)
    wake(job.batch_id)
    return job


def _project_and_track(session: Session, id_: str, name: str | None) -> tuple[Project, Track]:
    project: Project = found(session.get(Project, id_), "project", id_)
    try:
        return project, find_track(project, name or "")
    except NoSuchTrack as why:
        listed = "one of: " + ", ".join(f'"{known}"' for known in why.names)
        if name is None:
            missing = fault("in the query, track is missing", listed, parameter="track")
            raise Problem(422, "Say which track.", name="faults", errors=[missing]) from why
        unknown = fault(f"{why}", listed, parameter="track")
        raise Problem(404, f'The project has no track "{name}".', errors=[unknown]) from why


def _computed(session: Session, job: Job, track: Track) -> Computed:
    if job.state == JobState.COMPLETED:
        computed = read_computed(session, parts().store, job, track)
        if computed is not None:
            return computed
        raise Problem(409, f'The sewing plan has no steps for the track "{track.name}".', name="not-made-yet")
    problem = job.problem or {}
    failed = fault(job.message, problem.get("right", ""), pointer=problem.get("pointer", ""))
    detail = f"The steps could not be computed: {job.message} Mend it, or retry the job {job.id}."
    raise Problem(409, detail, name="not-made-yet", errors=[failed])


def _unknown_steps(places: Sequence[tuple[int, str]], computed: Computed, pointer: str) -> Problem:
    right = "one of: " + ", ".join(step["id"] for step in computed.steps)
    errors = [
        fault(f'the track has no step "{step_id[:80]}"', right, pointer=pointer.format(place))
        for place, step_id in places
    ]
    return Problem(
        422, f"The track does not have {len(errors)} of these steps.", name="faults", errors=errors
    )
