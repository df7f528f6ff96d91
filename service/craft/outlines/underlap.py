"""How far a piece reaches under the ones on top of it.

Where an edge of an upper piece runs over the lower one, the lower piece is wanted under it for the width of the
underlap, measured square from that edge. Where the lower piece ends sooner, it is extended by a tab: a parallel of its
own edge with rounded ends, never beyond the upper pieces, and no nearer than a hem to an edge of theirs under which the
lower piece does not lie, so that nothing peeps out. Upper pieces that meet are taken together, so that the tab under
all of them is one; and as no line of it follows an upper piece's edge, it tells nobody the curve of one.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
import shapely
import shapely.ops
from numpy.typing import NDArray
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

TRIED = 24
"""Depths that are tried for a tab, even shares of the one that is wanted: the one with most area is taken."""

RUNS_IN = 0.8
"""An edge that gets deeper by more than this share of its own length runs in under the other piece."""

SHALLOWEST_SHARE = 0.1
"""How shallow a run lies is what a tenth of it is shallower than: a slip at its end does not count."""

ROUND_THE_CORNER = 1.2
"""An edge that butts has ends this long, in touches, round the corner."""

AT_THE_END = 4
"""A run that begins so many points from an end begins there."""

CORNER_DEGREES = 30.0

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


@dataclass(frozen=True)
class _Run:
    """A stretch of the lower piece's edge that lies too shallow, how shallow at least, and the edge a little beyond."""

    line: LineString
    beyond: LineString
    depth_mm: float


def extend_under(
    lower: Polygon, uppers: Mapping[str, Polygon], underlap_mm: float
) -> tuple[tuple[str, Underlap], ...]:
    """What a lower piece needs under each upper one; nothing where it lies deep enough, or apart, or wholly hidden.

    All shapes are valid polygons in one plane.
    """
    near = {name: upper for name, upper in uppers.items() if lower.intersects(upper.buffer(TOUCH_MM))}
    if underlap_mm <= 0 or not near:
        return ()
    together = unary_union([upper.buffer(TOUCH_MM / 2) for upper in near.values()]).buffer(-TOUCH_MM / 2)
    found = []
    for group in shapely.get_parts(together):
        entry = group.boundary.intersection(lower.buffer(TOUCH_MM))
        if isinstance(group, Polygon) and entry.length >= SHORTEST_MM:
            runs = _shallow_runs(lower, group, entry, underlap_mm)
            tabs = _tabs(lower, group, runs, underlap_mm)
            found += [
                (name, _share(tabs, upper, entry, runs, underlap_mm))
                for name, upper in near.items()
                if tabs.intersection(upper).area > LEAST_AREA_MM2
            ]
    return tuple(found)


def _share(
    tabs: BaseGeometry, upper: Polygon, entry: BaseGeometry, runs: list[_Run], underlap_mm: float
) -> Underlap:
    """What of the tabs lies under one upper piece."""
    added = MultiPolygon(_polygons(tabs.intersection(upper.buffer(2 * TOUCH_MM))))
    reach = max(float(shapely.distance(shapely.points(p), entry)) for p in shapely.get_coordinates(added))
    beside = upper.buffer(TOUCH_MM)
    return Underlap(added, sum(run.line.intersection(beside).length for run in runs), min(reach, underlap_mm))


def _tabs(lower: Polygon, upper: Polygon, runs: list[_Run], underlap_mm: float) -> BaseGeometry:
    """The tabs along the runs, in the room that the upper pieces leave."""
    bare = linemerge(_lines(upper.boundary.difference(lower.buffer(TOUCH_MM))))
    # flat where the lower piece's own edge begins: that may be extended right up to its end
    hem = bare.buffer(min(HEM_MM, underlap_mm / 2), cap_style="flat", quad_segs=ROUND_STEPS)
    room = upper.buffer(TOUCH_MM).difference(hem)
    tabs = [_deepest_tab(lower, room, run, underlap_mm - run.depth_mm) for run in runs]
    # Grown by a micrometre into the lower piece: shapes that only touch do not always become one.
    sure = [part.buffer(SURE_MM) for tab in tabs for part in _polygons(tab) if not _is_hair(part)]
    return unary_union(sure)


def _deepest_tab(lower: Polygon, room: BaseGeometry, run: _Run, wanted_mm: float) -> BaseGeometry:
    tried = [_tab(lower, room, run, wanted_mm * share / TRIED) for share in range(TRIED, 0, -1)]
    return max(tried, key=lambda tab: round(float(tab.area), 3))


