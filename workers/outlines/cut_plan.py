"""Which piece lies where on which mat: the plan that SVG, DXF and report are written from."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import product
from typing import TypeVar

from service.craft.fabric import Fabric
from service.craft.outlines import Outline, Ring
from service.craft.outlines.affine import Affine, Point
from service.craft.outlines.polygons import to_polygon
from service.craft.tracks import slug
from workers.outlines.asked import AskedPiece, at_origin
from workers.outlines.layout import AS_PLACED, IN_ROWS, Room, lay_on_mats
from workers.outlines.mat_room import CutSettings, Mat, fit_to_room
from workers.patience import Left, endless

Thing = TypeVar("Thing")


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


def plan_sheets(
    pieces: Sequence[AskedPiece], mats: Sequence[Mat], settings: CutSettings, left: Left = endless
) -> list[CutSheet]:
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
                    sheets += _lay(group, mat, stem, settings, left)
    return sheets


def _free_stem(stem: str, taken: set[str]) -> str:
    """Two cloths whose names differ by a comma must not share a file."""
    own, n = stem, 1
    while own in taken:
        n += 1
        own = f"{stem}-other{n}"
    taken.add(own)
    return own


def _lay(
    group: Sequence[AskedPiece], mat: Mat, stem: str, settings: CutSettings, left: Left
) -> list[CutSheet]:
    turns = AS_PLACED if group[0].fabric.one_way else settings.plain_turns
    margin = settings.margin_mm
    room = Room(mat.width_mm - 2 * margin, mat.height_mm - 2 * margin, settings.spacing_mm)
    outlines = [fit_to_room(asked, _as_cut(asked), turns, mat, settings) for asked in group]
    layout = lay_on_mats(outlines, turns, room, left)
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
