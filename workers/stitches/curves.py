"""Closed and open polylines: arc length, corners, sides. Millimetres throughout."""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
import shapely
from numpy.typing import NDArray

from workers.stitches.pieces import Points

Floats = NDArray[np.float64]

CORNER_REACH_MM = 0.6
"""A corner is looked for over this length before and after a vertex."""

CORNER_SHARE = 0.6
"""A true corner makes this share of the turn within a quarter of the reach; a bend spreads it."""


STRAIGHT_RADIANS = 0.2
STRAIGHT_OVER_MM = 0.5
"""A side runs straight until it has turned by eleven degrees from its first half millimetre."""


def clean_ring(points: Points, *, least_mm: float = 1e-3) -> Points:
    """The ring without repeated points and without its closing point; fewer than three left is a `ValueError`.

    >>> clean_ring(np.array([[0, 0], [4, 0], [4, 0], [4, 4], [0, 0.0]])).tolist()
    [[0.0, 0.0], [4.0, 0.0], [4.0, 4.0]]
    """
    ring = np.asarray(points, dtype=np.float64)
    if ring.ndim != 2 or ring.shape[1] != 2 or not np.isfinite(ring).all():
        raise ValueError("a ring is a list of points, two finite numbers each")
    step = np.linalg.norm(np.roll(ring, -1, axis=0) - ring, axis=1) if len(ring) else np.zeros(0)
    ring = ring[step > least_mm]
    if len(ring) < 3:
        raise ValueError("a ring has at least three different points")
    return ring


def lengths_along(path: Points) -> Floats:
    """The arc length from the start to each vertex of an open polyline."""
    return np.concatenate([[0.0], np.cumsum(np.linalg.norm(np.diff(path, axis=0), axis=1))])


def sample_every(path: Points, step_mm: float) -> Points:
    """Points along an open polyline, no farther apart than `step_mm`, both ends included."""
    along = lengths_along(path)
    count = max(2, int(np.ceil(along[-1] / step_mm)) + 1)
    return points_at(path, along, np.linspace(0, along[-1], count))


def close_path(ring: Points) -> Points:
    """The ring with its first point again at the end."""
    return np.vstack([ring, ring[:1]])


def points_at(path: Points, along: Floats, at: Floats) -> Points:
    """The points of an open polyline at given arc lengths; `along` is its `lengths_along`."""
    return np.stack([np.interp(at, along, path[:, 0]), np.interp(at, along, path[:, 1])], axis=1)


def turn_between(first: Points, second: Points) -> Floats:
    """The turn from one direction to the next in radians, positive to the left of x-right y-up."""
    cross = first[..., 0] * second[..., 1] - first[..., 1] * second[..., 0]
    return np.asarray(np.arctan2(cross, (first * second).sum(axis=-1)))


def orient(ring: Points, *, cloth_inside: bool) -> Points:
    """The ring turned so that the cloth lies on the side of `(-dy, dx)`, the normal used everywhere here."""
    anticlockwise = bool(shapely.is_ccw(shapely.linearrings(close_path(ring))))
    return ring if anticlockwise == cloth_inside else ring[::-1].copy()


def find_corners(ring: Points, *, degrees: float = 30.0, reach_mm: float = CORNER_REACH_MM) -> list[int]:
    """The vertices where the ring turns by more than `degrees` at once, rather than in a bend."""
    path = close_path(ring)
    along = lengths_along(path)
    total, place = along[-1], along[:-1]

    def turn_over(reach: float) -> Floats:
        before = ring - points_at(path, along, np.mod(place - reach, total))
        after = points_at(path, along, np.mod(place + reach, total)) - ring
        return np.abs(turn_between(before, after))

    reach = min(reach_mm, total / 8)
    wide, narrow = turn_over(reach), turn_over(reach / 4)
    found = np.flatnonzero((narrow > np.radians(degrees)) & (narrow > CORNER_SHARE * wide))
    kept: list[int] = []
    for i in found[np.argsort(-narrow[found], kind="stable")]:
        apart = [abs(place[i] - place[j]) for j in kept]
        if all(min(gap, total - gap) > reach / 2 for gap in apart):
            kept.append(int(i))
    return sorted(kept)


def end_direction(path: Points, *, at_end: bool, over_mm: float = 0.5) -> Floats:
    """The unit direction of travel at an end of an open polyline, taken over half a millimetre."""
    along = lengths_along(path)
    over = min(over_mm, float(along[-1]))
    a, b = (along[-1] - over, along[-1]) if at_end else (0.0, over)
    first, last = points_at(path, along, np.array([a, b]))
    way = last - first
    return np.asarray(way / max(float(np.linalg.norm(way)), 1e-12))


def reach_straight(path: Points, radians: float = STRAIGHT_RADIANS) -> float:
    """How far an open polyline runs from its start before it has turned by so much; all of it where it never does.

    >>> reach_straight(np.array([[0.0, 0.0], [2.0, 0.0], [4.0, 0.1], [5.0, 1.0]]))
    4.002...
    """
    along = lengths_along(path)
    start = points_at(path, along, np.array([0.0, min(STRAIGHT_OVER_MM, float(along[-1]))]))
    turned = np.abs(turn_between((start[1] - start[0])[None], np.diff(path, axis=0)))
    bent = np.flatnonzero(turned > radians)
    return float(along[bent[0]]) if len(bent) else float(along[-1])


def sides_between(ring: Points, corners: list[int]) -> list[Points]:
    """The open polylines from each corner to the next, both included; the last one wraps round."""
    n = len(ring)
    ends = [*corners[1:], corners[0] + n]
    return [ring[np.arange(a, b + 1) % n] for a, b in zip(corners, ends, strict=True)]


def start_at(ring: Points, corners: list[int]) -> Points:
    """The ring begun in the middle of its longest side, so that no pass starts or ends on a corner."""
    path = sides_between(ring, corners or [0])
    longest = max(path, key=lambda side: float(lengths_along(side)[-1]))
    along = lengths_along(longest)
    middle = points_at(longest, along, np.array([along[-1] / 2]))[0]
    return begin_near(ring, middle)


def begin_near(ring: Points, point: Floats) -> Points:
    """The same ring begun at its place nearest to `point`, which becomes a vertex."""
    path = close_path(ring)
    line = shapely.linestrings(path)
    at = float(shapely.line_locate_point(line, shapely.points(point)))
    along = lengths_along(path)
    nearest = points_at(path, along, np.array([at]))
    k = int(np.searchsorted(along, at, side="right"))
    rest = np.vstack([path[k:-1], path[: min(k, len(ring))]])
    return np.vstack([nearest, rest[np.linalg.norm(rest - nearest, axis=1) > 1e-3]])


def draw_outlines(rings: Iterable[Points]) -> shapely.MultiLineString:
    """All rings of a piece as one geometry of closed lines."""
    return shapely.MultiLineString([shapely.LineString(close_path(ring)) for ring in rings])
