"""Scenes of a piece that is sewn in several hoopings: its split, what is folded away, the stretch that is sewn."""

from __future__ import annotations

from dataclasses import dataclass

import shapely
from shapely import LineString, Polygon, affinity, box
from shapely.geometry.base import BaseGeometry

from service.craft.drawing.scenes import Line, Piece, Scene
from service.craft.language import phrase
from service.craft.outlines import place
from service.craft.outlines.affine import Point
from workers.sewing.steps.applique_in_parts import PartLesson, find_parts
from workers.sewing.steps.pieces import PieceLesson
from workers.sewing.steps.scenes.areas import draw_area, flatten_outline
from workers.stitches.across_parts import to_top

NEAR_MM = 0.8
"""How near a drawn shape follows the piece."""

AROUND_SHARE, ARM_MM = 0.12, 9.0
"""How much of the top is seen round the piece, as a share of its size; half the length of a drawn cross's lines."""


@dataclass(frozen=True)
class PartScenes:
    """A piece on the top (mm), one of its parts, the cloths of both, and where the piece is split."""

    top: BaseGeometry
    whole: BaseGeometry
    region: BaseGeometry
    later: BaseGeometry
    middles: tuple[Point, ...]
    middle: Point
    cloth: str
    ground: str

    @property
    def split(self) -> LineString:
        """The longest stretch of the split along this part."""
        lines = shapely.get_parts(self.region.boundary.intersection(self.whole))
        found = [one for one in lines if isinstance(one, LineString)]
        return max(found, key=lambda line: line.length) if found else LineString([(0, 0), (0, 1)])

    @property
    def ends(self) -> Line:
        """Where the split begins and ends."""
        first, *_, last = self.split.coords
        return (first[0], first[1]), (last[0], last[1])

    def draw(self, *, folded: bool, bare: bool = False) -> tuple[Piece, ...]:
        """The top, and on it the piece: whole, its later parts folded back along the split, or not at all."""
        ground = draw_area(self.top, self.ground)
        if bare:
            return ground
        flat = self.whole.difference(self.later) if folded else self.whole
        back = fold_over(self.whole.intersection(self.later), self.ends) if folded else None
        return (
            *ground,
            *draw_area(flat, self.cloth),
            *(draw_area(back.intersection(self.top), self.cloth, back=True) if back is not None else ()),
        )

    def stretch(self, kind: str) -> tuple[tuple[str, Line], ...]:
        """The outline of this part, without the split, as lines of a kind."""
        edge = self.whole.boundary.intersection(self.region)
        return tuple(
            (kind, ((a[0], a[1]), (b[0], b[1])))
            for part in shapely.get_parts(edge)
            if isinstance(part, LineString)
            for a, b in zip(list(part.coords), list(part.coords)[1:], strict=False)
        )

    def cross(self, at: Point) -> tuple[tuple[str, Line], ...]:
        """Two drawn lines that cross."""
        (x, y) = at
        return (
            ("drawn", ((x - ARM_MM, y), (x + ARM_MM, y))),
            ("drawn", ((x, y - ARM_MM), (x, y + ARM_MM))),
        )


def fold_over(area: BaseGeometry, line: Line) -> BaseGeometry:
    """An area mirrored in a line."""
    (x0, y0), (x1, y1) = line
    dx, dy = x1 - x0, y1 - y0
    length = dx * dx + dy * dy
    a, b = (dx * dx - dy * dy) / length, 2 * dx * dy / length
    return affinity.affine_transform(area, [a, b, b, -a, x0 - a * x0 - b * y0, y0 - b * x0 + a * y0])


def show_part(what: str, one: PieceLesson, number: int, ground: str) -> Scene | None:
    """The scene of a step about part `number` of a piece, or about its split (0); None where it has none of its own."""
    parts = find_parts(one)
    if not parts:
        return None
    before = _see(one, parts, max(number - 1, 1), ground)
    seen, last = _see(one, parts, max(number, 1), ground), number == len(parts)
    return (_marked(before, seen, first=number < 2) | _sewn(seen, last=last)).get(what)


def _marked(before: PartScenes, seen: PartScenes, *, first: bool) -> dict[str, Scene]:
    """What is drawn on the top, and what is folded away before the top is hooped; `before` is the part sewn before."""
    crosses = tuple(line for at in seen.middles for line in seen.cross(at))
    bare = seen.draw(folded=False, bare=True)
    return {
        "mark-split": Scene(
            phrase(
                "The top with a straight line to draw where the piece is split, "
                "and crosses in the middles of its hoopings"
            ),
            bare,
            (("cut", seen.ends), *crosses),
            labels=(
                (seen.ends[1], phrase("draw the split")),
                (seen.middles[0], phrase("middle of a hooping")),
            ),
        ),
        "fold": Scene(
            phrase("The loose part of the piece folded back along the split, over what is sewn"),
            before.draw(folded=True),
            labels=((seen.ends[1], phrase("fold along the split")),),
        ),
        "rehoop": Scene(
            phrase("The drawn cross of this hooping on the top"),
            bare if first else before.draw(folded=True),
            seen.cross(seen.middle),
            rings=(seen.middle,),
            labels=((seen.middle, phrase("middle of this hooping")),),
        ),
    }


def _sewn(seen: PartScenes, *, last: bool) -> dict[str, Scene]:
    """The passes of one part, and the cloth laid on its line."""
    laid = seen.draw(folded=not last)
    said = ((seen.ends[1], phrase("the split")),)
    return {
        "placement": Scene(
            phrase("The stretch of the placement line that this hooping sews, dashed, up to the split"),
            seen.draw(folded=False, bare=True),
            (*seen.stretch("sew"), ("drawn", seen.ends)),
            labels=said,
        ),
        "lay": Scene(
            phrase("The rest of the piece laid down on its line")
            if last
            else phrase("The piece on its line, what lies beyond the split folded back"),
            laid,
            labels=said,
        ),
        "finish": Scene(
            phrase("The edge of this part of the piece, up to the split and a little beyond"),
            laid,
            seen.stretch("stitches"),
            labels=said,
        ),
    }


def _see(one: PieceLesson, parts: list[PartLesson], number: int, ground: str) -> PartScenes:
    """The piece as it lies on the top, and what is seen of the top round it."""
    whole = flatten_outline(place(one.piece, one.lesson.outlines[one.name])).simplify(NEAR_MM)
    regions = [Polygon(to_top(lesson.hooping, lesson.part.region)) for lesson in parts]
    x0, y0, x1, y1 = whole.bounds
    room = AROUND_SHARE * max(x1 - x0, y1 - y0)
    middles = tuple(
        lesson.hooping.same_centre_mm if lesson.hooping.same_as else lesson.hooping.centre_mm
        for lesson in parts
    )
    return PartScenes(
        top=box(x0 - room, y0 - room, x1 + room, y1 + room),
        whole=whole,
        region=regions[number - 1],
        later=shapely.union_all(regions[number:]) if number < len(parts) else Polygon(),
        middles=middles,
        middle=middles[number - 1],
        cloth=one.piece.fabric,
        ground=ground,
    )
