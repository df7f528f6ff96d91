"""How far a piece reaches under the one on top of it.

Where an edge of the upper piece runs over the lower one, the lower piece is wanted under it for the width of the
underlap, measured square from that edge. Where the lower piece ends sooner, it is extended: never beyond the upper
piece, and no nearer than a hem to an edge of it under which the lower piece does not lie, so that nothing peeps out.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import shapely
from shapely import LineString, MultiLineString, MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry
from shapely.ops import linemerge, unary_union

TOUCH_MM = 0.1
"""Edges as near as this are taken for one: two drawings of the same edge differ by as much."""

HEM_MM = 1.0
"""What stays free along the other edges of the upper piece. Common practice, no source: a cut edge shifts by less."""

SHORTEST_MM = 1.0
"""Stretches shorter than this are a meeting of corners."""

SIDE_SHARE = 2.0
"""An edge that gets deep enough within so many underlaps runs in under the other piece, and needs nothing."""

STEP_MM = 0.25
LEAST_AREA_MM2 = 0.05
SURE_MM = 1e-3
ROUND_STEPS = 16
"""Chords to a quarter of a circle: a hundredth of a millimetre off at 6 mm."""


@dataclass(frozen=True)
class Underlap:
    """What is added to a lower piece under one upper piece, mm on the top.

    `stretch_mm` is the length of the lower piece's own edge that is extended, `reach_mm` how far the extension gets
    under the upper piece at its deepest.
    """

    added: MultiPolygon
    stretch_mm: float
    reach_mm: float


def extend_under(lower: Polygon, upper: Polygon, underlap_mm: float) -> Underlap | None:
    """What a lower piece needs under an upper one; None where it lies deep enough, or apart, or wholly hidden.

    Both shapes are valid polygons in one plane.
    """
    if underlap_mm <= 0 or not lower.intersects(upper.buffer(TOUCH_MM)):
        return None
    entry = upper.boundary.intersection(lower.buffer(TOUCH_MM))
    if entry.length < SHORTEST_MM:
        return None
    runs = _shallow_runs(lower, upper, entry, underlap_mm)
    if not runs:
        return None
    added = _fill(lower, upper, entry, runs, underlap_mm)
    if added.is_empty:
        return None
    reach = max(float(shapely.distance(shapely.points(p), entry)) for p in shapely.get_coordinates(added))
    return Underlap(added, sum(run.length for run in runs), min(reach, underlap_mm))


def _fill(
    lower: Polygon, upper: Polygon, entry: BaseGeometry, runs: list[LineString], underlap_mm: float
) -> MultiPolygon:
    """The band under the upper edge, as far as it lies beside the runs and is not there yet."""
    band = _lines(entry).buffer(underlap_mm, cap_style="flat", quad_segs=ROUND_STEPS)
    beside = unary_union([run.buffer(underlap_mm, quad_segs=ROUND_STEPS) for run in runs])
    bare = upper.boundary.difference(lower.buffer(TOUCH_MM))
    hem = bare.buffer(min(HEM_MM, underlap_mm / 2), quad_segs=ROUND_STEPS)
    room = upper.intersection(band).intersection(beside).difference(hem)
    wanted = [
        part
        for part in shapely.get_parts(room.difference(lower))
        if isinstance(part, Polygon)
        and part.area > LEAST_AREA_MM2
        and part.distance(lower) <= TOUCH_MM
        and not _is_hair(part)
    ]
    # Grown by a micrometre into the lower piece: shapes that only touch do not always become one.
    sure = [part.buffer(SURE_MM).intersection(unary_union([room, part])) for part in wanted]
    joined = unary_union([p for part in sure for p in _joined(part, lower)])
    return MultiPolygon([p for p in shapely.get_parts(joined) if isinstance(p, Polygon)])


def _is_hair(part: Polygon) -> bool:
    """Whether a part is no more than two drawings of one edge differ by."""
    return bool(part.buffer(-TOUCH_MM / 2).is_empty)


def _joined(part: BaseGeometry, lower: Polygon) -> list[Polygon]:
    """The part, and where a hair's breadth lies between it and the lower piece, what fills that."""
    if lower.union(part).geom_type == "Polygon":
        return [p for p in shapely.get_parts(part) if isinstance(p, Polygon)]
    between = part.buffer(2 * TOUCH_MM).intersection(lower.buffer(2 * TOUCH_MM)).difference(lower)
    filled = unary_union([part, *(p for p in shapely.get_parts(between) if p.intersects(part))])
    return [p for p in shapely.get_parts(filled) if isinstance(p, Polygon)]


def _shallow_runs(
    lower: Polygon, upper: Polygon, entry: BaseGeometry, underlap_mm: float
) -> list[LineString]:
    """The stretches of the lower piece's edge that lie under the upper piece and end too soon there."""
    covered = _lines(lower.boundary.intersection(upper.buffer(TOUCH_MM)))
    merged = linemerge(covered)
    return [
        run
        for chain in shapely.get_parts(merged)
        if chain.length >= SHORTEST_MM
        for run in _runs_of(chain, entry, underlap_mm)
    ]


def _runs_of(chain: LineString, entry: BaseGeometry, underlap_mm: float) -> list[LineString]:
    """The runs of a covered edge that lie shallower than the underlap, without the sides that only run in."""
    points = shapely.get_coordinates(shapely.segmentize(chain, STEP_MM))
    shallow = np.asarray(shapely.distance(shapely.points(points), entry) < underlap_mm - TOUCH_MM)
    changes = np.flatnonzero(np.diff(shallow.astype(int))) + 1
    runs = []
    for part in np.split(np.arange(len(points)), changes):
        first, last = int(part[0]), int(part[-1])
        if not shallow[first] or last == first:
            continue
        run = LineString(points[first : last + 1])
        one_end = (first == 0) != (last == len(points) - 1) and not chain.is_closed
        if run.length >= SHORTEST_MM and not (one_end and run.length <= SIDE_SHARE * underlap_mm):
            runs.append(run)
    return runs


def _lines(found: BaseGeometry) -> MultiLineString:
    """The lines of what an intersection found, points left out."""
    return MultiLineString([p for p in shapely.get_parts(found) if isinstance(p, LineString) and p.length])
