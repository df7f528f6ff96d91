"""The outlines of a project: drawings come in, shapes are answered. The drawing itself is never given out."""

from __future__ import annotations

import unicodedata
from typing import Any
from urllib.parse import quote

from flask import Response, request
from werkzeug.datastructures import FileStorage

from service.api.access import Circle
from service.api.problems import Problem, fault, refuse_one
from service.api.room import Answer, Room
from service.api.schemas.common import LONGEST_NAME
from service.api.schemas.projects import OutlineList, OutlineSchema
from service.api.tags import found
from service.api.wiring import now, parts
from service.craft.outlines import OutlineFile, OutlineUnreadable, read_svg
from service.storage.models import Project
from service.studio.outlines import find_kept, keep_outline, show_outline
from service.studio.projects import stored_outlines

room = Room("outlines", __name__, description="Drawings of applique shapes, read into true-size outlines.")

OTHER_FORMS = {b"\x89PNG": "a PNG picture", b"\xff\xd8\xff": "a JPEG picture", b"%PDF": "a PDF page"}
FIELDS = ("name", "page", "dpi", "known_length", "between")
UPLOAD = {
    "required": True,
    "content": {
        "multipart/form-data": {
            "schema": {
                "type": "object",
                "required": ["file"],
                "properties": {
                    "file": {"type": "string", "format": "binary", "description": "an SVG drawing"},
                    "name": {"type": "string", "description": "its name here; else the file's own name"},
                },
            }
        }
    },
}


@room.route_to(
    "/projects/<id_>/outlines",
    "POST",
    Circle.MAKER,
    Answer(201, OutlineSchema),
    Answer(200, OutlineSchema, words="It took the place of the file with the same name."),
    refuses=(400, 404, 413, 415, 422),
    requestBody=UPLOAD,
)
def post_outline(id_: str) -> Any:
    """Upload a drawing; the shapes found in it are answered, with their sizes.

    SVG is read today. A file with the name of one that is there takes its place (200 instead of 201).
    A piece refers to a shape as `name#shape`.
    """
    with parts().database.reading() as session:
        found(session.get(Project, id_), "project", id_)
    sent = _sent_file()
    name = _name_of(sent)
    file = _read(sent, name)
    with parts().database.writing() as session:
        project = found(session.get(Project, id_, with_for_update=True), "project", id_)
        replaced = keep_outline(session, project, file, now=now())
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


def _sent_file() -> FileStorage:
    if request.mimetype != "multipart/form-data":
        sent = request.mimetype or "a body without a Content-Type"
        raise Problem(
            415,
            f"This takes multipart/form-data with a part named file; {sent} was sent.",
            headers={"Accept": "multipart/form-data"},
        )
    unknown = [key for key in (*request.form, *request.files) if key not in ("file", *FIELDS)]
    if unknown:
        right = "file, and name where it should have another"
        raise refuse_one(f'There is no field "{unknown[0][:80]}" here.', right, pointer="/" + unknown[0][:80])
    sent_file = request.files.get("file")
    if sent_file is None:
        raise refuse_one(
            "The part named file is missing.", "an SVG file in the part named file", pointer="/file"
        )
    return sent_file


def _name_of(sent: FileStorage) -> str:
    """A client's file name is a label, never a path."""
    given = request.form.get("name") or (sent.filename or "").replace("\\", "/").rsplit("/", 1)[-1]
    name = unicodedata.normalize("NFC", given.strip())
    plain = all(unicodedata.category(sign)[0] not in "CZ" or sign == " " for sign in name)
    if not name or len(name) > LONGEST_NAME or not plain or name in (".", "..") or set(name) & set("#/\\"):
        raise refuse_one(
            f'"{name[:80]}" cannot be the name of an outline file.',
            f"1 to {LONGEST_NAME} characters without # / and \\, for example leek.svg",
            pointer="/name",
        )
    return name


def _read(sent: FileStorage, name: str) -> OutlineFile:
    most = parts().settings.upload_limit_bytes
    data = sent.stream.read(most + 1)
    if len(data) > most:
        raise Problem(413, f"The file is larger than {most} bytes.", headers={"Connection": "close"})
    for magic, form in OTHER_FORMS.items():
        if data.startswith(magic):
            detail = f'"{name}" is {form}; SVG drawings are read today, pictures and PDF pages are not.'
            right = "draw round the shapes and send them as SVG"
            raise Problem(415, detail, errors=[fault(detail, right, pointer="/file")])
    try:
        return read_svg(data, name)
    except OutlineUnreadable as why:
        detail = f"{why.where}: {why.detail}" if why.where else why.detail
        problem = [fault(detail, why.right, pointer="/file")]
        raise Problem(
            422, f'"{name}" cannot be read: {detail}.', name="unreadable-outline", errors=problem
        ) from why


def _measure(project: Project) -> str:
    return str(project.document.get("measure", "in"))
