"""Finding a piece's outline among the uploaded files, and laying it where it belongs on the top."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from service.craft.outlines.affine import Affine
from service.craft.outlines.faults import OutlineNotFound
from service.craft.outlines.model import OpenLine, Outline, OutlineFile, from_json
from service.craft.pieces import Piece
from service.craft.tracks import MM_PER_INCH

LISTED_AT_MOST = 20
"""How many shapes an error names before it stops: enough to spot a slip of the pen."""


def place(piece: Piece, outline: Outline) -> Outline:
    """The outline as it lies on the top, in mm from the top's upper left corner.

    Scaled, mirrored left to right, then turned clockwise, all about the middle of its own upright box;
    that middle comes to lie at `piece.at`.
    """
    return outline.moved(find_placing(piece, outline))


def find_placing(piece: Piece, outline: Outline) -> Affine:
    """The map from the drawing of a piece's outline to the top: whatever is drawn with it lies beside it there too."""
    left, top, right, bottom = outline.box_mm
    x, y = (float(length * MM_PER_INCH) for length in piece.at)
    scale = float(piece.scale)
    about_middle = Affine.scaling(-scale if piece.mirror else scale, scale) @ Affine.moving(
        -(left + right) / 2, -(top + bottom) / 2
    )
    return Affine.moving(x, y) @ Affine.turning(float(piece.turn)) @ about_middle


def find_outline(files: Mapping[str, OutlineFile | Mapping[str, Any]], reference: str) -> Outline:
    """The outline a piece's `file#shape` means; `OutlineNotFound` says which there are.

    The file's name is matched as written. The shape may be left out where the file holds exactly one.
    """
    file_name, _, shape_name = reference.partition("#")
    file = _find_file(files, file_name)
    if not shape_name and len(file.shapes) == 1:
        return file.shapes[0]
    for shape in file.shapes:
        if shape.name == shape_name:
            return shape
    there = tuple(f"{file_name}#{shape.name}" for shape in file.shapes)
    detail = (
        f'"{file_name}" holds no shape named "{shape_name}"'
        if shape_name
        else f'"{file_name}" holds {len(there)} shapes, and the piece does not say which'
    )
    raise OutlineNotFound(detail, right=f"one of {_listed(there)}", shapes=there)


def find_lines(files: Mapping[str, OutlineFile | Mapping[str, Any]], reference: str) -> tuple[OpenLine, ...]:
    """The open lines drawn in the shape that a piece's `file#shape` means; none where it is not there."""
    try:
        shape = find_outline(files, reference)
    except OutlineNotFound:
        return ()
    file = _find_file(files, reference.partition("#")[0])
    return tuple(line for line in file.lines if line.shape == shape.name)


def find_detail(files: Mapping[str, OutlineFile | Mapping[str, Any]], reference: str) -> Outline | OpenLine:
    """The closed shape or the open line that a detail's `file#name` means; `OutlineNotFound` says which there are."""
    file_name, _, name = reference.partition("#")
    file = _find_file(files, file_name)
    line = next((line for line in file.lines if name and line.name == name), None)
    try:
        return line or find_outline(files, reference)
    except OutlineNotFound as missing:
        lines = tuple(f"{file_name}#{line.name}" for line in file.lines)
        there = (*missing.shapes, *lines)
        raise OutlineNotFound(missing.detail, right=f"one of {_listed(there)}", shapes=there) from missing


def read_files(files: Mapping[str, OutlineFile | Mapping[str, Any]]) -> dict[str, OutlineFile]:
    """Stored files as outlines, each read once: for who asks for many pieces of them."""
    return {name: file if isinstance(file, OutlineFile) else from_json(file) for name, file in files.items()}


def _find_file(files: Mapping[str, OutlineFile | Mapping[str, Any]], name: str) -> OutlineFile:
    """By the name as written: rights are granted by that name too, so no second spelling may reach a file."""
    if name in files:
        found = files[name]
        return found if isinstance(found, OutlineFile) else from_json(found)
    there = tuple(sorted(files))
    right = f"one of {_listed(there)}, or upload it" if there else f'upload "{name}"; no outline is there yet'
    raise OutlineNotFound(f'no outline file named "{name}" is there', right=right, shapes=there)


def _listed(names: tuple[str, ...]) -> str:
    shown = ", ".join(f'"{name}"' for name in names[:LISTED_AT_MOST])
    return f"{shown} and {len(names) - LISTED_AT_MOST} more" if len(names) > LISTED_AT_MOST else shown
