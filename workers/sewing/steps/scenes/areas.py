"""Areas as scenes draw them: outlines as polygons, polygons as pieces of cloth and as lines along their edges."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from shapely import MultiPolygon, Polygon, make_valid
from shapely.geometry.base import BaseGeometry

from service.craft.drawing.scenes import Line, Piece
from service.craft.outlines import Outline, flatten
from service.craft.outlines.affine import Point

FLAT_MM = 0.1
"""How near the curves of an outline are followed, in mm of the piece: it is drawn smaller than it is."""

Ring = list[Point]
Put = Callable[[BaseGeometry], BaseGeometry]
"""Where an area is moved to."""


def flatten_outline(outline: Outline) -> BaseGeometry:
    """An outline as polygons in mm, sound ones even where it crosses itself."""
    outer, *holes = (flatten(ring, tolerance_mm=FLAT_MM) for ring in outline.rings)
    shape = Polygon(outer, holes)
    return shape if shape.is_valid else MultiPolygon(list_polygons(make_valid(shape)))


def list_polygons(area: BaseGeometry) -> list[Polygon]:
    """The polygons of an area; lines and points in it left out."""
    if isinstance(area, Polygon):
        return [] if area.is_empty else [area]
    return [polygon for part in getattr(area, "geoms", ()) for polygon in list_polygons(part)]


def draw_area(area: BaseGeometry, cloth: str, *, back: bool = False) -> tuple[Piece, ...]:
    """An area in a cloth, a piece for each of its polygons."""
    return tuple(
        Piece(outer, cloth, back, holes=tuple(holes))
        for outer, *holes in (list(_open_rings(polygon)) for polygon in list_polygons(area))
    )


def draw_edges(area: BaseGeometry, kind: str) -> tuple[tuple[str, Line], ...]:
    """Lines of one kind all along the edges of an area."""
    rings = [ring for polygon in list_polygons(area) for ring in _open_rings(polygon)]
    return tuple((kind, line) for ring in rings for line in zip(ring, [*ring[1:], ring[0]], strict=True))


def count_corners(area: BaseGeometry) -> int:
    """How many corners the polygons of an area have."""
    return sum(len(ring) for polygon in list_polygons(area) for ring in _open_rings(polygon))


def _open_rings(polygon: Polygon) -> Iterator[Ring]:
    """The rings of a polygon, outer one first, their last point left out."""
    for ring in (polygon.exterior, *polygon.interiors):
        yield [(float(x), float(y)) for x, y in ring.coords[:-1]]
