"""Which piece lies where on which mat: the plan that SVG, DXF and report are written from."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from typing import TypeVar

from service.craft.document import Project
from service.craft.fabric import Fabric
from service.craft.outlines import Outline, Ring
from service.craft.outlines.affine import Affine, Point
from service.craft.outlines.polygons import to_polygon
from service.craft.tracks import slug
from workers.outlines.asked import AskedPiece, at_origin
from workers.outlines.layout import AS_PLACED, IN_ROWS, QUARTER_TURNS, Room, lay_on_mats
from workers.outlines.shelves import BoxItem
from workers.recipe import CannotMake

Thing = TypeVar("Thing")


@dataclass(frozen=True)
class CutSettings:
    """Room on a mat, mm, and how pieces of cloth without a direction may be turned.

    Common practice, no source: cloth tears where two cuts come nearer than 5 mm.
    """

    spacing_mm: float = 5.0
    margin_mm: float = 6.0
    plain_turns: tuple[float, ...] = QUARTER_TURNS


@dataclass(frozen=True)
class Mat:
    """A cutting mat and the tracks that have it."""

    label: str
    width_mm: float
    height_mm: float
    tracks: tuple[str, ...]


@dataclass(frozen=True)
class LaidPiece:
    """A piece as it is cut: where it lies on the mat (mm, y down), seen from the fusible side."""

    name: str
    outline: Outline

    @property
    def cuts(self) -> tuple[Ring, ...]:
        """Its rings in cutting order: holes first, while the piece still holds to the cloth round it."""
        outer, *holes = self.outline.rings
        return (
            *_nearest_first(holes, holes[0].start if holes else (0.0, 0.0), lambda ring: ring.start),
            outer,
        )


@dataclass(frozen=True)
class CutSheet:
    """One mat full: one cloth, one file."""

    stem: str
    fabric: Fabric
    mat: Mat
    pieces: tuple[LaidPiece, ...]
    public: bool
    way: str = IN_ROWS

    @property
    def box_mm(self) -> tuple[float, float, float, float]:
        """The box round all its pieces: left, top, right, bottom."""
        boxes = [piece.outline.box_mm for piece in self.pieces]
        lows, highs = [min(b[i] for b in boxes) for i in (0, 1)], [max(b[i] for b in boxes) for i in (2, 3)]
        return lows[0], lows[1], highs[0], highs[1]

    @property
    def used_share(self) -> float:
        """The pieces' area as a share of the mat's."""
        return sum(to_polygon(p.outline).area for p in self.pieces) / (self.mat.width_mm * self.mat.height_mm)


def list_mats(project: Project) -> list[Mat]:
    """The distinct mats of the project's tracks, in the tracks' order.

    Mats of one label differ by less than a millimetre: the smaller sides serve both.
    """
    found: dict[str, Mat] = {}
    for track in project.tracks:
        if track.cutter:
            width, height = float(track.cutter.width_mm), float(track.cutter.height_mm)
            other = found.get(track.cutter.label, Mat(track.cutter.label, width, height, ()))
            sides = min(width, other.width_mm), min(height, other.height_mm)
            found[track.cutter.label] = Mat(track.cutter.label, *sides, (*other.tracks, track.name))
    return list(found.values())


def plan_sheets(pieces: Sequence[AskedPiece], mats: Sequence[Mat], settings: CutSettings) -> list[CutSheet]:
    """The mats full for every mat size, cloth by cloth; `CannotMake` names a piece that exceeds a mat.

    What a viewer must own lies on mats of its own, which stay in the studio. Pieces with a turned edge lie on mats of
    their own as well: their cloth has no web.
    """
    sheets: list[CutSheet] = []
    taken: set[str] = set()
    cut = [asked for asked in pieces if not asked.fabric.trim_in_place]
    for mat in mats:
        for fabric in dict.fromkeys(asked.fabric.key for asked in cut):
            own = [asked for asked in cut if asked.fabric.key == fabric]
            for turned, public in product((False, True), (True, False)):
                group = [a for a in own if (a.piece.turned_under, a.public) == (turned, public)]
                kinds = [*(["turned"] if turned else []), *([] if public else ["studio"])]
                words = [fabric, *kinds, *([mat.label] if len(mats) > 1 else [])]
                if group:
                    stem = _free_stem("-".join(["cut", *map(slug, words)]), taken)
                    sheets += _lay(group, mat, stem, settings)
    return sheets


def _free_stem(stem: str, taken: set[str]) -> str:
    """Two cloths whose names differ by a comma must not share a file."""
    own, n = stem, 1
    while own in taken:
        n += 1
        own = f"{stem}-other{n}"
    taken.add(own)
    return own


def _lay(group: Sequence[AskedPiece], mat: Mat, stem: str, settings: CutSettings) -> list[CutSheet]:
    outlines = [_as_cut(asked) for asked in group]
    turns = AS_PLACED if group[0].fabric.one_way else settings.plain_turns
    margin = settings.margin_mm
    room = Room(mat.width_mm - 2 * margin, mat.height_mm - 2 * margin, settings.spacing_mm)
    for asked, outline in zip(group, outlines, strict=True):
        _check_size(asked, outline, mat, settings)
    layout = lay_on_mats(outlines, turns, room)
    laid: dict[int, list[LaidPiece]] = {}
    for asked, (n, outline) in zip(group, layout.places, strict=True):
        laid.setdefault(n, []).append(
            LaidPiece(asked.piece.name, outline.moved(Affine.moving(margin, margin)))
        )
    return [
        CutSheet(
            f"{stem}-{n + 1}", group[0].fabric, mat, _in_cutting_order(laid[n]), group[0].public, layout.way
        )
        for n in sorted(laid)
    ]


def _as_cut(asked: AskedPiece) -> Outline:
    """The outline seen from the fusible side; on a cloth with a direction, turned as it lies on the top.

    A turn seen from the back goes the other way round.
    """
    back = asked.fusible_side
    if not asked.fabric.one_way:
        return back
    return at_origin(back.moved(Affine.turning(-float(asked.piece.turn))))


def _check_size(asked: AskedPiece, outline: Outline, mat: Mat, settings: CutSettings) -> None:
    item = BoxItem(outline.width_mm, outline.height_mm, may_turn=not asked.fabric.one_way)
    room = mat.width_mm - 2 * settings.margin_mm, mat.height_mm - 2 * settings.margin_mm
    if any(width <= room[0] and height <= room[1] for width, height, _ in item.ways()):
        return
    needs = [math.ceil(side + 2 * settings.margin_mm) for side in (item.width, item.height)]
    raise CannotMake(
        f'"{asked.piece.name}" is {item.width:.1f} x {item.height:.1f} mm and does not fit the mat of'
        f" {mat.width_mm:.0f} x {mat.height_mm:.0f} mm ({', '.join(mat.tracks)})",
        pointer=asked.piece.pointer,
        right=f"a mat of at least {needs[0]} x {needs[1]} mm, which leaves {settings.margin_mm:.0f} mm all round,"
        " or a smaller piece",
    )


def _in_cutting_order(pieces: Iterable[LaidPiece]) -> tuple[LaidPiece, ...]:
    """From the mat's upper left corner always on to the nearest piece."""
    return tuple(_nearest_first(list(pieces), (0.0, 0.0), lambda piece: piece.outline.rings[0].start))


def _nearest_first(things: list[Thing], here: Point, place: Callable[[Thing], Point]) -> list[Thing]:
    left, ordered = list(things), list[Thing]()
    while left:
        nearest = min(range(len(left)), key=lambda i: (math.dist(here, place(left[i])), i))
        ordered.append(left.pop(nearest))
        here = place(ordered[-1])
    return ordered