def _tab(lower: Polygon, room: BaseGeometry, run: _Run, deep_mm: float) -> BaseGeometry:
    """The tab of one depth all along, but where it would leave the room: it ends round before that."""
    beside = run.beyond.buffer(deep_mm, cap_style="flat", quad_segs=ROUND_STEPS).difference(lower)
    bad = beside.difference(room).buffer(-SURE_MM)
    good = run.line if bad.is_empty else run.line.difference(bad.buffer(deep_mm, quad_segs=ROUND_STEPS))
    reached = good.buffer(deep_mm, quad_segs=ROUND_STEPS).intersection(beside)
    beside_run = [part for part in _polygons(reached) if part.distance(run.line) <= TOUCH_MM]
    return MultiPolygon([part for part in beside_run if part.area > LEAST_AREA_MM2])


def _is_hair(part: Polygon) -> bool:
    """Whether a part is no more than two drawings of one edge differ by."""
    return bool(part.buffer(-TOUCH_MM / 2).is_empty)


def _polygons(found: BaseGeometry) -> list[Polygon]:
    return [part for part in shapely.get_parts(found) if isinstance(part, Polygon) and part.area > 0]


def _shallow_runs(lower: Polygon, upper: Polygon, entry: BaseGeometry, underlap_mm: float) -> list[_Run]:
    """The stretches of the lower piece's edge that lie under the upper pieces and end too soon there."""
    covered = _lines(lower.boundary.intersection(upper.buffer(TOUCH_MM)))
    merged = linemerge(covered)
    return [
        run
        for chain in shapely.get_parts(merged)
        if chain.length >= SHORTEST_MM
        for run in _runs_of(chain, entry, underlap_mm)
    ]


def _runs_of(chain: LineString, entry: BaseGeometry, underlap_mm: float) -> list[_Run]:
    """The runs of a covered edge that lie shallower than the underlap, without the sides that only run in."""
    points = _stepped(chain)
    depths = np.asarray(shapely.distance(shapely.points(points), entry))
    shallow = depths < underlap_mm - TOUCH_MM
    asked = shallow & _facing(points, depths)
    if shallow.all() and not asked.any():
        asked = depths > depths.max() - 2 * STEP_MM  # a tip
    runs = []
    for first, last in _stretches(asked, math.ceil(SIDE_SHARE * underlap_mm / STEP_MM)):
        if last == first:
            continue
        line = LineString(points[first : last + 1])
        one_end = (first <= AT_THE_END) != (last >= len(points) - 1 - AT_THE_END) and not chain.is_closed
        if line.length >= SHORTEST_MM and not (one_end and line.length <= SIDE_SHARE * underlap_mm):
            least = float(np.quantile(depths[first : last + 1], SHALLOWEST_SHARE))
            beyond = LineString(_with_beyond(points, first, last, math.ceil(underlap_mm / STEP_MM)))
            runs.append(_Run(line, beyond, least if least > TOUCH_MM else 0.0))
    return runs


def _stepped(chain: LineString) -> NDArray[np.float64]:
    """Points along a covered edge, without the ends that only come near the upper piece round a corner."""
    trim = 0.0 if chain.is_closed else min(ROUND_THE_CORNER * TOUCH_MM, chain.length / 4)
    kept = shapely.ops.substring(chain, trim, chain.length - trim)
    return np.asarray(shapely.get_coordinates(shapely.segmentize(kept, STEP_MM)))


def _facing(points: NDArray[np.float64], depths: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Where the edge runs along the upper piece's rather than in under it."""
    steep = np.abs(np.diff(depths)) > RUNS_IN * np.hypot(*np.diff(points, axis=0).T)
    return np.asarray(~(np.append(steep, False) | np.insert(steep, 0, False)))


def _stretches(asked: NDArray[np.bool_], gap: int) -> list[tuple[int, int]]:
    """First and last of each run of points that are asked for; runs with a short gap between them are one."""
    found: list[tuple[int, int]] = []
    for at in np.flatnonzero(asked).tolist():
        if found and at - found[-1][1] <= gap:
            found[-1] = (found[-1][0], at)
        else:
            found.append((at, at))
    return found


def _with_beyond(points: NDArray[np.float64], first: int, last: int, more: int) -> NDArray[np.float64]:
    """A run with so many points more at each end, but not round a corner."""
    along = np.diff(points, axis=0)
    heading = np.arctan2(along[:, 1], along[:, 0])
    turn = np.abs((np.diff(heading) + math.pi) % (2 * math.pi) - math.pi) > math.radians(CORNER_DEGREES)
    corners = np.flatnonzero(turn) + 1
    begin = max([0, first - more, *corners[corners <= first].tolist()[-1:]])
    end = min([len(points) - 1, last + more, *corners[corners >= last].tolist()[:1]])
    return points[begin : end + 1]


def _lines(found: BaseGeometry) -> MultiLineString:
    """The lines of what an intersection found, points left out."""
    return MultiLineString([p for p in shapely.get_parts(found) if isinstance(p, LineString) and p.length])
