"""Open lines joined end to end into closed contours, and contours that are drawn twice taken once."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import LineString, STRtree

from service.craft.outlines.affine import Point
from service.craft.outlines.contours import Contour
from service.craft.outlines.limits import CLOSING_GAP_MM
from service.craft.outlines.model import Cubic, Line, Segment

SAME_LINE_MM = 0.05
"""Two contours nowhere further apart than this are one, drawn twice."""

OPEN_AT_MOST = 2000
"""More open lines than this are not searched for ends that meet."""

AT_START, AT_END = (0, -1)


@dataclass(frozen=True)
class Joined:
    """What joining gave: contours closed, open ones that found no partner, and the widest gap closed (mm)."""

    closed: tuple[Contour, ...]
    left: tuple[Contour, ...]
    used: int = 0
    widest_mm: float = 0.0


def join_ends(open_lines: Sequence[Contour]) -> Joined:
    """Open lines joined where ends lie within the closing gap, the nearest first along each chain."""
    if not 1 < len(open_lines) <= OPEN_AT_MOST:
        return Joined((), tuple(open_lines))
    ends = np.array([(line.start, line.segments[-1].end) for line in open_lines])
    free = np.ones(len(open_lines), dtype=bool)
    closed: list[Contour] = []
    left: list[Contour] = []
    used, widest = 0, 0.0
    for i in range(len(open_lines)):
        if not free[i]:
            continue
        members, chain, gap = _follow(i, open_lines, ends, free)
        ring = math.dist(chain.start, chain.segments[-1].end)
        if len(members) > 1 and ring <= CLOSING_GAP_MM:
            closed.append(Contour(chain.start, (*chain.segments, Line(chain.start)), closed=True))
            used, widest = used + len(members), max(widest, gap, ring)
        else:
            left += [open_lines[m] for m in members]
    return Joined(tuple(closed), tuple(left), used, widest)


def _follow(
    first: int, lines: Sequence[Contour], ends: NDArray[np.float64], free: NDArray[np.bool_]
) -> tuple[list[int], Contour, float]:
    """The chain from the end of a line on, its members no longer free, and its widest gap."""
    free[first] = False
    members, start, segments, widest = [first], lines[first].start, list(lines[first].segments), 0.0
    while math.dist(segments[-1].end, start) > CLOSING_GAP_MM or len(members) == 1:
        gaps = np.hypot(*(ends - segments[-1].end).transpose(2, 0, 1))
        gaps[~free] = math.inf
        nearest, which = divmod(int(np.argmin(gaps)), 2)
        gap = float(gaps[nearest, which])
        if not gap <= CLOSING_GAP_MM:
            break
        free[nearest] = False
        members.append(nearest)
        line = lines[nearest] if which == 0 else reverse(lines[nearest])
        segments += [*([Line(line.start)] if gap > 0 else []), *line.segments]
        widest = max(widest, gap)
    return members, Contour(start, tuple(segments), closed=False), widest


def reverse(line: Contour) -> Contour:
    """An open line run the other way."""
    here: Point = line.start
    back: list[Segment] = []
    for segment in line.segments:
        if isinstance(segment, Cubic):
            back.append(Cubic(segment.control_2, segment.control_1, here))
        else:
            back.append(Line(here))
        here = segment.end
    return Contour(here, tuple(reversed(back)), line.closed)


def find_doubles(curves: Sequence[NDArray[np.float64]]) -> dict[int, int]:
    """For every closed curve (as corners) that was drawn before: the number of the first like it."""
    if len(curves) < 2:
        return {}
    lines = [LineString([*points.tolist(), points[0].tolist()]) for points in curves]
    middles = shapely.centroid(np.array(lines, dtype=object))
    first, second = STRtree(middles).query(middles, predicate="dwithin", distance=SAME_LINE_MM)
    double: dict[int, int] = {}
    for a, b in sorted(zip(first.tolist(), second.tolist(), strict=True)):
        if a < b and a not in double and b not in double and _is_same(lines[a], lines[b]):
            double[b] = a
    return double


def _is_same(a: LineString, b: LineString) -> bool:
    if max(abs(x - y) for x, y in zip(a.bounds, b.bounds, strict=True)) > SAME_LINE_MM:
        return False
    return bool(a.buffer(SAME_LINE_MM).covers(b) and b.buffer(SAME_LINE_MM).covers(a))
