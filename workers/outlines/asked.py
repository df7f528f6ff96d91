"""What a job of this room asks for: its project, its pieces with their outlines, and whether they may leave."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cached_property

from service.craft.document import Project, read_document
from service.craft.fabric import Fabric
from service.craft.faults import DocumentFaults
from service.craft.outlines import Outline, OutlineFile, OutlineNotFound, find_outline, read_files
from service.craft.outlines.affine import Affine
from service.craft.outlines.cut_shapes import CutShape, Run, make_cut_shapes, unplacing
from service.craft.outlines.polygons import to_polygon
from service.craft.pieces import Piece
from service.craft.tracks import Track
from workers.recipe import CannotMake, JobInput

FROM_BACK = Affine.scaling(-1, 1)
"""A piece as it is seen from the back of its cloth."""

SAME_SHAPE_SHARE = 0.002
"""A shape equals its mirror image where they differ by less than this share of the area."""


@dataclass(frozen=True)
class AskedPiece:
    """A piece with its outline at its size: scaled, and mirrored where the piece is, but not turned.

    The outline's box begins at (0, 0). `cut` is the shape it is cut in, in the same place: with what reaches under
    other pieces and what is turned under. `under` are the stretches of the cut edge that lie under others, and
    `underlaps` names what lies on those that were extended, each with how deep the extension gets, `turning_mm` is
    what is turned under along a turned edge. `public` is false where a viewer must own the outline.
    """

    piece: Piece
    outline: Outline
    fabric: Fabric
    public: bool
    cut: Outline
    under: tuple[Run, ...] = ()
    underlaps: tuple[tuple[str, float], ...] = ()
    turning_mm: float = 0.0

    @cached_property
    def symmetrical(self) -> bool:
        """Whether the cut shape can be laid on its mirror image by turning it by quarter or half turns."""
        return is_symmetrical(at_origin(self.cut))

    @property
    def fusible_side(self) -> Outline:
        """The cut shape seen from the back of the cloth, where fusible web lies."""
        return at_origin(self.cut.moved(FROM_BACK))


def read_project(job: JobInput) -> Project:
    """The job's project; `CannotMake` with the first fault of a document that cannot be sewn."""
    try:
        return read_document(job.document)
    except DocumentFaults as faults:
        first = faults.faults[0]
        raise CannotMake(str(faults), pointer=first.pointer, right=first.right) from faults


def read_track(job: JobInput, project: Project) -> Track:
    """The track the job is for; `CannotMake` where the project has none of that name."""
    for track in project.tracks:
        if track.name == job.track:
            return track
    names = ", ".join(f'"{track.name}"' for track in project.tracks)
    raise CannotMake(f'the project has no track "{job.track}"', pointer="/tracks", right=f"one of {names}")


def read_pieces(job: JobInput, project: Project) -> list[AskedPiece]:
    """Every piece of the project, in its order; `CannotMake` where an outline is not there."""
    files = read_files(job.outlines)
    outlines = {piece.name: _find(files, piece) for piece in project.pieces}
    shapes = make_cut_shapes(project.pieces, outlines, project.applique)
    return [_ask(piece, outlines[piece.name], shapes[piece.name], project) for piece in project.pieces]


def _find(files: Mapping[str, OutlineFile], piece: Piece) -> Outline:
    try:
        return find_outline(files, piece.outline)
    except OutlineNotFound as missing:
        raise CannotMake(missing.detail, pointer=f"{piece.pointer}/outline", right=missing.right) from missing


def _ask(piece: Piece, outline: Outline, shape: CutShape, project: Project) -> AskedPiece:
    scale = float(piece.scale)
    sized = at_origin(outline.moved(Affine.scaling(-scale if piece.mirror else scale, scale)))
    back = unplacing(piece, sized.width_mm, sized.height_mm)
    return AskedPiece(
        piece,
        sized,
        project.fabrics[piece.fabric],
        project.may_leave(piece),
        sized if shape.outline is shape.finished else shape.outline.moved(back),
        tuple(tuple(back.apply(point) for point in run) for run in shape.under),
        tuple((name, found.reach_mm) for name, found in shape.underlaps),
        project.applique.turning_mm if piece.turned_under else 0.0,
    )


def at_origin(outline: Outline) -> Outline:
    """The outline moved so that its box begins at (0, 0)."""
    left, top, _, _ = outline.box_mm
    return outline.moved(Affine.moving(-left, -top))


def is_symmetrical(outline: Outline) -> bool:
    """Whether a shape is its own mirror image, across, along, or along a diagonal of its box."""
    shape = to_polygon(outline)
    mirrored = outline.moved(Affine.scaling(-1, 1))
    for degrees in (0, 90, 180, 270):
        other = at_origin(mirrored.moved(Affine.turning(degrees)))
        if shape.symmetric_difference(to_polygon(other)).area < SAME_SHAPE_SHARE * shape.area:
            return True
    return False
