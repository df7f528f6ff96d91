"""Batches: work is submitted once, and followed."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, datetime
from typing import Any

from flask import request
from sqlalchemy import select
from sqlalchemy.orm import Session

from service.api.access import Circle, known_caller
from service.api.paging import page_answer, read_page
from service.api.problems import Problem, fault
from service.api.room import Answer, Room
from service.api.schemas.batches import BatchBody, BatchPage, BatchSchema
from service.api.schemas.common import PageQuery
from service.api.showing import look_again, show_batch, show_card
from service.api.wake import wake
from service.api.wiring import now, parts
from service.craft.document import read_document
from service.jobs.cancel import cancel_batch
from service.jobs.idempotency import Answered, KeyReused, recall_or_reserve, remember
from service.jobs.status import read_batch, read_batch_state
from service.jobs.submit import submit_batch, submit_release
from service.storage.batch_state import OPEN
from service.storage.canonical import digest
from service.storage.models import Batch, Idempotency, Project, Series
from service.studio.check import check_project

LONGEST_KEY = 255
KEY_PARAMETER = {
    "name": "Idempotency-Key",
    "in": "header",
    "required": False,
    "description": "Any text of yours. The same request with the same key is answered as the first time.",
    "schema": {"type": "string", "maxLength": LONGEST_KEY},
}

room = Room("batches", __name__, description="Work that was submitted together.")


@room.route_to(
    "/batches",
    "POST",
    Circle.STUDIO,
    Answer(202, BatchSchema),
    body=BatchBody,
    parameters=[KEY_PARAMETER],
)
def post_batch(body: dict[str, Any]) -> Any:
    """Submit projects, or everything of a series for one release date.

    The answer comes at once; follow the batch at `Location`. A project that is not ready is refused with
    what stands in its way.
    """
    key, asked = _key(), digest(body)
    earlier = _recall(key, asked)
    if earlier is None:
        _check_ready(body)
        earlier = _submit(body, key, asked)
        wake(earlier.body["id"])
    location = {"Location": f"/api/v1/batches/{earlier.body['id']}"}
    return earlier.body, earlier.status, {**location, **look_again(ended=False)}


@room.route_to("/batches", "GET", Circle.STUDIO, Answer(200, BatchPage), query=PageQuery)
def list_batches(query: dict[str, Any]) -> Any:
    """List batches, newest first."""
    with parts().database.reading() as session:
        rows, cursor = read_page(session, select(Batch), Batch.id, query, newest_first=True)
        states = {batch.id: read_batch_state(session, batch.id) for batch in rows}
    body, headers = page_answer("batches", rows, lambda batch: show_card(batch, states[batch.id]), cursor)
    ended = not any(state in OPEN for state in states.values())
    return body, {**headers, **look_again(ended=ended)}


@room.route_to("/batches/<id_>", "GET", Circle.STUDIO, Answer(200, BatchSchema), refuses=(404,))
def get_batch(id_: str) -> Any:
    """Show how far a batch is, each job with its state and reason."""
    with parts().database.reading() as session:
        status = read_batch(session, id_)
        return show_batch(status, now()), look_again(ended=status.ended)


@room.route_to("/batches/<id_>/cancel", "POST", Circle.STUDIO, Answer(202, BatchSchema), refuses=(404,))
def post_cancel(id_: str) -> Any:
    """Cancel what has not ended: what waits at once, what is being made at its next pause."""
    with parts().database.writing() as session:
        status = cancel_batch(session, id_, now=now())
        return show_batch(status, now()), look_again(ended=status.ended)


def _key() -> str | None:
    key = request.headers.get("Idempotency-Key")
    if key is not None and not 0 < len(key) <= LONGEST_KEY:
        detail = f"An Idempotency-Key has between 1 and {LONGEST_KEY} characters."
        raise Problem(400, detail, errors=[fault(detail, "a shorter key")])
    return key


def _recall(key: str | None, asked: str) -> Answered | None:
    """The answer the first request with this key got; comes before the check, which may see another state."""
    if key is None:
        return None
    with parts().database.reading() as session:
        kept = session.get(Idempotency, (known_caller().token_id, key))
    if kept is None or kept.status is None or kept.body is None:
        return None
    if kept.request_hash != asked:
        raise _reused(KeyReused(key))
    return Answered(kept.status, kept.body)


def _submit(body: Mapping[str, Any], key: str | None, asked: str) -> Answered:
    moment, token_id = now(), known_caller().token_id
    with parts().database.writing() as session:
        if key is not None:
            try:
                earlier = recall_or_reserve(
                    session, token_id=token_id, key=key, request_hash=asked, now=moment
                )
            except KeyReused as why:
                raise _reused(why) from why
            if earlier is not None:
                return earlier
        batch = _write(session, body, moment)
        made = Answered(202, show_batch(read_batch(session, batch.id), moment))
        if key is not None:
            remember(session, token_id=token_id, key=key, status=made.status, body=made.body)
    return made


def _write(session: Session, body: Mapping[str, Any], moment: datetime) -> Batch:
    kinds = body.get("kinds")
    if "projects" in body:
        return submit_batch(session, body["projects"], read=read_document, now=moment, kinds=kinds)
    release = date.fromisoformat(body["release"])
    return submit_release(session, body["series"], release, read=read_document, now=moment, kinds=kinds)


def _check_ready(body: Mapping[str, Any]) -> None:
    """Refuse what cannot be made before anything is written: unknown ids, and projects that are not ready."""
    with parts().database.reading() as session:
        projects = _named(session, body) if "projects" in body else _of_release(session, body)
        faults = [
            {**found.to_json(), "project": project.id}
            for project in projects
            for found in check_project(session, project).faults
        ]
    if faults:
        count = len({found["project"] for found in faults})
        words = "The project is" if len(projects) == 1 else f"{count} of {len(projects)} projects are"
        raise Problem(422, f"{words} not ready for a batch.", name="not-ready", errors=faults)


def _named(session: Session, body: Mapping[str, Any]) -> list[Project]:
    found = [session.get(Project, id_) for id_ in body["projects"]]
    unknown = [
        fault(f"there is no project with the id {id_}", "the id of a project", pointer=f"/projects/{place}")
        for place, (id_, project) in enumerate(zip(body["projects"], found, strict=True))
        if project is None
    ]
    if unknown:
        raise Problem(422, "Some projects are not there.", name="faults", errors=unknown)
    return list({project.id: project for project in found if project is not None}.values())


def _of_release(session: Session, body: Mapping[str, Any]) -> list[Project]:
    series, release = body["series"], date.fromisoformat(body["release"])
    if session.get(Series, series) is None:
        detail = f"There is no series with the id {series}."
        unknown = fault(detail, "the id of a series (GET /series)", pointer="/series")
        raise Problem(422, detail, name="faults", errors=[unknown])
    of_series = select(Project).where(Project.series_id == series)
    found = list(session.scalars(of_series.where(Project.release == release).order_by(Project.id)))
    if not found:
        dates = session.scalars(select(Project.release).where(Project.series_id == series).distinct())
        listed = ", ".join(sorted(d.isoformat() for d in dates if d)) or "none yet"
        detail = f"The series has no project with the release date {release}."
        missing = fault(detail, f"a date of its projects: {listed}", pointer="/release")
        raise Problem(422, detail, name="faults", errors=[missing])
    return found


def _reused(why: KeyReused) -> Problem:
    detail = "This Idempotency-Key came before with another request."
    return Problem(422, detail, name="key-reused", errors=[fault(f"{why}", "a new key")])
