"""Few cubic curves through many points: Schneider, "An Algorithm for Automatically Fitting Digitized Curves", 1990."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from workers.outlines.tracing.points import Points

Vector = NDArray[np.float64]

ROUNDS = 5
HOPELESS = 6.0
"""A curve that is still this many tolerances off after two rounds is given up."""

FEW = 40
"""So many points are enough to seek a curve with."""

STRAIGHT_SHARE = 0.8
"""A run that leaves its chord by no more than this share of the tolerance is a straight line."""

LEAST_GRAINED = 12
GRAIN_MOST, GRAIN_MEAN, GRAIN_BOW = 2.0, 0.7, 0.6
"""How far single points, the mean square and the bow of a straight run of many points may leave its chord, in
tolerances."""


def fit_run(points: Points, start: Vector, end: Vector, tolerance: float) -> list[Points]:
    """Cubics (4, 2), or one line (2, 2), in order, nowhere further than `tolerance` from the points.

    `start` and `end` are the directions, of length 1, in which the curve leaves its two ends. Each curve is
    as long as the tolerance lets it be.
    """
    if _is_straight(points, STRAIGHT_SHARE * tolerance):
        return [points[[0, -1]]]
    found: list[Points] = []
    first, last = 0, len(points) - 1
    direction, reach = start, last
    while first < last:
        curve, at = _longest_from(points, first, last, reach, direction, end, tolerance)
        found.append(curve)
        reach = at - first
        if at < last:
            direction = tangent_at(points, at)
        first = at
    return found


def _longest_from(
    points: Points, first: int, last: int, before: int, start: Vector, end: Vector, tolerance: float
) -> tuple[Points, int]:
    """The longest curve from a point on, and where it ends: a longer one is tried, or half of what is left."""
    good, bad = first, last + 1
    best = points[[first, min(first + 1, last)]]
    at = last if last - first <= 1.5 * before else min(last, first + max(4, before))
    while bad - good > max(1, (good - first) // 24):
        stop = end if at == last else -tangent_at(points, at)
        run = points[first : at + 1]
        curve = fit_one(run, start, stop, tolerance)
        if curve is not None:
            good, best = at, curve
        else:
            bad = at
        at = (good + bad) // 2 if bad <= last else min(last, good + max(4, good - first))
        if good == last:
            break
    return (best, good) if good > first else (best, min(first + 1, last))


def tangent_at(points: Points, at: int) -> Vector:
    """The direction of the run at one of its points, from up to four neighbours on either side."""
    reach = min(4, at, len(points) - 1 - at)
    if reach == 0:
        reach_back, reach_on = min(2, at), min(2, len(points) - 1 - at)
    else:
        reach_back = reach_on = reach
    return unit(points[at + reach_on] - points[at - reach_back])


def unit(vector: Vector) -> Vector:
    """The vector at length 1."""
    return np.asarray(vector / max(math.hypot(*vector), 1e-12))


def evaluate(curve: Points, t: Vector) -> Points:
    """Points of a cubic."""
    s = 1 - t
    basis = np.stack([s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t], axis=1)
    return np.asarray(basis @ curve)


def _is_straight(points: Points, tolerance: float) -> bool:
    if len(points) < 3:
        return True
    chord = points[-1] - points[0]
    length = math.hypot(*chord)
    if length < 1e-9:
        return False
    apart = points - points[0]
    off = (apart[:, 0] * chord[1] - apart[:, 1] * chord[0]) / length
    along = apart @ chord / length
    if along.min() < -tolerance or along.max() > length + tolerance:
        return False
    return bool(np.abs(off).max() <= tolerance) or _is_grain(off, along / length, tolerance)


def _is_grain(off: Vector, share: Vector, tolerance: float) -> bool:
    """Whether points leave their chord as grain in the picture makes them, here and there and not in one bow."""
    if len(off) < LEAST_GRAINED or np.abs(off).max() > GRAIN_MOST * tolerance:
        return False
    bow = 4 * share * (1 - share)
    sagitta = float(off @ bow / (bow @ bow))
    return (
        abs(sagitta) <= GRAIN_BOW * tolerance and float(np.sqrt((off * off).mean())) <= GRAIN_MEAN * tolerance
    )


def fit_one(points: Points, start: Vector, end: Vector, tolerance: float) -> Points | None:
    """One cubic within the tolerance of all points, or None. It is sought with some of them and held against all."""
    if len(points) <= 2:
        third = (points[-1] - points[0]) / 3
        return np.array([points[0], points[0] + third, points[-1] - third, points[-1]])
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    t = along / along[-1]
    if len(points) <= 1.5 * FEW:
        return _sought(points, t, start, end, tolerance)[0]
    some = np.linspace(0, len(points) - 1, FEW).round().astype(int)
    curve, found = _sought(points[some], t[some], start, end, tolerance)
    if curve is None:
        return None
    every = np.interp(t, t[some], found)
    every = _nearer(curve, evaluate(curve, every) - points, every)
    return curve if _furthest(evaluate(curve, every) - points) <= tolerance else None


def _sought(
    points: Points, t: Vector, start: Vector, end: Vector, tolerance: float
) -> tuple[Points | None, Vector]:
    for turn in range(ROUNDS):
        curve = _least_squares(points, t, start, end)
        off = evaluate(curve, t) - points
        most = _furthest(off)
        if most <= tolerance:
            return curve, t
        if most > HOPELESS * tolerance and turn > 0:
            break
        t = _nearer(curve, off, t)
    return None, t


def _furthest(off: Points) -> float:
    return math.sqrt(float((off[:, 0] ** 2 + off[:, 1] ** 2).max()))


def _least_squares(points: Points, t: Vector, start: Vector, end: Vector) -> Points:
    """The lengths of both handles that bring the curve nearest to the points."""
    s = 1 - t
    b1, b2 = 3 * s * s * t, 3 * s * t * t
    b0, b3 = s * s * s + b1, b2 + t * t * t
    rest_x = points[:, 0] - b0 * points[0, 0] - b3 * points[-1, 0]
    rest_y = points[:, 1] - b0 * points[0, 1] - b3 * points[-1, 1]
    c00, c11 = float(b1 @ b1), float(b2 @ b2)
    c01 = float(b1 @ b2) * float(start @ end)
    x0 = float(b1 @ rest_x) * start[0] + float(b1 @ rest_y) * start[1]
    x1 = float(b2 @ rest_x) * end[0] + float(b2 @ rest_y) * end[1]
    chord = math.hypot(*(points[-1] - points[0]))
    determinant = c00 * c11 - c01 * c01
    one = other = 0.0
    if abs(determinant) > 1e-12:
        one = (x0 * c11 - x1 * c01) / determinant
        other = (c00 * x1 - c01 * x0) / determinant
    if one < 1e-6 * chord or other < 1e-6 * chord:
        one = other = chord / 3
    return np.array([points[0], points[0] + one * start, points[-1] + other * end, points[-1]])


def _nearer(curve: Points, off: Points, t: Vector) -> Vector:
    """One step of Newton's method towards the nearest place on the curve, for every point."""
    first = 3 * (curve[1:] - curve[:-1])
    second = 2 * (first[1:] - first[:-1])
    s = 1 - t
    run = (s * s)[:, None] * first[0] + (2 * s * t)[:, None] * first[1] + (t * t)[:, None] * first[2]
    bend = s[:, None] * second[0] + t[:, None] * second[1]
    slope = (run * run).sum(axis=1) + (off * bend).sum(axis=1)
    safe = np.where(np.abs(slope) > 1e-12, slope, 1.0)
    moved = np.clip(t - np.where(np.abs(slope) > 1e-12, (off * run).sum(axis=1) / safe, 0.0), 0.0, 1.0)
    moved[0], moved[-1] = 0.0, 1.0
    return np.maximum.accumulate(moved)
