"""A project seen otherwise: drawn, or in another size. Nothing is stored."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from flask import Response, request

from service.api.access import Circle
from service.api.bodies import read_object
from service.api.problems import Problem, fault
from service.api.room import Answer, Room
from service.api.schemas.previews import DrawingQuery, ScaledBody, ScaledSchema
from service.api.tags import found
from service.api.wiring import parts
from service.craft.document import Project as Drafted
from service.craft.document import read_document
from service.craft.drawing.previews import draw_preview
from service.craft.faults import show, suggest
from service.craft.outlines import OutlineNotFound, find_outline
from service.storage.models import Project
from service.studio.projects import stored_outlines
from service.studio.scaling import scale_project

room = Room("previews", __name__, description="A project drawn, or in another size; nothing is stored.")

SCALED_BODY = {"required": True, "content": {"application/json": {"schema": ScaledBody}}}


@room.route_to(
    "/projects/<id_>/drawing",
    "GET",
    Circle.STUDIO,
    Answer(200, {"type": "string"}, media_type="image/svg+xml"),
    query=DrawingQuery,
    refuses=(404,),
)
def show_drawing(query: dict[str, Any], id_: str) -> Any:
    """Draw the finished top, or one block of it, as SVG; pieces whose outline is not there yet are left out."""
    with parts().database.reading() as session:
        project = found(session.get(Project, id_), "project", id_)
        outlines = stored_outlines(session, id_)
    drafted = _with_known_pieces(read_document(project.document), outlines)
    answer = Response(_draw(query, drafted, outlines), mimetype="image/svg+xml")
    answer.headers["Content-Security-Policy"] = "sandbox; default-src 'none'; style-src 'unsafe-inline'"
    return answer


def _draw(query: dict[str, Any], drafted: Drafted, outlines: dict[str, Any]) -> str:
    name = query["block"]
    if name is not None and name not in drafted.blocks:
        right = suggest(name, drafted.blocks)
        unknown = fault(f"in the query, block: there is no block {show(name)}", right, parameter="block")
        raise Problem(422, unknown["detail"], name="faults", errors=[unknown])
    return draw_preview(drafted, outlines, style=query["style"], block=name)


def _with_known_pieces(drafted: Drafted, outlines: dict[str, Any]) -> Drafted:
    known = []
    for piece in drafted.pieces:
        try:
            find_outline(outlines, piece.outline)
        except OutlineNotFound:
            continue
        known.append(piece)
    return replace(drafted, pieces=tuple(known))


@room.route_to(
    "/projects/<id_>/scaled",
    "POST",
    Circle.STUDIO,
    Answer(200, ScaledSchema),
    refuses=(400, 404, 413, 415, 422),
    requestBody=SCALED_BODY,
)
def show_scaled(id_: str) -> Any:
    """Answer the project's document in another size, and the sizes near by whose cuts need no rounding.

    Nothing is stored: the document may be sent back to `POST /projects`.
    """
    wanted = read_object(request)
    with parts().database.reading() as session:
        document = found(session.get(Project, id_), "project", id_).document
    return scale_project(document, wanted)
