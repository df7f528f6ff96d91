"""Fewer nodes: runs of straight steps that no one could tell from fewer."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

import shapely
from shapely import LineString, Polygon

from service.craft.outlines.model import Line, Outline, Ring, Segment, flatten

WITHIN_MM = 0.02
"""How far the edge may be moved: two hundredths of a millimetre, less than any blade keeps to."""

LEAST_RUN = 8
"""Shorter runs are drawn by hand, corner by corner."""

POINTS_AT_MOST = 50_000


def reduce_nodes(outline: Outline) -> tuple[Outline, int]:
    """The outline with fewer nodes, none of its edge further than `WITHIN_MM` off, and how many went."""
    rings = tuple(_reduce(ring) for ring in outline.rings)
    went = sum(len(a.segments) - len(b.segments) for a, b in zip(outline.rings, rings, strict=True))
    points = sum(len(ring.segments) for ring in outline.rings)
    if not went or points > POINTS_AT_MOST:
        return outline, 0
    outer, *holes = (flatten(ring) for ring in rings)
    if len(outer) < 3 or any(len(hole) < 3 for hole in holes) or not Polygon(outer, holes).is_valid:
        return outline, 0
    return Outline(outline.name, rings), went


def _reduce(ring: Ring) -> Ring:
    pairs = list(ring.pairs())
    segments: list[Segment] = []
    for straight, run in groupby(pairs, key=lambda pair: isinstance(pair[1], Line)):
        listed = list(run)
        segments += _fewer(listed) if straight and len(listed) >= LEAST_RUN else [s for _, s in listed]
    return Ring(ring.start, tuple(segments))


def _fewer(run: Sequence[tuple[tuple[float, float], Segment]]) -> list[Segment]:
    corners = [run[0][0], *(segment.end for _, segment in run)]
    kept = shapely.simplify(LineString(corners), WITHIN_MM, preserve_topology=True)
    return [Line((float(x), float(y))) for x, y in list(kept.coords)[1:]]
