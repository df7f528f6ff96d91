"""Where the allowance of a turned edge is snipped, so that it can be laid over: at inner corners, along inner curves.

Common practice, no source: at an inner corner one snip to a thread or two before the line; along an inner curve a snip
about every quarter inch; an outer curve is eased, and wants none.
"""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from service.craft.outlines import Outline, flatten
from service.craft.outlines.cut_shapes import Run
from service.craft.outlines.model import Ring

SNIP_EVERY_MM = 6.0
SPARED_MM = 1.0
"""What stays uncut before the finished line."""

CORNER_DEGREES = 30.0
GENTLE_RADIUS_MM = 60.0
"""An inner curve wider than this stretches by itself."""

LOOK_MM = 2.0
"""Over how much of the edge a curve's bend is measured."""

Points = NDArray[np.float64]


def find_snips(finished: Outline, turning_mm: float) -> tuple[Run, ...]:
    """Short lines across the allowance, from its outer edge towards the finished line, for every ring."""
    reach = (SPARED_MM, turning_mm) if turning_mm > 2 * SPARED_MM else (turning_mm / 2, turning_mm)
    return tuple(snip for ring in finished.rings for snip in _snips_of(ring, reach))


def _snips_of(ring: Ring, reach: tuple[float, float]) -> list[Run]:
    """Along a ring whose cloth lies to the right of its direction (y down): outer rings and holes alike."""
    points = flatten(ring, tolerance_mm=0.02)
    area = _signed_area(points)
    inside = area if ring.area_mm2 >= 0 else -area
    if inside < 0:
        points = points[::-1]
    marks = _corner_marks(points)
    return [_line(points, at, reach) for at in _thinned(marks + _curve_marks(points), points)]


def _signed_area(points: Points) -> float:
    ahead = np.roll(points, -1, axis=0)
    return float(np.sum(points[:, 0] * ahead[:, 1] - ahead[:, 0] * points[:, 1])) / 2


def _turns(points: Points) -> Points:
    """The turn at every corner in radians: below zero where the shape's edge bends inwards."""
    back, ahead = points - np.roll(points, 1, axis=0), np.roll(points, -1, axis=0) - points
    cross = back[:, 0] * ahead[:, 1] - back[:, 1] * ahead[:, 0]
    return np.asarray(np.arctan2(cross, np.sum(back * ahead, axis=1)))


def _corner_marks(points: Points) -> list[int]:
    return [int(i) for i in np.flatnonzero(_turns(points) < -math.radians(CORNER_DEGREES))]


def _curve_marks(points: Points) -> list[int]:
    """Corners of the flattened edge about every quarter inch where it bends inwards tighter than a gentle curve."""
    turns = _turns(points)
    steps = np.hypot(*(np.roll(points, -1, axis=0) - points).T)
    along = np.concatenate([[0.0], np.cumsum(steps)[:-1]])
    marks: list[int] = []
    last = -math.inf
    for i, at in enumerate(along):
        near = np.abs(along - at) <= LOOK_MM
        bend = -float(turns[near].sum()) / (2 * LOOK_MM)
        if bend > 1 / GENTLE_RADIUS_MM and turns[i] < 0 and at - last >= SNIP_EVERY_MM:
            marks.append(i)
            last = at
    return marks


def _thinned(marks: list[int], points: Points) -> list[int]:
    """Corners first; a curve's mark closer to another than half the usual way is left out."""
    kept: list[int] = []
    for mark in marks:
        if all(math.dist(points[mark], points[other]) >= SNIP_EVERY_MM / 2 for other in kept):
            kept.append(mark)
    return kept


def _line(points: Points, at: int, reach: tuple[float, float]) -> Run:
    """Across the allowance, square to the edge; at a corner along its bisector."""
    back, ahead = points[at] - points[at - 1], points[(at + 1) % len(points)] - points[at]
    way = back / np.hypot(*back) + ahead / np.hypot(*ahead)
    way = way / np.hypot(*way) if np.hypot(*way) > 1e-9 else back / np.hypot(*back)
    out = np.array([way[1], -way[0]])
    near, far = points[at] + reach[0] * out, points[at] + reach[1] * out
    return (float(near[0]), float(near[1])), (float(far[0]), float(far[1]))
