"""Projects: the maker's documents."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from typing import Any

from flask import Response, jsonify, request
from sqlalchemy import select

from service.api.access import Circle
from service.api.bodies import read_object
from service.api.merging import merge_patch
from service.api.paging import page_answer, read_page
from service.api.problems import Problem, fault
from service.api.room import Answer, Room
from service.api.schemas.common import PageQuery
from service.api.schemas.projects import (
    CheckSchema,
    ProjectBody,
    ProjectPage,
    ProjectQuery,
    ProjectSchema,
    TrackList,
)
from service.api.tags import check_tag, found, set_tag
from service.api.wiring import now, parts
from service.craft.document import read_document
from service.storage.models import Project, Series
from service.studio.check import check_project
from service.studio.projects import (
    Filing,
    InUse,
    add_project,
    change_project,
    delete_project,
    read_filing,
    show_card,
    show_project,
)

room = Room("projects", __name__, description="Project documents, checked whole.")

PATCH_BODY = {"content": {"application/merge-patch+json": {"schema": {"type": "object"}}}}
PROJECT_BODY = {"required": True, "content": {"application/json": {"schema": ProjectBody}}}
REFUSES = (400, 413, 415, 422)


@room.route_to("/projects", "GET", Circle.STUDIO, Answer(200, ProjectPage), query=ProjectQuery)
def list_projects(query: dict[str, Any]) -> Any:
    """List projects, oldest first; by title, series or release date where asked for."""
    wanted = select(Project)
    if query["title"] is not None:
        wanted = wanted.where(Project.title == query["title"].strip())
    if query["series"] is not None:
        wanted = wanted.where(Project.series_id == query["series"])
    if query["release"] is not None:
        wanted = wanted.where(Project.release == date.fromisoformat(query["release"]))
    with parts().database.reading() as session:
        rows, cursor = read_page(session, wanted, Project.id, query)
    return page_answer("projects", rows, show_card, cursor)


@room.route_to(
    "/series/<id_>/projects",
    "GET",
    Circle.STUDIO,
    Answer(200, ProjectPage),
    query=PageQuery,
    refuses=(404,),
)
def list_projects_of_series(query: dict[str, Any], id_: str) -> Any:
    """List the projects of a series."""
    with parts().database.reading() as session:
        found(session.get(Series, id_), "series", id_)
        rows, cursor = read_page(session, select(Project).where(Project.series_id == id_), Project.id, query)
    return page_answer("projects", rows, show_card, cursor)


@room.route_to(
    "/projects",
    "POST",
    Circle.MAKER,
    Answer(201, ProjectSchema),
    tagged=True,
    refuses=REFUSES,
    requestBody=PROJECT_BODY,
)
def post_project() -> Any:
    """Store a project document, or refuse it with every fault in it.

    It is answered as it was sent, with `id` beside it. Its outlines may follow later.
    """
    filing = read_filing(read_object(request))
    with parts().database.writing() as session:
        project = add_project(session, filing, now=now())
    answer = _answer(project)
    answer.status_code = 201
    answer.headers["Location"] = f"/api/v1/projects/{project.id}"
    return answer


@room.route_to(
    "/projects/<id_>", "GET", Circle.STUDIO, Answer(200, ProjectSchema), tagged=True, refuses=(404,)
)
def get_project(id_: str) -> Any:
    """Show a project: the document as it was sent."""
    with parts().database.reading() as session:
        return _answer(found(session.get(Project, id_), "project", id_))


@room.route_to(
    "/projects/<id_>",
    "PUT",
    Circle.MAKER,
    Answer(200, ProjectSchema),
    tagged=True,
    refuses=(404, *REFUSES),
    requestBody=PROJECT_BODY,
)
def put_project(id_: str) -> Any:
    """Replace a project's document. Its outlines and the maker's own wording stay."""
    body = read_object(request)
    return _change(id_, lambda _project: read_filing(body, id_=id_))


@room.route_to(
    "/projects/<id_>",
    "PATCH",
    Circle.MAKER,
    Answer(200, ProjectSchema),
    tagged=True,
    refuses=(404, *REFUSES),
    requestBody=PATCH_BODY,
)
def patch_project(id_: str) -> Any:
    """Change some fields of a project: a JSON merge patch (RFC 7396)."""
    patch = read_object(request)
    return _change(id_, lambda kept: read_filing(merge_patch(show_project(kept), patch), id_=id_))


@room.route_to("/projects/<id_>", "DELETE", Circle.MAKER, Answer(204), tagged=True, refuses=(404, 409))
def remove_project(id_: str) -> Any:
    """Delete a project that is not released and in no running batch."""
    with parts().database.writing() as session:
        project = found(session.get(Project, id_, with_for_update=True), "project", id_)
        check_tag(room, project)
        try:
            delete_project(session, project, now=now(), studio_zone=parts().settings.zone)
        except InUse as why:
            raise Problem(409, why.detail, name="in-use", errors=[fault(why.detail, why.right)]) from why
    return Response(status=204)


@room.route_to("/projects/<id_>/tracks", "GET", Circle.STUDIO, Answer(200, TrackList), refuses=(404,))
def list_tracks(id_: str) -> Any:
    """List the tracks of a project."""
    with parts().database.reading() as session:
        document = found(session.get(Project, id_), "project", id_).document
    written = {t["name"].strip(): t.get("has", []) for t in document.get("tracks") or []}
    return {
        "tracks": [
            {"name": t.name, "slug": t.slug, "has": written.get(t.name, []), "reading": t.reading}
            for t in read_document(document).tracks
        ]
    }


@room.route_to("/projects/<id_>/check", "GET", Circle.STUDIO, Answer(200, CheckSchema), refuses=(404,))
def show_check(id_: str) -> Any:
    """Say what still stands in the way of a batch."""
    with parts().database.reading() as session:
        project = found(session.get(Project, id_), "project", id_)
        return check_project(session, project).to_json()


def _change(id_: str, file: Callable[[Project], Filing]) -> Response:
    with parts().database.writing() as session:
        project = found(session.get(Project, id_, with_for_update=True), "project", id_)
        check_tag(room, project)
        change_project(session, project, file(project), now=now())
    return _answer(project)


def _answer(project: Project) -> Response:
    set_tag(room, project)
    answer = jsonify(show_project(project))
    assert isinstance(answer, Response)  # noqa: S101  # for the type checker: flask says less than it knows
    return answer
