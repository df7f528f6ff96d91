"""Where the allowance of a turned edge is snipped: at inner corners, and along inner curves."""

from __future__ import annotations

from math import acos, dist, hypot, pi

from shapely import LinearRing, LineString
from shapely.geometry.base import BaseGeometry

from service.craft.drawing.scenes import Line
from service.craft.outlines.affine import Point
from workers.sewing.steps.scenes.areas import list_polygons

LEAST_TURN = 12 * pi / 180
"""How far an edge turns inward at a corner that is snipped."""

APART = 1.3
"""How near snips lie to each other at least, in the measure of scenes (about 2 mm)."""

MOST = 6
SHORT_OF_LINE = 0.15


def find_snips(area: BaseGeometry, wide: BaseGeometry) -> list[Line]:
    """The snips from the edge of the allowance (`wide`) almost to the finished line of `area`; the sharpest first."""
    rings = [ring for one in list_polygons(area) for ring in (one.exterior, *one.interiors)]
    corners = sorted((corner for ring in rings for corner in _turn_inward(ring)), key=lambda c: -c[0])
    chosen: list[tuple[Point, Point]] = []
    for _, at, out in corners:
        if len(chosen) < MOST and all(dist(at, other) >= APART for other, _ in chosen):
            chosen.append((at, out))
    return [snip for at, out in chosen if (snip := _reach(at, out, wide)) is not None]


def _turn_inward(ring: LinearRing) -> list[tuple[float, Point, Point]]:
    """The corners at which the edge turns towards the piece: by how much, where, and which way is out of the piece."""
    points = [(float(x), float(y)) for x, y in ring.coords[:-1]]
    sign = 1.0 if ring.is_ccw else -1.0
    found = []
    for place, at in enumerate(points):
        before, after = _unit(points[place - 1], at), _unit(at, points[(place + 1) % len(points)])
        cross = (before[0] * after[1] - before[1] * after[0]) * sign
        turn = acos(max(-1.0, min(1.0, before[0] * after[0] + before[1] * after[1])))
        if cross < 0 and turn >= LEAST_TURN:
            along = _unit((0.0, 0.0), (before[0] + after[0], before[1] + after[1]))
            found.append((turn, at, (along[1] * sign, -along[0] * sign)))
    return found


def _unit(start: Point, end: Point) -> Point:
    x, y = end[0] - start[0], end[1] - start[1]
    length = hypot(x, y) or 1.0
    return x / length, y / length


def _reach(at: Point, out: Point, wide: BaseGeometry) -> Line | None:
    """A line from just before the corner out to the cut edge."""
    start = (at[0] + out[0] * SHORT_OF_LINE, at[1] + out[1] * SHORT_OF_LINE)
    met = LineString([start, (at[0] + out[0] * 3, at[1] + out[1] * 3)]).intersection(wide)
    first = next(iter(getattr(met, "geoms", [met])))
    if first.is_empty or first.geom_type != "LineString":
        return None
    x, y = first.coords[-1]
    return start, (float(x), float(y))
