"""The form that a drawing or a picture is uploaded with: which file, its name, and what gives it its scale."""

from __future__ import annotations

import math
import re
import unicodedata
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from flask import request
from werkzeug.datastructures import FileStorage
from werkzeug.exceptions import RequestEntityTooLarge

from service.api.problems import Problem, fault, refuse_one
from service.api.room import say_faults
from service.api.schemas.common import LONGEST_NAME
from service.api.wiring import parts
from service.craft.measure import NotALength, parse_length
from service.craft.tracing import Pixel, TracingAsked
from service.craft.tracks import MM_PER_INCH

PICTURES = {b"\x89PNG": "a PNG picture", b"\xff\xd8\xff": "a JPEG picture", b"%PDF": "a PDF page"}
"""How the files begin that are traced; everything else is read as SVG."""

SCALE_FIELDS = ("page", "dpi", "known_length", "between")
FIELDS = ("name", *SCALE_FIELDS)
FILE_WORDS = "an SVG drawing, a PNG or JPEG picture, or a PDF whose page is a picture"

FORM_ROOM_BYTES = 64 * 1024
"""What a form may need around the largest file."""

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
                    "dpi": {"type": "number", "description": "for a picture: the dots an inch of the scan"},
                    "known_length": {
                        "type": "string",
                        "description": "for a picture: how far apart the points of `between` are",
                    },
                    "between": {
                        "type": "string",
                        "description": "two points of the picture, in pixels: [[x, y], [x, y]]",
                    },
                    "page": {"type": "integer", "description": "which page of a PDF; the first is 1"},
                },
            }
        }
    },
}


@dataclass
class Form:
    """What was sent: bytes, the name they are kept under, and the texts of the other fields."""

    data: bytes
    name: str
    texts: Mapping[str, str]
    faults: list[dict[str, str]] = field(default_factory=list)

    @property
    def kind(self) -> str | None:
        """What kind of picture it is, in words; None for a drawing."""
        return next((kind for magic, kind in PICTURES.items() if self.data.startswith(magic)), None)

    def asked(self, measure: str) -> TracingAsked:
        """What is asked of the tracing; a `Problem` with every field that cannot be read."""
        asked = TracingAsked(
            self.data,
            self.name,
            dpi=self._number("dpi", "dots an inch, as 300"),
            known_length_mm=self.length("known_length", measure),
            between=self.points("between"),
            page=self._page(),
        )
        if self.faults:
            raise Problem(422, say_faults(self.faults), name="faults", errors=self.faults)
        return asked

    def _number(self, name: str, right: str) -> float | None:
        text = self.texts.get(name, "").strip()
        if not text:
            return None
        try:
            value = float(text)
        except ValueError:
            value = math.nan
        if not (math.isfinite(value) and value > 0):
            self.note(name, f'"{text[:80]}" is no such number', right)
            return None
        return value

    def _page(self) -> int | None:
        text = self.texts.get("page", "").strip()
        if not text:
            return None
        if not re.fullmatch(r"[1-9][0-9]{0,4}", text):
            self.note("page", f'"{text[:80]}" is no page', "a whole number; the first page is 1")
            return None
        return int(text)

    def length(self, name: str, measure: str) -> float | None:
        """A length in millimetres out of a field, or None; what cannot be read is noted."""
        text = self.texts.get(name, "").strip()
        if not text:
            return None
        right = 'a length above nothing, as "100 mm" or "4 in"'
        try:
            length = parse_length(text[:80], measure)
        except NotALength as why:
            self.note(name, f"{why}", right)
            return None
        if length <= 0:
            self.note(name, f'"{text}" is no length to scale by', right)
            return None
        return float(length * MM_PER_INCH)

    def points(self, name: str) -> tuple[Pixel, Pixel] | None:
        """Two points in pixels out of a field, or None; what cannot be read is noted."""
        text = self.texts.get(name, "").strip()
        if not text:
            return None
        numbers = [float(n) for n in re.findall(r"-?\d{1,6}(?:\.\d{1,9})?", text[:200])]
        if len(numbers) != 4 or re.sub(r"[-\d.,;\s\[\]()]", "", text):
            right = "two points in pixels from the top left corner: [[x, y], [x, y]]"
            self.note(name, f'"{text[:80]}" is not two points', right)
            return None
        return (numbers[0], numbers[1]), (numbers[2], numbers[3])

    def note(self, name: str, detail: str, right: str) -> None:
        """Keep a fault of a field."""
        self.faults.append(fault(detail, right, pointer=f"/{name}"))


def read_form() -> Form:
    """The form of the present request; a `Problem` where it is none, or its file is missing or too large."""
    settings = parts().settings
    largest = max(settings.upload_limit_bytes, settings.picture_limit_bytes)
    # Photographs are larger than any other body; here alone more is let in.
    request.max_content_length = largest + FORM_ROOM_BYTES
    try:
        sent = take_file(FIELDS, FILE_WORDS)
    except RequestEntityTooLarge as why:
        raise too_large("picture", largest) from why
    name = name_of(sent, "an outline file", "leek.svg")
    data = sent.stream.read(largest + 1)
    sent.close()
    picture = data.startswith(tuple(PICTURES))
    most = settings.picture_limit_bytes if picture else settings.upload_limit_bytes
    if len(data) > most:
        raise too_large("picture" if picture else "drawing", most)
    texts = {key: request.form[key] for key in SCALE_FIELDS if request.form.get(key)}
    return Form(data, name, texts)


def too_large(what: str, most: int) -> Problem:
    """The refusal of a file with more than `most` bytes."""
    return Problem(
        413, f"A {what} may have {most:,} bytes; this one has more.", headers={"Connection": "close"}
    )


def take_file(names: Sequence[str], words: str) -> FileStorage:
    """The part named file of the present request, whose other fields have these names; `words` say what file."""
    if request.mimetype != "multipart/form-data":
        sent = request.mimetype or "a body without a Content-Type"
        raise Problem(
            415,
            f"This takes multipart/form-data with a part named file; {sent} was sent.",
            headers={"Accept": "multipart/form-data"},
        )
    unknown = [key for key in (*request.form, *request.files) if key not in ("file", *names)]
    if unknown:
        right = f"file, and where they are needed {', '.join(names)}"
        raise refuse_one(f'There is no field "{unknown[0][:80]}" here.', right, pointer="/" + unknown[0][:80])
    sent_file = request.files.get("file")
    if sent_file is None:
        raise refuse_one(
            "The part named file is missing.", f"{words} in the part named file", pointer="/file"
        )
    return sent_file


def name_of(sent: FileStorage, what: str, like: str) -> str:
    """The name a file is kept under. A client's file name is a label, never a path."""
    given = request.form.get("name") or (sent.filename or "").replace("\\", "/").rsplit("/", 1)[-1]
    name = unicodedata.normalize("NFC", given.strip())
    plain = all(unicodedata.category(sign)[0] not in "CZ" or sign == " " for sign in name)
    if not name or len(name) > LONGEST_NAME or not plain or name in (".", "..") or set(name) & set("#/\\"):
        raise refuse_one(
            f'"{name[:80]}" cannot be the name of {what}.',
            f"1 to {LONGEST_NAME} characters without # / and \\, for example {like}",
            pointer="/name",
        )
    return name
