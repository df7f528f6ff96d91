"""What the drawings look at: small plain views of a project, in inches, each drawn by itself."""

from __future__ import annotations

import string
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from service.craft.document import Project
from service.craft.drawing.sheet import Polygon
from service.craft.fabric import Fabric
from service.craft.finish import Source
from service.craft.measure import Exact
from service.craft.outlines import OutlineFile, Ring, find_outline, place, read_files
from service.craft.outlines.affine import Point
from service.craft.pieces import Piece
from service.craft.stacking import stack
from service.craft.units import Unit


@dataclass(frozen=True)
class ClothView:
    """One cloth as drawings show it: `order` (0, 1, 2 …) gives its letter and the direction of its hatch.

    Without `hatched` it is plain colour, for judging value. Where it is not `filled`, a photograph of the whole top
    lies under it; `sample` is a piece of the cloth's own photograph (JPEG) as large as a swatch of a legend.
    """

    key: str
    name: str
    colour: str
    order: int
    hatched: bool = True
    filled: bool = True
    sample: bytes = b""

    @property
    def letter(self) -> str:
        """A to Z, then AA, AB and so on."""
        letters = string.ascii_uppercase
        high, low = divmod(self.order, len(letters))
        return (letters[high - 1] if high else "") + letters[low]


@dataclass(frozen=True)
class PatchView:
    """A patch: its corners in inches and its cloth's key; `hole` is what other patches hide in its middle."""

    points: Polygon
    cloth: str
    hole: Polygon = ()

    def place(self, put: Callable[[Point], Point]) -> list[Polygon]:
        """Its edge, and its hole's where it has one, with every corner put somewhere else."""
        return [[put(corner) for corner in ring] for ring in (self.points, self.hole) if ring]

    def moved(self, dx: float, dy: float) -> PatchView:
        """The patch somewhere else."""
        points, *hole = self.place(lambda corner: (corner[0] + dx, corner[1] + dy))
        return PatchView(tuple(points), self.cloth, tuple(hole[0]) if hole else ())


@dataclass(frozen=True)
class PieceView:
    """An applique piece where it lies, its rings in millimetres from the top's upper left corner.

    `bring_own`: the outline is not ours to show; a public picture has a dashed box in its place.
    """

    name: str
    cloth: str
    rings: tuple[Ring, ...]
    box_mm: tuple[float, float, float, float]
    bring_own: bool = False


@dataclass(frozen=True)
class TopView:
    """A finished top, or one unit of it: sizes in inches, pieces in the order they are laid.

    `ground` is a photograph (JPEG) of all its cloths as they lie, which fills it.
    """

    title: str
    width: float
    height: float
    measure: str
    cloths: Mapping[str, ClothView]
    patches: tuple[PatchView, ...]
    pieces: tuple[PieceView, ...] = ()
    ground: bytes = b""


@dataclass(frozen=True)
class SeamView:
    """A seam from `start` to `end` (inches in the stage's picture); `press` as in the sewing plan."""

    start: tuple[float, float]
    end: tuple[float, float]
    press: str = ""
    number: int | None = None


@dataclass(frozen=True)
class StageView:
    """What one sewing stage makes: its patches, the seams of this stage, and what it should measure."""

    title: str
    width: float
    height: float
    cloths: Mapping[str, ClothView]
    patches: tuple[PatchView, ...]
    seams: tuple[SeamView, ...] = ()
    width_text: str = ""
    height_text: str = ""


@dataclass(frozen=True)
class CutInStrip:
    """Cuts side by side in a strip: how many, their size along and across it in inches, and in words.

    `letter` stands for the size, as in the table beside the drawing. A cut for `diamonds` is cut again at 45 degrees,
    into so many.
    """

    count: int
    along: float
    across: float
    text: str
    diagonals: int = 0
    letter: str = ""
    diamonds: int = 0


@dataclass(frozen=True)
class ColumnInStrip:
    """A column across a strip: its width in inches and in words, and its cuts from the top down."""

    width: float
    text: str
    cuts: tuple[CutInStrip, ...]


@dataclass(frozen=True)
class StripView:
    """One strip cut across the cloth: its height in inches and in words, and what is cut from it, left to right.

    In a strip of `columns` pieces lie one above the other; it has no other cuts.
    """

    height: float
    text: str
    cuts: tuple[CutInStrip, ...] = field(default=())
    columns: tuple[ColumnInStrip, ...] = field(default=())


def view_cloths(fabrics: Mapping[str, Fabric]) -> dict[str, ClothView]:
    """The cloths of a project in the document's order."""
    return {
        key: ClothView(key, cloth.name, cloth.colour, order)
        for order, (key, cloth) in enumerate(fabrics.items())
    }


def view_patches(unit: Unit) -> tuple[PatchView, ...]:
    """A unit's patches in inches, rounded to floats for drawing only."""
    return tuple(
        PatchView(_floats(patch.points), patch.fabric, _floats(patch.hole)) for patch in unit.patches()
    )


def _floats(points: Iterable[tuple[Exact, Exact]]) -> Polygon:
    return tuple((float(x), float(y)) for x, y in points)


def view_unit(unit: Unit, *, title: str, measure: str, cloths: Mapping[str, ClothView]) -> TopView:
    """One unit or block by itself."""
    return TopView(title, float(unit.width), float(unit.height), measure, cloths, view_patches(unit))


def view_pieces(
    pieces: Iterable[Piece],
    outlines: Mapping[str, OutlineFile | Mapping[str, Any]],
    sources: Iterable[Source] = (),
) -> tuple[PieceView, ...]:
    """The pieces where they lie, lowest first; of some `sources` viewers bring the outlines themselves.

    An `OutlineNotFound` says which outline is not there.
    """
    owned = [source for source in sources if not source.may_leave]
    views, files = [], read_files(outlines)
    by_name = {piece.name: piece for piece in pieces}
    for name in stack({piece.name: piece.above for piece in by_name.values()}):
        piece = by_name[name]
        laid = place(piece, find_outline(files, piece.outline))
        bring = any(source.covers_outline(piece.outline) for source in owned)
        views.append(PieceView(piece.name, piece.fabric, laid.rings, laid.box_mm, bring))
    return tuple(views)


def view_top(project: Project, outlines: Mapping[str, OutlineFile | Mapping[str, Any]]) -> TopView:
    """The finished top of a project with its pieces on it; `OutlineNotFound` where an outline is missing."""
    return TopView(
        title=project.title,
        width=float(project.top.width),
        height=float(project.top.height),
        measure=project.measure,
        cloths=view_cloths(project.fabrics),
        patches=view_patches(project.top),
        pieces=view_pieces(project.pieces, outlines, project.sources),
    )
