"""Outlines as polygons and back: sums and differences of shapes are worked out with polygons, curves come back after.

A polygon keeps the corners of what it was made from wherever it was not cut. So runs of corners that are the chords
of one segment become that segment again, and only what is new stays in straight steps.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import shapely
from shapely import Polygon

from service.craft.outlines.affine import Point
from service.craft.outlines.model import Cubic, Line, Outline, Ring, Segment, chords, flatten


def to_polygon(outline: Outline) -> Polygon:
    """The outline as a polygon in mm, its holes left out; no point further than 0.01 mm from the curve."""
    outer, *holes = (flatten(ring) for ring in outline.rings)
    return Polygon(outer, holes)


def to_rings(polygon: Polygon, originals: Iterable[Ring] = ()) -> tuple[Ring, ...]:
    """The polygon's outer ring (clockwise on the page), then its holes, with the segments of `originals` where it
    still follows them whole.
    """
    # Positive area is what runs clockwise where y points down: shapely calls that anticlockwise.
    turned = shapely.geometry.polygon.orient(polygon, 1.0)
    known = _index(originals)
    return tuple(
        _restore([(float(x), float(y)) for x, y in ring.coords[:-1]], known)
        for ring in (turned.exterior, *turned.interiors)
    )


@dataclass(frozen=True)
class _Known:
    """A segment and the corners it is flattened into, its start left out."""

    segment: Segment
    corners: tuple[Point, ...]


def _index(originals: Iterable[Ring]) -> dict[Point, list[_Known]]:
    """The curves of rings by where they start, each run both ways."""
    known: dict[Point, list[_Known]] = {}
    for ring in originals:
        for here, segment in ring.pairs():
            if isinstance(segment, Cubic):
                corners = (here, *chords(here, segment))
                back = Cubic(segment.control_2, segment.control_1, here)
                known.setdefault(here, []).append(_Known(segment, corners[1:]))
                known.setdefault(segment.end, []).append(_Known(back, corners[-2::-1]))
    return known


def _restore(corners: Sequence[Point], known: dict[Point, list[_Known]]) -> Ring:
    # Begun where a segment begins, no segment is cut in two by the ring's own start.
    begin = next((i for i, corner in enumerate(corners) if _found(corners, i, known)), 0)
    ring = [*corners[begin:], *corners[:begin]]
    segments: list[Segment] = []
    i = 0
    while i < len(ring):
        whole = _found(ring, i, known)
        whole = whole if whole and i + len(whole.corners) <= len(ring) else None
        segments.append(whole.segment if whole else Line(ring[(i + 1) % len(ring)]))
        i += len(whole.corners) if whole else 1
    return Ring(ring[0], tuple(segments))


def _found(ring: Sequence[Point], i: int, known: dict[Point, list[_Known]]) -> _Known | None:
    """The known segment whose corners are the next ones of the ring."""
    for one in known.get(ring[i], ()):
        count = len(one.corners)
        if count <= len(ring) and all(ring[(i + 1 + k) % len(ring)] == p for k, p in enumerate(one.corners)):
            return one
    return None
