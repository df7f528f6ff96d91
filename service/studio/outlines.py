"""Outline files: read once when they come in; what is kept is our own model of their geometry."""

from __future__ import annotations

from datetime import datetime
from fractions import Fraction
from typing import Any

from sqlalchemy import select
from sqlalchemy.orm import Session

from service.craft.measure import length_object
from service.craft.outlines import OutlineFile, from_json, to_json
from service.craft.tracks import MM_PER_INCH
from service.storage.models import Outline, Project
from service.storage.times import uuid7

ROUNDED_TO_MM = 3
"""Decimals of a millimetre in which the size of a shape is told."""


OVERLAY = "overlay"
"""Beside the shapes of a traced picture: the sha256, in the file store, of the drawing that lies over it."""


def keep_outline(
    session: Session, project: Project, file: OutlineFile, *, now: datetime, overlay: str | None = None
) -> bool:
    """Keep a file that was read; True where it took the place of one with the same name.

    `overlay` is the name in the file store of the drawing that shows how a picture was traced.
    """
    kept = find_kept(session, project.id, file.name)
    replaced = kept is not None
    if kept is None:
        kept = Outline(id=uuid7(now), project_id=project.id, name=file.name)
        session.add(kept)
    kept.sha256 = file.sha256
    kept.stored = to_json(file) | ({OVERLAY: overlay} if overlay else {})
    kept.notes = list(file.notes)
    kept.created_at = now
    session.flush()
    return replaced


def find_kept(session: Session, project_id: str, name: str) -> Outline | None:
    """A project's outline file of that name."""
    return session.scalar(select(Outline).where(Outline.project_id == project_id, Outline.name == name))


class NameTaken(Exception):
    """Another shape of the file has that name."""


class NoSuchShape(LookupError):
    """The file holds no shape of that name; `names` are those it holds."""

    def __init__(self, names: list[str]) -> None:
        super().__init__("no such shape")
        self.names = names


def rename_shape(kept: Outline, old: str, new: str) -> None:
    """Call one shape of a kept file anew; `NoSuchShape`, `NameTaken`. What jobs were given keeps the old name."""
    names, lines = [shape["name"] for shape in kept.stored["shapes"]], kept.stored.get("lines", [])
    if old not in names:
        raise NoSuchShape(names)
    if new != old and new in [*names, *(line["name"] for line in lines)]:
        raise NameTaken
    shapes = [
        shape | {"name": new if shape["name"] == old else shape["name"]} for shape in kept.stored["shapes"]
    ]
    notes = [_about(note, old, new) for note in kept.stored["notes"]]
    # a new object: the column is written where it is set, not where it is changed within
    kept.stored = kept.stored | {"shapes": shapes, "notes": notes}
    if lines:
        moved = [line | {"shape": new if line["shape"] == old else line["shape"]} for line in lines]
        kept.stored = kept.stored | {"lines": moved}
    kept.notes = notes


def _about(note: str, old: str, new: str) -> str:
    """A note, and one on the renamed shape by its new name: such notes begin with it."""
    return f"{new}: {note[len(old) + 2 :]}" if note.startswith(f"{old}: ") else note


def find_asking(document: dict[str, Any], file_name: str, shape_name: str) -> list[dict[str, str]]:
    """The pieces of a document that ask for a shape of a file by that name, as faults with what is there now."""
    reference = f"{file_name}#{shape_name}"
    pieces = document.get("pieces")
    return [
        {"pointer": f"/pieces/{n}/outline", "detail": f'asks for "{reference}"'}
        for n, piece in enumerate(pieces if isinstance(pieces, list) else [])
        if isinstance(piece, dict) and piece.get("outline") == reference
    ]


def show_outline(stored: dict[str, Any], measure: str) -> dict[str, Any]:
    """An outline file as it stands in an answer: its shapes and their sizes, and the open lines drawn in them."""
    file = from_json(stored)
    return {
        "name": file.name,
        "sha256": file.sha256,
        "shapes": [
            {
                "name": shape.name,
                "width": length_object(_inches(shape.width_mm), measure),
                "height": length_object(_inches(shape.height_mm), measure),
                "nodes": sum(len(list(ring.pairs())) for ring in shape.rings),
            }
            for shape in file.shapes
        ],
        "lines": [{"name": line.name, "shape": line.shape} for line in file.lines],
        "notes": list(file.notes),
    }


def _inches(mm: float) -> Fraction:
    return Fraction(str(round(mm, ROUNDED_TO_MM))) / MM_PER_INCH
