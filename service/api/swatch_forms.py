"""The form that a photograph of a cloth is uploaded with: which way is up in it, and what gives it its scale."""

from __future__ import annotations

from typing import Any

from flask import request
from werkzeug.exceptions import RequestEntityTooLarge

from service.api.outline_forms import FORM_ROOM_BYTES, Form, name_of, take_file, too_large
from service.api.wiring import parts
from service.craft.swatches import SIDES
from service.studio.swatches import SwatchAsked

FIELDS = ("name", "width", "known_length", "between", "part", "up")
FILE_WORDS = "a photograph of the cloth as JPEG or PNG"


def _points(words: str) -> dict[str, Any]:
    return {"type": "string", "description": f"{words}, in pixels of the upright picture: [[x, y], [x, y]]"}


UPLOAD = {
    "required": True,
    "content": {
        "multipart/form-data": {
            "schema": {
                "type": "object",
                "required": ["file"],
                "properties": {
                    "file": {"type": "string", "format": "binary", "description": FILE_WORDS},
                    "name": {"type": "string", "description": "its name here; else the file's own name"},
                    "width": {
                        "type": "string",
                        "description": "how wide the whole picture is on the cloth, a length",
                    },
                    "known_length": {"type": "string", "description": "how far the two marks are apart"},
                    "between": _points("two marks in the picture"),
                    "part": _points("two opposite corners of the cloth, where more is in the picture"),
                    "up": {
                        "type": "string",
                        "enum": list(SIDES),
                        "description": "the side of the upright picture that is up in the print; else its top",
                    },
                },
            }
        }
    },
}


def read_swatch_form() -> tuple[str, Form]:
    """The photograph of the present request and its name; a `Problem` where none is sent or it is too large."""
    most = parts().settings.picture_limit_bytes
    request.max_content_length = most + FORM_ROOM_BYTES
    try:
        sent = take_file(FIELDS, FILE_WORDS)
    except RequestEntityTooLarge as why:
        raise too_large("photograph", most) from why
    name = name_of(sent, "a photograph of cloth", "frost.jpg")
    data = sent.stream.read(most + 1)
    sent.close()
    if len(data) > most:
        raise too_large("photograph", most)
    texts = {key: request.form[key] for key in FIELDS if request.form.get(key)}
    return name, Form(data, name, texts)


def ask_swatch(form: Form, measure: str) -> SwatchAsked:
    """What the form says; what cannot be read is noted in its faults."""
    up = form.texts.get("up", SIDES[0]).strip()
    if up not in SIDES:
        form.note("up", f'"{up[:80]}" is no side of the picture', f"one of {', '.join(SIDES)}")
        up = SIDES[0]
    return SwatchAsked(
        form.data,
        form.name,
        width_mm=form.length("width", measure),
        known_length_mm=form.length("known_length", measure),
        between=form.points("between"),
        part=form.points("part"),
        up=up,
    )
