"""The outlines of a project: drawings come in, shapes are answered. The drawing itself is never given out."""

from __future__ import annotations

from typing import Any
from urllib.parse import quote

from flask import Response

from service.api.access import Circle
from service.api.outline_forms import UPLOAD, Form, read_form
from service.api.problems import Problem, fault, refuse_one
from service.api.room import Answer, Room, say_faults
from service.api.schemas.projects import OutlineList, OutlineSchema, RenamedSchema, ShapeNameBody
from service.api.tags import found
from service.api.wiring import now, parts
from service.craft.outlines import OutlineFile, OutlineUnreadable, read_svg
from service.craft.outlines.naming import clean_name
from service.craft.tracing import CannotTrace, TracedPicture, relabel
from service.storage.models import Project
from service.studio.outlines import (
    OVERLAY,
    NameTaken,
    NoSuchShape,
    find_asking,
    find_kept,
    keep_outline,
    rename_shape,
    show_outline,
)
from service.studio.projects import stored_outlines
from service.studio.tracing import NothingTraces, TracingBusy

SVG = "image/svg+xml"
SEEN_AS_DRAWING = 1000
"""A file without any "<" so far is no drawing, and what it is counts for more than the fields sent with it."""

OVERLAY_POLICY = "sandbox; default-src 'none'; img-src data:; style-src 'unsafe-inline'"
"""An overlay holds its own small picture and nothing else."""

room = Room("outlines", __name__, description="Drawings of applique shapes, read into true-size outlines.")


@room.route_to(
    "/projects/<id_>/outlines",
    "POST",
    Circle.MAKER,
    Answer(201, OutlineSchema),
    Answer(200, OutlineSchema, words="It took the place of the file with the same name."),
    refuses=(400, 404, 413, 415, 422, 503),
    requestBody=UPLOAD,
)
def post_outline(id_: str) -> Any:
    """Upload a drawing or a picture; the shapes found in it are answered, with their sizes.

    An SVG drawing states its size. A picture (PNG, JPEG, page of a PDF) is traced: its scale comes from
    `dpi`, from `known_length` and `between`, or from the calibration sheet in the picture. A file with the
    name of one that is there takes its place (200 instead of 201). A piece refers to a shape as `name#shape`.
    """
    with parts().database.reading() as session:
        measure = _measure(found(session.get(Project, id_), "project", id_))
    form = read_form()
    file, drawn = _read(form, measure)
    name, overlay = form.name, parts().store.put(drawn.encode()).sha256 if drawn else None
    with parts().database.writing() as session:
        project = found(session.get(Project, id_, with_for_update=True), "project", id_)
        replaced = keep_outline(session, project, file, now=now(), overlay=overlay)
        kept = find_kept(session, id_, name)
        shown = show_outline(kept.stored if kept else {}, _measure(project))
    return (
        shown,
        200 if replaced else 201,
        {"Location": f"/api/v1/projects/{id_}/outlines/{quote(name, safe='')}"},
    )


@room.route_to("/projects/<id_>/outlines", "GET", Circle.STUDIO, Answer(200, OutlineList), refuses=(404,))
def list_outlines(id_: str) -> Any:
    """List the outline files of a project and the shapes in them."""
    with parts().database.reading() as session:
        project = found(session.get(Project, id_), "project", id_)
        files = stored_outlines(session, id_)
    return {"outlines": [show_outline(stored, _measure(project)) for stored in files.values()]}


@room.route_to(
    "/projects/<id_>/outlines/<name>", "GET", Circle.STUDIO, Answer(200, OutlineSchema), refuses=(404,)
)
def get_outline(id_: str, name: str) -> Any:
    """Show one outline file: its shapes and their sizes."""
    with parts().database.reading() as session:
        project = found(session.get(Project, id_), "project", id_)
        kept = find_kept(session, id_, name)
    if kept is None:
        raise Problem(404, f'The project has no outline file "{name}".')
    return show_outline(kept.stored, _measure(project))


@room.route_to(
    "/projects/<id_>/outlines/<name>/overlay",
    "GET",
    Circle.STUDIO,
    Answer(200, {"type": "string"}, media_type=SVG),
    refuses=(404,),
)
def show_overlay(id_: str, name: str) -> Any:
    """Show the picture an outline file was traced from, with the outlines over it: to judge by.

    Each is labelled with the name it has now.
    """
    with parts().database.reading() as session:
        found(session.get(Project, id_), "project", id_)
        kept = find_kept(session, id_, name)
    if kept is None or OVERLAY not in kept.stored:
        raise Problem(404, f'The project has no outline file "{name}" that was traced from a picture.')
    drawn = parts().store.read(kept.stored[OVERLAY]).decode()
    names = [shape["name"] for shape in kept.stored["shapes"]]
    answer = Response(relabel(drawn, names), mimetype=SVG)
    answer.headers["Content-Security-Policy"] = OVERLAY_POLICY
    answer.headers["Cache-Control"] = "private, no-cache"
    return answer


