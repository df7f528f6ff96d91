"""Line drawings: a closed line that was drawn with a pen means the shape in the middle of the pen's line.

The outer edge of the line, offset inwards by half its measured width with mitred joins; gaps that the pen left
are closed first.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
import shapely
from shapely.geometry import Polygon

from workers.outlines.tracing.points import Points, perimeter, signed_area

WIDEST_PEN_MM = 3.0
"""A wider band is a shape with a hole, cut so on purpose."""

THIN_SHARE = 0.12
"""A line is at most this wide against the size of what it goes round."""

CLOSING_MM = 1.5
"""Ends of a line grow together when each grows by this much: those up to about 2 mm apart were meant to meet."""

MITRE_LIMIT = 8.0
"""Corners sharper than 14 degrees are cut off when they are offset."""


def pen_width(outer: Points, holes: Sequence[Points]) -> float | None:
    """The width in mm of the line that a band of ink is, or None where it is a shape of its own.

    The area of a band over the mean length of its two edges.
    """
    if not holes:
        return None
    area = abs(signed_area(outer)) - sum(abs(signed_area(hole)) for hole in holes)
    width = 2 * area / (perimeter(outer) + sum(map(perimeter, holes)))
    size = math.sqrt(abs(signed_area(outer)))
    return width if width <= min(WIDEST_PEN_MM, THIN_SHARE * size) else None


def middle_of_line(outer: Points, width: float) -> Points | None:
    """The outer edge of a line, moved inwards by half its width; None where nothing is left of it."""
    return _offset(outer, -width / 2)


def grow_face(hole: Points, width: float) -> Points | None:
    """What a line encloses, from its inner edge outwards by half its width."""
    return _offset(hole, width / 2)


def _offset(edge: Points, by: float) -> Points | None:
    moved = Polygon(edge).buffer(by, join_style="mitre", mitre_limit=MITRE_LIMIT)
    parts = [part for part in shapely.get_parts(moved) if isinstance(part, Polygon) and part.area > 0]
    if not parts:
        return None
    largest = max(parts, key=lambda part: part.area)
    return _as_ring(np.array(largest.exterior.coords)[:-1], clockwise=True)


def close_gap(outer: Points) -> tuple[Points, Points] | None:
    """Outer and inner edge of an open line whose ends nearly meet, joined; None where it is no such line.

    Grown and shrunk again the ends grow together; only what makes a ring of the line is added to it.
    """
    line = Polygon(outer)
    if not line.is_valid:
        return None
    width = 2 * line.area / line.length
    size = math.sqrt(line.convex_hull.area)
    if width > min(WIDEST_PEN_MM, THIN_SHARE * size):
        return None
    grown = line.buffer(CLOSING_MM).buffer(-CLOSING_MM)
    bridges = sorted(shapely.get_parts(grown.difference(line.buffer(1e-6))), key=lambda part: -part.area)
    for bridge in bridges[:8]:
        joined = shapely.union(line, bridge.buffer(0.01))
        if isinstance(joined, Polygon) and joined.interiors:
            inner = max(joined.interiors, key=lambda ring: Polygon(ring).area)
            return (
                _as_ring(np.array(joined.exterior.coords)[:-1], clockwise=True),
                _as_ring(np.array(inner.coords)[:-1], clockwise=False),
            )
    return None


def _as_ring(points: Points, *, clockwise: bool) -> Points:
    return points if (signed_area(points) > 0) == clockwise else np.asarray(points[::-1])
