"""Photographs of the cloths of a project: for the colourway sheet, laid in at true scale. They stay in the studio."""

from __future__ import annotations

from fractions import Fraction
from typing import Any
from urllib.parse import quote

from flask import Response

from service.api.access import Circle
from service.api.problems import Problem
from service.api.room import Answer, Room, say_faults
from service.api.schemas.swatches import SwatchList, SwatchSchema
from service.api.swatch_forms import UPLOAD, ask_swatch, read_swatch_form
from service.api.tags import found
from service.api.wiring import now, parts
from service.craft.measure import length_object
from service.craft.swatches import Swatch
from service.craft.tracks import MM_PER_INCH
from service.storage.models import Project
from service.storage.models import Swatch as Kept
from service.studio.swatches import SwatchUnreadable, find_swatch, keep_swatch, read_swatch, stored_swatches

JPEG = "image/jpeg"
BYTES = {"type": "string", "format": "binary"}

SCALE = {"/width", "/known_length", "/between"}

room = Room(
    "swatches", __name__, description="Photographs of cloth, laid into the colourway sheet at true scale."
)


@room.route_to(
    "/projects/<id_>/swatches",
    "POST",
    Circle.MAKER,
    Answer(201, SwatchSchema),
    Answer(200, SwatchSchema, words="It took the place of the photograph with the same name."),
    refuses=(400, 404, 413, 415, 422),
    requestBody=UPLOAD,
)
def post_swatch(id_: str) -> Any:
    """Upload a photograph of a cloth, taken from straight above. A cloth refers to it by name, as its `swatch`.

    Its scale comes from `width`, or from `known_length` and `between`. The picture is turned as its camera says,
    cut to `part`, brought to sRGB and written anew: its place, its day and its camera are not kept.
    """
    with parts().database.reading() as session:
        measure = _measure(found(session.get(Project, id_), "project", id_))
    name, form = read_swatch_form()
    asked = ask_swatch(form, measure)
    faults = list(form.faults)
    try:
        swatch, picture = read_swatch(asked)
    except SwatchUnreadable as why:
        faults += [one.to_json() for one in why.faults if not _is_told(one.pointer, faults)]
    if faults:
        raise Problem(422, say_faults(faults), name="faults", errors=faults)
    parts().store.put(picture)
    with parts().database.writing() as session:
        project = found(session.get(Project, id_, with_for_update=True), "project", id_)
        replaced = keep_swatch(session, project, swatch, now=now())
        shown = show_swatch(id_, swatch, _measure(project))
    return shown, 200 if replaced else 201, {"Location": _address(id_, name)}


@room.route_to("/projects/<id_>/swatches", "GET", Circle.STUDIO, Answer(200, SwatchList), refuses=(404,))
def list_swatches(id_: str) -> Any:
    """List the photographs of a project, by name."""
    with parts().database.reading() as session:
        measure = _measure(found(session.get(Project, id_), "project", id_))
        kept = stored_swatches(session, id_)
    return {"swatches": [show_swatch(id_, swatch, measure) for swatch in kept.values()]}


@room.route_to(
    "/projects/<id_>/swatches/<name>", "GET", Circle.STUDIO, Answer(200, SwatchSchema), refuses=(404,)
)
def get_swatch(id_: str, name: str) -> Any:
    """Show what is known of a photograph: the size of the cloth in it, and its colour."""
    with parts().database.reading() as session:
        measure = _measure(found(session.get(Project, id_), "project", id_))
        kept = _kept(find_swatch(session, id_, name), name)
        return show_swatch(id_, Swatch(**kept.stored), measure)


@room.route_to(
    "/projects/<id_>/swatches/<name>/picture",
    "GET",
    Circle.STUDIO,
    Answer(200, BYTES, media_type=JPEG),
    refuses=(404,),
)
def show_picture(id_: str, name: str) -> Any:
    """Show a photograph as it is kept: upright in the sense of the print, of the cloth alone."""
    with parts().database.reading() as session:
        found(session.get(Project, id_), "project", id_)
        kept = _kept(find_swatch(session, id_, name), name)
    answer = Response(parts().store.read(kept.sha256), mimetype=JPEG)
    answer.headers["Content-Security-Policy"] = "sandbox; default-src 'none'"
    answer.headers["Cache-Control"] = "private, no-cache"
    return answer


@room.route_to("/projects/<id_>/swatches/<name>", "DELETE", Circle.MAKER, Answer(204), refuses=(404,))
def delete_swatch(id_: str, name: str) -> Any:
    """Delete a photograph. Batches that are under way keep what they were given."""
    with parts().database.writing() as session:
        found(session.get(Project, id_), "project", id_)
        session.delete(_kept(find_swatch(session, id_, name), name))
    return Response(status=204)


def show_swatch(project_id: str, swatch: Swatch, measure: str) -> dict[str, Any]:
    """A photograph as it stands in an answer."""
    sides = (("width", swatch.width_mm), ("height", swatch.height_mm))
    return {
        "name": swatch.name,
        "sha256": swatch.sha256,
        **{side: length_object(Fraction(str(round(mm, 1))) / MM_PER_INCH, measure) for side, mm in sides},
        "width_px": swatch.width_px,
        "height_px": swatch.height_px,
        "colour": swatch.colour,
        "picture": f"{_address(project_id, swatch.name)}/picture",
    }


def _address(project_id: str, name: str) -> str:
    return f"/api/v1/projects/{project_id}/swatches/{quote(name, safe='')}"


def _is_told(pointer: str, faults: list[dict[str, str]]) -> bool:
    """Whether a field that could not be read is the reason: a scale that is faulty is not missing besides."""
    noted = {one["pointer"] for one in faults}
    return pointer in noted or (not pointer and bool(noted & SCALE))


def _kept(swatch: Kept | None, name: str) -> Kept:
    if swatch is None:
        raise Problem(404, f'The project has no photograph "{name}".')
    return swatch


def _measure(project: Project) -> str:
    return str(project.document.get("measure", "in"))
