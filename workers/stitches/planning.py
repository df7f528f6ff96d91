"""From a project to its hoopings: every piece read, sewn and laid into the sewing fields of the tracks."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import numpy as np

from service.craft.document import Project
from service.craft.measure import MM_PER_INCH
from service.craft.measure.lengths import RULER_MARKS
from service.craft.outlines import (
    OpenLine,
    Outline,
    OutlineNotFound,
    find_detail,
    find_outline,
    find_placing,
    flatten,
    flatten_line,
    place,
)
from service.craft.outlines.laid_pieces import lay_pieces
from service.craft.pieces import Piece
from service.craft.stitching import LINE_KINDS, MM, Detail
from workers.recipe import CannotMake, JobInput
from workers.stitches.choosing import choose_settings, in_mm
from workers.stitches.hooping import plan_hoopings, stacking_order
from workers.stitches.marks import Ruler
from workers.stitches.passes import sew_piece
from workers.stitches.pieces import DetailLine, Hooping, SewnPiece, StitchPiece
from workers.stitches.settings import USUAL, Field
from workers.stitches.splitting import read_parts, split_for


def sew_pieces(job: JobInput, project: Project, tell: Callable[[float, str], None]) -> list[SewnPiece]:
    """Every piece of a project sewn whole, from the bottom up; `tell` hears the share that is done."""
    pieces = stacking_order(read_all(job, project))
    sewn = []
    for done, piece in enumerate(pieces):
        tell(done / len(pieces), f"Laying stitches round {piece.name}")
        sewn.append(sew_piece(piece, piece.settings))
    return sewn


def plan_fields(job: JobInput, project: Project, sewn: list[SewnPiece]) -> dict[str, list[Hooping]]:
    """The hoopings of every sewing field of the tracks, by the field's label; `CannotMake` for a piece too large."""
    ruler = Ruler(in_mm(RULER_MARKS[project.measure], 1.0), in_mm(project.seam_allowance, 0.0))
    parts = {piece.name: read_parts(piece, find_drawn(job, piece)) for piece in project.pieces if piece.split}
    return {
        field.label: plan_hoopings(split_for(sewn, parts, field, USUAL), field, USUAL, ruler)
        for field in fields_of(project)
    }


def fields_of(project: Project) -> list[Field]:
    """The distinct sewing fields of the project's tracks, in the tracks' order.

    Fields of one label differ by less than a millimetre: the smaller sides serve both.
    """
    found: dict[str, Field] = {}
    for track in project.tracks:
        if track.hoop is None:
            continue
        field = Field(float(track.hoop.width_mm), float(track.hoop.height_mm))
        other = found.get(field.label, field)
        found[field.label] = Field(min(field.width_mm, other.width_mm), min(field.height_mm, other.height_mm))
    return list(found.values())


def read_all(job: JobInput, project: Project) -> tuple[StitchPiece, ...]:
    """Every piece, above what it overlaps: what nothing is said of lies there in the order of the document."""
    outlines = {piece.name: find_drawn(job, piece) for piece in project.pieces}
    laid = lay_pieces(project.pieces, outlines)
    return tuple(
        replace(read_piece(job, project, piece, outlines[piece.name]), above=laid.comes_after[piece.name])
        for piece in project.pieces
    )


def find_drawn(job: JobInput, piece: Piece) -> Outline:
    """A piece's outline as drawn; `CannotMake` where it is not there."""
    try:
        return find_outline(job.outlines, piece.outline)
    except OutlineNotFound as missing:
        raise CannotMake(missing.detail, pointer=f"{piece.pointer}/outline", right=missing.right) from missing


def read_piece(job: JobInput, project: Project, piece: Piece, outline: Outline) -> StitchPiece:
    """A piece with its outline placed on the top and flattened."""
    placed = place(piece, outline)
    details = tuple(read_detail(job, piece, detail, outline) for detail in piece.details)
    return StitchPiece(
        name=piece.name,
        rings=tuple(flatten(ring) for ring in placed.rings),
        thread=piece.thread,
        edge=piece.hoop_edge,
        trim_in_place=project.fabrics[piece.fabric].trim_in_place,
        above=piece.above,
        pointer=piece.pointer,
        private=not may_leave_with_details(project, piece),
        settings=choose_settings(piece, project.fabrics[piece.fabric]),
        details=details,
        motif=name_motif(piece),
        turn_degrees=float(piece.turn),
        at_mm=(float(piece.at[0] * MM_PER_INCH), float(piece.at[1] * MM_PER_INCH)),
        turned=piece.turned_under,
    )


def name_motif(piece: Piece) -> str:
    """What makes two pieces the same shape but for their place and turn."""
    details = [replace(detail, pointer="") for detail in piece.details]
    lines = [(line.start, line.end) for line in piece.split]
    return f"{piece.outline} {piece.scale} {piece.mirror} {details} {lines}"


def may_leave_with_details(project: Project, piece: Piece) -> bool:
    """Whether the piece's outline and those of its details may all stand in a public bundle."""
    drawn = [piece, *(replace(piece, outline=detail.outline) for detail in piece.details if detail.outline)]
    return all(project.may_leave(one) for one in drawn)


def read_detail(job: JobInput, piece: Piece, detail: Detail, outline: Outline) -> DetailLine:
    """A detail placed on the top as it lies to the piece's outline."""
    onto, closed = find_placing(piece, outline), detail.closed
    if detail.outline:
        found = find_drawn_detail(job, detail)
        closed = isinstance(found, Outline)
        paths = (
            tuple(flatten(ring) for ring in found.moved(onto).rings)
            if isinstance(found, Outline)
            else (flatten_line(found.moved(onto)),)
        )
    else:
        left, top, right, bottom = outline.box_mm
        middle = ((left + right) / 2, (top + bottom) / 2)
        corners = [(middle[0] + float(x / MM), middle[1] + float(y / MM)) for x, y in detail.points]
        paths = (np.array([onto.apply(corner) for corner in corners]),)
    return DetailLine(
        sew=detail.sew,
        paths=paths,
        closed=closed,
        width_mm=in_mm(detail.width, USUAL.line_width_mm),
        angle_degrees=float(detail.angle),
        thread=detail.thread,
        pointer=detail.pointer,
    )


def find_drawn_detail(job: JobInput, detail: Detail) -> Outline | OpenLine:
    """The closed shape or open line that a detail names; `CannotMake` where it is not there, or a fill has no area."""
    where = f"{detail.pointer}/outline"
    try:
        found = find_detail(job.outlines, detail.outline)
    except OutlineNotFound as missing:
        raise CannotMake(missing.detail, pointer=where, right=missing.right) from missing
    if isinstance(found, OpenLine) and detail.sew == "fill":
        raise CannotMake(
            f'"{detail.outline}" is an open line: a fill has an area', pointer=where, right=LINE_KINDS
        )
    return found
