"""Stitches over the edge of a piece as a drawing shows them: satin close together, zigzag, blanket stitches inward."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise
from math import hypot

from shapely import LinearRing
from shapely.geometry.base import BaseGeometry

from service.craft.drawing.scenes import Line
from service.craft.outlines.affine import Point
from service.craft.pieces import HOOP_EDGES
from workers.sewing.steps.scenes.areas import list_polygons

SATIN, ZIGZAG, BLANKET = HOOP_EDGES[:3]
APART = {SATIN: 0.34, ZIGZAG: 0.42, BLANKET: 0.8}
"""How far apart stitches are drawn, in the measure of scenes (about 2 mm): further than sewn, so that each is seen."""

REACH, OVER = 0.42, 0.12
"""How far they reach into the piece and beyond its edge."""

NARROW_SHARE = 0.3
"""How much of the width of a narrow piece the stitches along one edge take at most: some cloth shows between."""

NEAR = 0.02
"""How far along an edge its direction is looked at."""

Stitches = tuple[tuple[str, Line], ...]


def show_edge(area: BaseGeometry, edge: str) -> Stitches:
    """The stitches round every edge of an area."""
    return tuple(
        ("stitches", line)
        for one in list_polygons(area)
        for ring in (one.exterior, *one.interiors)
        for line in _sew_round(ring, edge, min(REACH, NARROW_SHARE * 2 * one.area / one.length))
    )


def _sew_round(ring: LinearRing, edge: str, reach: float) -> Iterator[Line]:
    across = list(_lay_across(ring, APART[edge], reach))
    if edge == ZIGZAG:
        points = [pair[place % 2] for place, pair in enumerate(across)]
        yield from pairwise([*points, points[0]])
        return
    yield from across
    if edge == BLANKET:
        yield from pairwise([*(outside for _, outside in across), across[0][1]])


def _lay_across(ring: LinearRing, apart: float, reach: float) -> Iterator[Line]:
    """Lines square to an edge, evenly apart, from the inside out; an even number of them."""
    count = max(4, 2 * round(ring.length / apart / 2))
    sign = 1.0 if ring.is_ccw else -1.0
    for place in range(count):
        along = ring.length * place / count
        at, (x, y) = ring.interpolate(along), _find_direction(ring, along)
        out = (y * sign, -x * sign)
        inner, outer = (_beside((at.x, at.y), out, by) for by in (-reach, OVER))
        yield inner, outer


def _find_direction(ring: LinearRing, along: float) -> Point:
    """The unit vector along a ring: that of the corner between its sides where there is one."""
    before = ring.interpolate((along - NEAR) % ring.length)
    after = ring.interpolate((along + NEAR) % ring.length)
    x, y = after.x - before.x, after.y - before.y
    length = hypot(x, y) or 1.0
    return x / length, y / length


def _beside(at: Point, out: Point, by: float) -> Point:
    return at[0] + out[0] * by, at[1] + out[1] * by
