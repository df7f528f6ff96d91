"""The shape that an applique step is about, as its scenes draw it: moved, grown, mirrored, with few corners.

A scene shows the piece's own outline. One that viewers must own is in no picture: a plain card stands for it.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from shapely import LineString, MultiPolygon, Polygon, affinity, box
from shapely.geometry.base import BaseGeometry

from service.craft.drawing.scenes import Line, Piece
from service.craft.language import mark
from service.craft.outlines import Outline
from service.craft.outlines.affine import Point
from service.craft.planar.naming import PatchTemplate
from workers.sewing.steps.scenes.areas import (
    Put,
    count_corners,
    draw_area,
    draw_edges,
    flatten_outline,
    list_polygons,
)

ROOM: Point = (11.0, 8.2)
"""The largest box of a shape in a scene whose top is 20 wide and 12 high."""

NEAR, FARTHEST, MOST_CORNERS = 0.03, 0.5, 56
"""How near a drawn shape follows the curve, in the measure of scenes (about 2 mm): as near as so many corners allow."""

OWN_PATTERN = mark("your pattern's piece")
"""What stands beside the card that is drawn for an outline viewers must own."""

Lower = tuple[BaseGeometry, str]
"""What lies lower on the top: its shape and its cloth's key."""


@dataclass(frozen=True)
class Motif:
    """An area, what lies under it on the top, and words where it is not the piece's own shape."""

    area: BaseGeometry
    lower: tuple[Lower, ...] = ()
    words: str = ""

    def moved(self, x: float, y: float) -> Motif:
        """The same elsewhere."""
        return self._put(lambda area: affinity.translate(area, x, y))

    def mirrored(self) -> Motif:
        """As it is seen from the back, about the middle of the scene's (0, 0)."""
        return self._put(lambda area: affinity.scale(area, -1, 1, origin=(0, 0)))

    def fitted(self, width: float, height: float) -> Motif:
        """As large as the room allows, its middle at (0, 0)."""
        left, top, right, bottom = self.area.bounds
        scale = min(width / max(right - left, 1e-9), height / max(bottom - top, 1e-9))
        x, y = (left + right) / 2, (top + bottom) / 2
        return self.moved(-x, -y)._put(lambda area: affinity.scale(area, scale, scale, origin=(0, 0)))

    def grown(self, by: float) -> Motif:
        """Larger all round by so much; smaller where it is negative, or the same where nothing would be left."""
        made = self.area.buffer(by, join_style="mitre", mitre_limit=2.0).simplify(NEAR)
        return replace(self, area=self.area if made.is_empty else made)

    def thinned(self) -> Motif:
        """The same with no more corners than a small picture shows."""
        near, area = NEAR, self.area.simplify(NEAR)
        while near < FARTHEST and count_corners(area) > MOST_CORNERS:
            near *= 1.5
            area = self.area.simplify(near)
        return replace(self, area=area, lower=tuple((one.simplify(near), cloth) for one, cloth in self.lower))

    @property
    def middle(self) -> Point:
        """A point inside, near the middle."""
        at = self.area.representative_point()
        return float(at.x), float(at.y)

    def on_right(self, share: float = 0.5) -> Point:
        """The point of its edge furthest right at a share of its height."""
        return find_right(self.area, share)

    def draw(self, cloth: str, *, back: bool = False) -> tuple[Piece, ...]:
        """It in a cloth; bare where that is none."""
        return draw_area(self.area, cloth, back=back)

    def draw_lower(self, left: float, top: float, right: float, bottom: float) -> tuple[Piece, ...]:
        """What lies under it, as far as it is seen within a box."""
        seen = box(left, top, right, bottom)
        return tuple(
            piece for area, cloth in self.lower for piece in draw_area(area.intersection(seen), cloth)
        )

    def trace(self, kind: str) -> tuple[tuple[str, Line], ...]:
        """A line of a kind all along its edges."""
        return draw_edges(self.area, kind)

    def say(self) -> tuple[tuple[Point, str], ...]:
        """A label where it is not the piece's own shape; none where it is."""
        return ((self.middle, self.words),) if self.words else ()

    def _put(self, put: Put) -> Motif:
        return replace(self, area=put(self.area), lower=tuple((put(one), cloth) for one, cloth in self.lower))


def find_right(area: BaseGeometry, share: float) -> Point:
    """The point of an area's edge furthest right at a share of its height."""
    left, top, right, bottom = area.bounds
    y = top + (bottom - top) * share
    met = area.intersection(LineString([(left - 1, y), (right + 1, y)]))
    return float(right if met.is_empty else met.bounds[2]), float(y)


def show_template(template: PatchTemplate, seam_allowance: Fraction) -> Motif:
    """A template for patches by its cut line, its seam line under it."""
    cut, seam = Polygon(template.cut_line(seam_allowance)), Polygon(template.seam_line)
    return Motif(cut, ((seam, ""),)).fitted(*ROOM).thinned()


def show_outlines(outlines: Iterable[Outline], room: Point = ROOM) -> Motif:
    """Outlines side by side in their true proportions, as large as the room allows."""
    areas: list[Polygon] = []
    right = 0.0
    for outline in outlines:
        area = flatten_outline(outline)
        left, top, far, bottom = area.bounds
        gap = 0.15 * (far - left) if areas else 0.0
        areas += list_polygons(affinity.translate(area, right + gap - left, -(top + bottom) / 2))
        right += gap + far - left
    return Motif(MultiPolygon(areas)).fitted(*room).thinned()


def show_placed(outline: Outline, lower: Sequence[tuple[Outline, str]], room: Point = ROOM) -> Motif:
    """An outline as it lies on the top, with those that lie under it."""
    below = tuple((flatten_outline(one), cloth) for one, cloth in lower)
    return Motif(flatten_outline(outline), below).fitted(*room).thinned()


def show_card(words: str = "") -> Motif:
    """A plain card, for a piece whose shape is not shown."""
    corner, side = 1.2, 4.0
    points = [
        (x * (side - a), y * (side - b))
        for x, y, a, b in (
            (-1, -1, corner, 0),
            (1, -1, corner, 0),
            (1, -1, 0, corner),
            (1, 1, 0, corner),
            (1, 1, corner, 0),
            (-1, 1, corner, 0),
            (-1, 1, 0, corner),
            (-1, -1, 0, corner),
        )
    ]
    return Motif(MultiPolygon([(points, [])]), words=words)
