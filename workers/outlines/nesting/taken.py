"""The room that a shape takes: half the spacing round it counted, and as few corners as a search can do with.

Two shapes lie the spacing apart or more where these rooms do not overlap. So a search looks at rooms alone, and its
time depends little on how finely a shape was drawn.
"""

from __future__ import annotations

from math import acos, ceil, pi

import shapely

from service.craft.outlines import Outline
from service.craft.outlines.affine import Point
from service.craft.outlines.polygons import to_polygon

WIDER_MM = 0.15
"""A room reaches this much further than half the spacing, before corners are left out that this makes up for."""

FINEST_MM = 0.02
"""What goes of a finely drawn edge before it is widened: widening ten thousands of corners takes its time."""

MOST_LEFT_OUT_MM = 2.0
"""No edge is simplified once more where this much went."""

ARC_MM = 0.01
"""Arcs round corners become straight sides no further off than this."""

OVERREACH_MM = WIDER_MM + FINEST_MM + ARC_MM
"""A room reaches no further than this beyond half the spacing, unless `simplify` leaves more out of a jagged edge, and
not at all out of the box of a shape unturned.
"""

MOST_CORNERS = 1000
"""Of a ring that is widened: each corner costs an arc, and the arcs of a jagged edge all cross each other."""


def simplify(
    shape: shapely.Polygon, finest_mm: float, most_corners: int = MOST_CORNERS
) -> tuple[shapely.Polygon, float]:
    """The outer ring with few corners, and how far it may run beside the one drawn: `finest_mm`, or as often twice that
    as a jagged edge needs.
    """
    allowed = finest_mm
    while True:
        ring = shapely.get_exterior_ring(shape.simplify(allowed))
        if shapely.get_num_points(ring) <= most_corners or allowed > MOST_LEFT_OUT_MM:
            return shapely.Polygon(ring), allowed
        allowed *= 2


def find_room_taken(outline: Outline, half_mm: float) -> tuple[Point, ...]:
    """The corners of the room, which holds all that lies within `half_mm` of the shape; holes count as filled.

    It never reaches further than `half_mm` out of the shape's upright box, so a shape as wide as the mat fits it.
    """
    shape, finest = simplify(to_polygon(outline), FINEST_MM)
    reach = half_mm + WIDER_MM + finest + ARC_MM
    wide = shape.buffer(reach, quad_segs=ceil(pi / 4 / acos(1 - ARC_MM / reach)))
    simple = shapely.Polygon(wide.exterior).simplify(WIDER_MM)
    left, top, right, bottom = outline.box_mm
    box = shapely.box(left - half_mm, top - half_mm, right + half_mm, bottom + half_mm)
    parts = shapely.get_parts(shapely.intersection(simple, box))
    ring = shapely.get_exterior_ring(max(parts, key=shapely.area))
    return tuple((float(x), float(y)) for x, y in shapely.get_coordinates(ring)[:-1])
