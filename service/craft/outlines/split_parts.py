"""A piece whose edge is sewn in parts: straight lines across it say where one part ends and the next begins.

The cloth stays whole. Each part is what lies between the lines; its edge goes on a little beyond them, so that the
parts lie over each other. The check of a document and the stitches both ask here.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString
from shapely.geometry.base import BaseGeometry
from shapely.ops import split

from service.craft.language import mark, phrase
from service.craft.outlines.affine import Affine, Point
from service.craft.outlines.model import Outline
from service.craft.outlines.placing import find_placing
from service.craft.outlines.polygons import to_polygon
from service.craft.pieces import Piece
from service.craft.stitching import MM, SplitLine

LAP_MM = 2.0
"""How far the edge of a part goes on beyond the line: hoopings may come apart by less than twice that, and no raw edge
is bare (our own choice, no source)."""

AROUND_MM = 60.0
"""The region of a part reaches so far beyond the piece: farther than any stitch."""

LEAST_SHARE = 0.001
"""What holds less of the piece than this is no part of it."""


_Cell = tuple[tuple[bool, ...], BaseGeometry]
"""A region, and for each line whether it lies on the right or lower side of it."""


class SplitMisses(ValueError):
    """A line that leaves the piece, or each part of it, whole; `pointer` is the line's."""

    def __init__(self, pointer: str) -> None:
        self.pointer = pointer
        super().__init__("the line to split along does not cross the piece")


@dataclass(frozen=True)
class Part:
    """One part of a piece on the top, millimetres: `region` is all the room between the lines, `whole` the piece.

    Parts are numbered from 1 in the order they are sewn.
    """

    number: int
    of: int
    region: BaseGeometry
    whole: BaseGeometry

    @property
    def shape(self) -> BaseGeometry:
        """What of the piece lies between the lines."""
        return self.whole.intersection(self.region)

    @property
    def reach(self) -> BaseGeometry:
        """What of the piece its edge is sewn round: its shape, and the lap beyond its lines."""
        return self.whole.intersection(widen(self.region))


def widen(region: BaseGeometry, by_mm: float = LAP_MM) -> BaseGeometry:
    """A region and a strip beyond its lines."""
    return region.buffer(by_mm, join_style="mitre")


def split_piece(piece: Piece, outline: Outline) -> tuple[Part, ...]:
    """The parts of a piece as they lie on the top; `outline` is as drawn. `SplitMisses` where a line cuts nothing.

    Equal pieces have equal parts however they are turned: parts are numbered as they lie in the drawing, from the
    left or upper side of the first line on.
    """
    drawn = shapely.make_valid(to_polygon(outline))
    regions: list[_Cell] = [((), shapely.box(*drawn.buffer(AROUND_MM).bounds))]
    for line in piece.split:
        start, end = (_in_drawing(point, outline) for point in (line.start, line.end))
        regions = _cut(regions, start, end, drawn, line)
    onto = find_placing(piece, outline)
    ordered = [region for _, region in sorted(regions, key=lambda pair: pair[0])]
    return tuple(
        Part(n, len(ordered), _moved(region, onto), _moved(drawn, onto))
        for n, region in enumerate(ordered, start=1)
    )


def _in_drawing(point: tuple[Fraction, Fraction], outline: Outline) -> Point:
    left, top, right, bottom = outline.box_mm
    return (left + right) / 2 + float(point[0] / MM), (top + bottom) / 2 + float(point[1] / MM)


def _cut(regions: list[_Cell], start: Point, end: Point, drawn: BaseGeometry, line: SplitLine) -> list[_Cell]:
    """The regions cut along a line wherever both sides hold some of the piece."""
    across, long = _towards_right_or_down(start, end), _drawn_out(start, end, drawn)
    found: list[_Cell] = []
    for sides, region in regions:
        cut = split(region, long).geoms
        parts = [part for part in cut if part.intersection(drawn).area > LEAST_SHARE * drawn.area]
        for part in parts if len(parts) > 1 else [region]:
            inside = part.intersection(drawn).representative_point()
            far = (inside.x - start[0]) * across[0] + (inside.y - start[1]) * across[1] > 0
            found.append(((*sides, far), part))
    if len(found) == len(regions):
        raise SplitMisses(line.pointer)
    return found


def _towards_right_or_down(start: Point, end: Point) -> Point:
    """The direction across a line that leads to the right, or down across a line that lies flat."""
    x, y = end[1] - start[1], start[0] - end[0]
    return (x, y) if (x if abs(x) >= abs(y) else y) > 0 else (-x, -y)


def _drawn_out(start: Point, end: Point, drawn: BaseGeometry) -> LineString:
    """The line, straight on until it has left every region."""
    way = (end[0] - start[0], end[1] - start[1])
    length = (way[0] ** 2 + way[1] ** 2) ** 0.5
    x0, y0, x1, y1 = drawn.bounds
    far = (x1 - x0) + (y1 - y0) + 4 * AROUND_MM + LineString([start, ((x0 + x1) / 2, (y0 + y1) / 2)]).length
    step = (way[0] / length * far, way[1] / length * far)
    return LineString([(start[0] - step[0], start[1] - step[1]), (start[0] + step[0], start[1] + step[1])])


def _moved(shape: BaseGeometry, by: Affine) -> BaseGeometry:
    def move(points: NDArray[np.float64]) -> NDArray[np.float64]:
        return np.array([by.apply((x, y)) for x, y in points.tolist()])

    return shapely.transform(shape, move)


def find_split_ends(piece: Piece, outline: Outline) -> list[tuple[Point, Point]]:
    """For each line of a piece where it enters and where it leaves the piece on the top, millimetres."""
    drawn = shapely.make_valid(to_polygon(outline))
    onto = find_placing(piece, outline)
    ends = []
    for line in piece.split:
        start, end = (_in_drawing(point, outline) for point in (line.start, line.end))
        inside = shapely.get_coordinates(_drawn_out(start, end, drawn).intersection(drawn))
        if len(inside) > 1:
            along = (inside - start) @ np.subtract(end, start)
            first, last = (inside[int(pick(along))] for pick in (np.argmin, np.argmax))
            ends.append((onto.apply((first[0], first[1])), onto.apply((last[0], last[1]))))
    return [(min(pair), max(pair)) for pair in ends]


LEFT, RIGHT = mark("left part"), mark("right part")
UPPER, LOWER = mark("upper part"), mark("lower part")


def name_part(parts: Sequence[Part], number: int) -> str:
    """What a part is called: by the side it lies on where there are two, by its number otherwise.

    "left part", "right part", "upper part" or "lower part" as it lies on the top; "part 2 of 3". `say_part_name` says
    it in the language of who reads.
    """
    if len(parts) != 2:
        return f"part {number} of {len(parts)}"
    own, other = parts[number - 1].shape.centroid, parts[2 - number].shape.centroid
    x, y = own.x - other.x, own.y - other.y
    if abs(x) >= abs(y):
        return LEFT if x < 0 else RIGHT
    return UPPER if y < 0 else LOWER


def say_part_name(name: str, number: int, of: int) -> str:
    """The name of a part, which is one of so many, in the language of who reads.

    >>> say_part_name("left part", 1, 2), say_part_name("part 2 of 3", 2, 3)
    ('left part', 'part 2 of 3')
    """
    if name in (LEFT, RIGHT, UPPER, LOWER):
        return phrase(name)
    return phrase("part {number} of {count}", number=number, count=of)