@room.route_to(
    "/projects/<id_>/outlines/<name>/shapes/<shape>",
    "PATCH",
    Circle.MAKER,
    Answer(200, RenamedSchema),
    body=ShapeNameBody,
    refuses=(404, 409),
)
def rename_outline_shape(body: dict[str, Any], id_: str, name: str, shape: str) -> Any:
    """Give a shape another name. Pieces ask for it by name: those that still ask for the old one are listed."""
    new = _shape_name(body["name"])
    with parts().database.writing() as session:
        project = found(session.get(Project, id_, with_for_update=True), "project", id_)
        kept = find_kept(session, id_, name)
        if kept is None:
            raise Problem(404, f'The project has no outline file "{name}".')
        try:
            rename_shape(kept, shape, new)
        except NoSuchShape as why:
            listed = ", ".join(f'"{one}"' for one in why.names[:20])
            raise Problem(404, f'"{name}" holds no shape named "{shape}"; it holds {listed}.') from why
        except NameTaken as why:
            raise Problem(409, f'Another shape of "{name}" is named "{new}".') from why
        asking = find_asking(project.document, name, shape) if new != shape else []
        right = f'"{name}#{new}": the shape has that name now'
        return show_outline(kept.stored, _measure(project)) | {
            "asking": [one | {"right": right} for one in asking]
        }


@room.route_to("/projects/<id_>/outlines/<name>", "DELETE", Circle.MAKER, Answer(204), refuses=(404,))
def delete_outline(id_: str, name: str) -> Any:
    """Delete an outline file. Batches that are under way keep what they were given."""
    with parts().database.writing() as session:
        found(session.get(Project, id_), "project", id_)
        kept = find_kept(session, id_, name)
        if kept is None:
            raise Problem(404, f'The project has no outline file "{name}".')
        session.delete(kept)
    return Response(status=204)


def _shape_name(given: str) -> str:
    name = clean_name(given)
    if not name or set(name) & set("#/\\"):
        right = "1 to 80 characters without # / and \\, for example stalk"
        raise refuse_one(f'"{given[:80]}" cannot be the name of a shape.', right, pointer="/name")
    return name


def _read(form: Form, measure: str) -> tuple[OutlineFile, str | None]:
    """The shapes of a drawing or a picture, and of a picture the drawing that lies over it."""
    if form.kind is not None:
        traced = _trace(form, measure)
        return traced.file, traced.overlay
    if form.texts and b"<" in form.data[:SEEN_AS_DRAWING]:
        found = [
            fault("an SVG drawing states its own size", "leave it out", pointer=f"/{key}")
            for key in form.texts
        ]
        raise Problem(422, say_faults(found), name="faults", errors=found)
    try:
        return read_svg(form.data, form.name), None
    except OutlineUnreadable as why:
        detail = f"{why.where}: {why.detail}" if why.where else why.detail
        problem = [fault(detail, why.right, pointer="/file")]
        raise _unreadable(form, detail, problem) from why


def _trace(form: Form, measure: str) -> TracedPicture:
    try:
        return parts().tracing.trace(form.asked(measure))
    except CannotTrace as why:
        found = [one.to_json() for one in why.faults]
        raise _unreadable(form, "; ".join(one.detail for one in why.faults), found) from why
    except TracingBusy as why:
        detail = "Another picture is being traced. Ask again in a moment."
        raise Problem(503, detail, headers={"Retry-After": "5"}) from why
    except NothingTraces as why:
        right = "draw round the shapes and send them as SVG"
        detail = f'"{form.name}" is {form.kind}, and nothing is installed here that traces pictures.'
        raise Problem(415, detail, errors=[fault(detail, right, pointer="/file")]) from why


def _unreadable(form: Form, detail: str, errors: list[dict[str, str]]) -> Problem:
    return Problem(422, f'"{form.name}" cannot be read: {detail}.', name="unreadable-outline", errors=errors)


def _measure(project: Project) -> str:
    return str(project.document.get("measure", "in"))
