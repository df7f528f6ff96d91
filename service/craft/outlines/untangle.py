"""Contours that cross themselves or each other: finding them, and working out the region they mean."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Literal

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LinearRing, MultiLineString, Polygon, STRtree
from shapely.ops import polygonize, unary_union

from service.craft.outlines.faults import OutlineUnreadable
from service.craft.outlines.limits import Limits
from service.craft.outlines.model import Ring
from service.craft.outlines.polygons import to_rings

Points = NDArray[np.float64]

SHARED_EDGE_MM = 1e-6
"""Contours may touch in points; along an edge longer than this they count as crossing."""

POINTS_AT_MOST = 20_000
WINDING_SUMS_AT_MOST = 50_000_000
PAIRS_AT_ONCE = 4_000_000

SIMPLER = "the outline drawn without crossings, or with fewer points"


def are_tangled(contours: Sequence[Points], limits: Limits) -> bool:
    """Whether any contour crosses or touches itself, or any two cross.

    Testing takes a step for every two segments whose boxes overlap: more than `limits.close_pairs` of them
    are refused.
    """
    if _count_pairs(contours, limits.close_pairs) > limits.close_pairs:
        raise OutlineUnreadable("its lines lie over each other too densely to be checked", right=SIMPLER)
    if any(len(points) < 3 for points in contours):
        return True
    rings = [LinearRing(points) for points in contours]
    if len(rings) == 1:
        return not rings[0].is_simple
    if not all(ring.is_simple for ring in rings):
        return True
    first, second = STRtree(rings).query(rings, predicate="intersects")
    meeting = [(a, b) for a, b in zip(first.tolist(), second.tolist(), strict=True) if a < b]
    # So many contours that touch are not worth looking at one by one.
    return len(meeting) > len(rings) * 4 or any(_cross(rings[a], rings[b]) for a, b in meeting)


def _cross(a: LinearRing, b: LinearRing) -> bool:
    if a.intersection(b).length > SHARED_EDGE_MM:
        return True
    inner, outer = Polygon(a), Polygon(b)
    return not (outer.covers(inner) or inner.covers(outer) or outer.touches(inner))


def untangle(
    contours: Sequence[Points], *, by_parity: bool, limits: Limits, originals: Sequence[Ring] = ()
) -> tuple[tuple[Ring, ...], ...]:
    """The regions that tangled contours enclose; may be none at all.

    The segments of the `originals` stand in their rings wherever nothing crosses them; what was cut is in lines.

    All lines are cut at their crossings; of the faces between them, those stay whose winding number the
    fill rule counts as inside.
    """
    _check_effort(contours, limits)
    lines = unary_union(MultiLineString([LinearRing(points) for points in contours if len(points) > 2]))
    faces = list(polygonize(lines))
    if len(faces) * sum(map(len, contours)) > WINDING_SUMS_AT_MOST:
        raise OutlineUnreadable("the outline crosses itself too often to be put right", right=SIMPLER)
    kept = []
    for face in faces:
        spot = np.array(face.representative_point().coords[0])
        turns = sum(_winding(points, spot) for points in contours)
        if turns % 2 if by_parity else turns:
            kept.append(face)
    merged = unary_union(kept)
    return tuple(to_rings(part, originals) for part in shapely.get_parts(merged) if isinstance(part, Polygon))


def _check_effort(contours: Sequence[Points], limits: Limits) -> None:
    count = sum(map(len, contours))
    if count > POINTS_AT_MOST:
        raise OutlineUnreadable(
            f"the outline crosses itself and has too many points ({count:,}) to be put right", right=SIMPLER
        )
    if _count_pairs(contours, limits.crossings, "intersects") > limits.crossings:
        raise OutlineUnreadable(
            f"the outline crosses itself more than {limits.crossings:,} times", right=SIMPLER
        )


def _count_pairs(
    contours: Sequence[Points], enough: int, predicate: Literal["intersects"] | None = None
) -> int:
    """How many pairs of segments that are no neighbours meet (or, without a predicate, have boxes that do).

    Counting stops above `enough`, and goes by so few segments at a time that memory stays bounded.
    """
    pairs = [np.stack([points, np.roll(points, -1, axis=0)], axis=1) for points in contours]
    segments = np.asarray(shapely.linestrings(np.concatenate(pairs)), dtype=object)
    tree, found = STRtree(segments), 0
    step = max(1, PAIRS_AT_ONCE // len(segments))
    for start in range(0, len(segments), step):
        asked = segments[start : start + step]
        # Each segment meets itself and its two neighbours, and every pair is seen from both sides.
        found += tree.query(asked, predicate=predicate).shape[1] - 3 * len(asked)
        if found > 2 * enough:
            break
    return found // 2


def _winding(points: Points, spot: Points) -> int:
    """How often a polygon turns round a spot: crossings of a ray to the right, up counted against down."""
    ahead = np.roll(points, -1, axis=0)
    above, above_ahead = points[:, 1] <= spot[1], ahead[:, 1] <= spot[1]
    side = (ahead[:, 0] - points[:, 0]) * (spot[1] - points[:, 1]) - (spot[0] - points[:, 0]) * (
        ahead[:, 1] - points[:, 1]
    )
    return int(np.sum(above & ~above_ahead & (side > 0)) - np.sum(~above & above_ahead & (side < 0)))
