"""Series: a year's plan."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from flask import Response, request
from sqlalchemy import func, select

from service.api.access import Circle
from service.api.bodies import read_object
from service.api.checking import check_body
from service.api.merging import merge_patch
from service.api.paging import format_time, page_answer, read_page
from service.api.problems import Problem, fault
from service.api.room import Answer, Room
from service.api.schemas.common import PageQuery
from service.api.schemas.series import SeriesBody, SeriesPage, SeriesSchema
from service.api.tags import check_tag, found, set_tag
from service.api.wiring import now, parts
from service.storage.models import Project, Series
from service.storage.times import uuid7

room = Room("series", __name__, description="A year's plan, and the projects in it.")


@room.route_to("/series", "GET", Circle.STUDIO, Answer(200, SeriesPage), query=PageQuery)
def list_series(query: dict[str, Any]) -> Any:
    """List the series, oldest first."""
    with parts().database.reading() as session:
        rows, cursor = read_page(session, select(Series), Series.id, query)
    return page_answer("series", rows, show_series, cursor)


@room.route_to("/series", "POST", Circle.MAKER, Answer(201, SeriesSchema), body=SeriesBody, tagged=True)
def add_series(body: dict[str, Any]) -> Any:
    """Begin a series."""
    moment = now()
    with parts().database.writing() as session:
        series = Series(id=uuid7(moment), created_at=moment, updated_at=moment, revision=1)
        _write(series, body)
        session.add(series)
    set_tag(room, series)
    return show_series(series), {"Location": f"/api/v1/series/{series.id}"}


@room.route_to("/series/<id_>", "GET", Circle.STUDIO, Answer(200, SeriesSchema), tagged=True, refuses=(404,))
def get_series(id_: str) -> Any:
    """Show a series."""
    with parts().database.reading() as session:
        series = found(session.get(Series, id_), "series", id_)
    set_tag(room, series)
    return show_series(series)


@room.route_to(
    "/series/<id_>",
    "PUT",
    Circle.MAKER,
    Answer(200, SeriesSchema),
    body=SeriesBody,
    tagged=True,
    refuses=(404,),
)
def put_series(body: dict[str, Any], id_: str) -> Any:
    """Replace what is said about a series."""
    return _change(id_, lambda _series: body)


@room.route_to(
    "/series/<id_>",
    "PATCH",
    Circle.MAKER,
    Answer(200, SeriesSchema),
    tagged=True,
    refuses=(400, 404, 415, 422),
    requestBody={"content": {"application/merge-patch+json": {"schema": {"type": "object"}}}},
)
def patch_series(id_: str) -> Any:
    """Change some fields of a series: a JSON merge patch (RFC 7396)."""
    patch = read_object(request)
    return _change(id_, lambda series: check_body(SeriesBody, merge_patch(_fields(series), patch)))


@room.route_to("/series/<id_>", "DELETE", Circle.MAKER, Answer(204), tagged=True, refuses=(404, 409))
def delete_series(id_: str) -> Any:
    """Delete a series that has no projects."""
    with parts().database.writing() as session:
        series = found(session.get(Series, id_, with_for_update=True), "series", id_)
        check_tag(room, series)
        count = session.scalar(select(func.count()).where(Project.series_id == id_)) or 0
        if count:
            detail = f"The series has {count} {'project' if count == 1 else 'projects'}."
            right = "Move the projects to another series or delete them first."
            raise Problem(409, detail, name="in-use", errors=[fault(detail, right)])
        session.delete(series)
    return Response(status=204)


def _change(id_: str, change: Callable[[Series], dict[str, Any]]) -> Any:
    with parts().database.writing() as session:
        series = found(session.get(Series, id_, with_for_update=True), "series", id_)
        check_tag(room, series)
        _write(series, change(series))
        series.revision += 1
        series.updated_at = now()
    set_tag(room, series)
    return show_series(series)


def _write(series: Series, body: dict[str, Any]) -> None:
    series.title = body["title"]
    series.rule = {"text": body["rule"]}
    series.release = {"timezone": body["timezone"], "notes": body["notes"]}


def _fields(series: Series) -> dict[str, Any]:
    return {
        "title": series.title,
        "rule": series.rule.get("text", ""),
        "timezone": series.release.get("timezone"),
        "notes": series.release.get("notes", ""),
    }


def show_series(series: Series) -> dict[str, Any]:
    """A series as it stands in an answer."""
    return {
        "id": series.id,
        **_fields(series),
        "revision": series.revision,
        "updated": format_time(series.updated_at),
    }
