"""Fewer curves through a run of points than one by one gives: all joints are moved together.

One curve fewer is spread over the whole run; places and directions of the joints and the lengths of the handles are
then sought at once by Gauss and Newton's way (least squares; Björck, "Numerical Methods for Least Squares Problems",
1996, section 9.2), each point measured across the curve at its nearest place.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from workers.outlines.tracing.points import Points

Values = NDArray[np.float64]

SAMPLES = 20
"""Points of the run that each curve is sought with."""

ROUNDS = 14
SETTLED_BY, HOPELESS = 4, 1.5
"""After so many rounds, what would still be so many tolerances off at the last one is given up."""

TO_POWERS = np.array([[1.0, 0, 0, 0], [-3, 3, 0, 0], [3, -6, 3, 0], [-1, 3, -3, 1]])
"""From the four steering points of a cubic to the powers of its `t`."""

ALONG = 0.1
"""What is off along the curve counts by this share: points may slide, joints may not run away."""

DAMPING = 0.01
MISSES = 2
"""Where so many counts in a row are not enough, fewer will not be: with one less joints may lie worse than with two."""

FEW, FEW_OPEN = 5, 3
"""A run of fewer curves is simple enough already."""

MOST = 40
"""Sums grow with the third power of the number of curves: a run of more keeps what it has."""

SHIFTS = (0.0, 0.5)
"""Joints of a closed run are set off from where the first curves met by such shares of a curve."""

FURTHEST_STEP = 100.0
"""In mm or radians; further, the way is lost."""

LEAST_HANDLE, LONGEST_HANDLE = 0.02, 1.2
"""Lengths of handles against their chord: outside, a curve may kink or loop between the points."""


@dataclass(frozen=True)
class Spline:
    """Cubics in a row that share their direction where they meet.

    `stops` are the places of the joints along the run; `turns` the direction at each, in radians; `handles` two
    lengths a curve. A closed one ends at its first joint, whose place comes again a round later.
    """

    closed: bool
    stops: Values
    joints: Points
    turns: Values
    handles: Values

    @property
    def count(self) -> int:
        """How many curves there are."""
        return len(self.handles)

    def curves(self) -> Points:
        """The steering points, (n, 4, 2)."""
        ahead = np.stack([np.cos(self.turns), np.sin(self.turns)], axis=1)
        start, end = self.joints[:-1], self.joints[1:]
        first = start + self.handles[:, :1] * ahead[:-1]
        second = end - self.handles[:, 1:] * ahead[1:]
        return np.stack([start, first, second, end], axis=1)


def join_curves(points: Points, curves: list[Points], tolerance: float, *, closed: bool) -> list[Points]:
    """As few cubics as can be found that stay within the tolerance of a run; the given ones where none do with less."""
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    if not (FEW if closed else FEW_OPEN) <= len(curves) <= MOST:
        return curves
    stops = _stops_of(curves, points, along)
    best, count, misses = curves, len(curves) - 1, 0
    while count >= (2 if closed else 1) and misses < MISSES:
        found = None
        for shift in SHIFTS if closed else SHIFTS[:1]:
            start = _start(points, along, _spread(stops, count, shift), closed=closed)
            found = found or _settle(start, points, along, tolerance)
        misses = 0 if found else misses + 1
        best = list(found.curves()) if found else best
        count -= 1
    return best


def _stops_of(curves: list[Points], points: Points, along: Values) -> Values:
    """Where along the run the curves meet: each at the run's point that it ends in."""
    at, stops = 0, [0.0]
    for curve in curves[:-1]:
        at += int(np.argmin(np.hypot(*(points[at:] - curve[-1]).T)))
        stops.append(float(along[at]))
    return np.array([*stops, along[-1]])


def _spread(stops: Values, count: int, shift: float) -> Values:
    """So many curves between as many stops as there are: close together where those are.

    The joints of a closed run may all be moved on by a share of a curve; its last stop is then past its end.
    """
    old = len(stops) - 1
    at = (np.arange(count + 1) + shift) * (old / count)
    rounds, within = np.divmod(at, old)
    spread = np.interp(within, np.arange(old + 1), stops) + rounds * stops[-1]
    spread[-1] = spread[0] + stops[-1]
    return np.asarray(spread)


def _start(points: Points, along: Values, stops: Values, *, closed: bool) -> Spline:
    """Joints on the run, directions along it, handles a third of what lies between."""
    joints = _at(points, along, stops % along[-1] if closed else stops)
    reach = 4 * along[-1] / (len(points) - 1)
    before, after = stops - reach, stops + reach
    if closed:
        whole = along[-1]
        run = _at(points, along, after % whole) - _at(points, along, before % whole)
    else:
        run = _at(points, along, np.minimum(after, along[-1])) - _at(points, along, np.maximum(before, 0))
    turns = np.arctan2(run[:, 1], run[:, 0])
    handles = np.repeat(np.diff(stops)[:, None] / 3, 2, axis=1)
    return Spline(closed, stops, joints, turns, handles)


def _at(points: Points, along: Values, places: Values) -> Points:
    return np.stack([np.interp(places, along, points[:, axis]) for axis in (0, 1)], axis=-1)


def _settle(spline: Spline, points: Points, along: Values, tolerance: float) -> Spline | None:
    """The spline moved to where it is least off; None where that is not within the tolerance."""
    shares = np.linspace(0, 1, SAMPLES + 2)
    t = np.repeat(shares[None], spline.count, axis=0)
    places = spline.stops[:-1, None] + np.diff(spline.stops)[:, None] * shares
    wanted = _at(points, along, places % along[-1] if spline.closed else places)
    offs: list[float] = []
    for _ in range(ROUNDS):
        powers = _powers(spline.curves())
        for _ in range(2):
            t = _nearer(powers, wanted, t)
        moved = _moved(spline, wanted, t)
        if moved is None:
            return None
        off = _furthest(moved.curves(), wanted, t)
        if off < tolerance and _is_within(moved, points, along, tolerance):
            return moved
        offs.append(off)
        if _is_hopeless(offs, tolerance):
            return None
        spline = moved
    return None


def _is_hopeless(offs: Sequence[float], tolerance: float) -> bool:
    """Whether the rounds that are left, each as good as the last two were, would not reach the tolerance."""
    if len(offs) < SETTLED_BY:
        return False
    pace = math.sqrt(offs[-1] / offs[-3])
    return offs[-1] * pace ** (ROUNDS - len(offs)) > HOPELESS * tolerance


def _furthest(curves: Points, wanted: Points, t: Values) -> float:
    off = _at_shares(_powers(curves), t) - wanted
    return math.sqrt(float((off * off).sum(axis=2).max()))


def _is_within(spline: Spline, points: Points, along: Values, tolerance: float) -> bool:
    """Whether every point of the run is within the tolerance, and no curve has room to stray between them."""
    curves = spline.curves()
    chords = np.hypot(*(curves[:, 3] - curves[:, 0]).T)[:, None]
    if (spline.handles < LEAST_HANDLE * chords).any() or (spline.handles > LONGEST_HANDLE * chords).any():
        return False
    places = np.where(along < spline.stops[0], along + along[-1], along)
    owner = np.clip(np.searchsorted(spline.stops, places, side="right") - 1, 0, spline.count - 1)
    t = (places - spline.stops[owner]) / np.diff(spline.stops)[owner]
    t, powers = t[:, None], _powers(curves)[owner]
    for _ in range(3):
        t = _nearer(powers, points[:, None, :], t, pinned=False)
    off = _at_shares(powers, t)[:, 0] - points
    return float((off * off).sum(axis=1).max()) <= tolerance * tolerance


def _basis(t: Values) -> Values:
    s = 1 - t
    return np.stack([s * s * s, 3 * s * s * t, 3 * s * t * t, t * t * t], axis=-1)


def _powers(curves: Points) -> Points:
    """The curves as sums of powers of `t`, (n, 4, 2): cheaper to evaluate than steering points."""
    return np.asarray(TO_POWERS @ curves)


def _at_shares(powers: Points, t: Values) -> Points:
    """The points of each curve at each of its `t`, (n, samples, 2)."""
    a, b, c, d = (powers[:, k, None, :] for k in range(4))
    share = t[..., None]
    return np.asarray(((d * share + c) * share + b) * share + a)


def _slopes(powers: Points, t: Values) -> tuple[Points, Points]:
    """First and second derivative at each `t`."""
    b, c, d = (powers[:, k, None, :] * k for k in range(1, 4))
    share = t[..., None]
    return np.asarray((d * share + c) * share + b), np.asarray(2 * d * share + c)


def _nearer(powers: Points, wanted: Points, t: Values, *, pinned: bool = True) -> Values:
    """One step of Newton's method towards the nearest place on its curve, for every point."""
    off = _at_shares(powers, t) - wanted
    run, bend = _slopes(powers, t)
    slope = (run * run + off * bend).sum(axis=2)
    moved = t - (off * run).sum(axis=2) / np.where(slope > 1e-9, slope, np.inf)
    kept = np.asarray(np.minimum(np.maximum(moved, 0.0), 1.0))
    if pinned:
        kept[:, 0], kept[:, -1] = 0.0, 1.0
    return kept


def _moved(spline: Spline, wanted: Points, t: Values) -> Spline | None:
    """One step of Gauss and Newton's way for all joints, directions and handles."""
    curves = spline.curves()
    powers = _powers(curves)
    off = wanted - _at_shares(powers, t)
    run, _ = _slopes(powers, t)
    length = np.maximum(np.hypot(run[..., 0], run[..., 1]), 1e-9)
    along = run / length[..., None]
    along[:, 1:-1] *= ALONG
    across = np.stack([-run[..., 1], run[..., 0]], axis=-1) / length[..., None]
    effects = _effects(spline, t)
    rows = np.concatenate([np.einsum("nsjd,nsd->nsj", effects, axis) for axis in (along, across)], axis=1)
    rest = np.concatenate([(off * axis).sum(axis=2) for axis in (along, across)], axis=1)
    return _solved(spline, rows, rest)


def _solved(spline: Spline, rows: Values, rest: Values) -> Spline | None:
    """The normal equations of all curves, put together and solved."""
    n, places = spline.count, _places(spline)
    size = int(places.max()) + 1
    left, right = np.zeros((size, size)), np.zeros(size)
    np.add.at(left, (places[:, :, None], places[:, None, :]), np.einsum("nrj,nrk->njk", rows, rows))
    np.add.at(right, places, np.einsum("nrj,nr->nj", rows, rest))
    left[np.diag_indices(size)] *= 1 + DAMPING
    left[np.diag_indices(size)] += 1e-9
    if not spline.closed:
        # the ends of a run are corners, which stay
        for held in (0, 1, 3 * n, 3 * n + 1):
            left[held] = 0.0
            left[held, held], right[held] = 1.0, 0.0
    step = np.asarray(np.linalg.solve(left, right), dtype=np.float64)
    return _stepped(spline, step) if np.abs(step).max() < FURTHEST_STEP else None


def _effects(spline: Spline, t: Values) -> Values:
    """How each point of a curve moves with the eight numbers that steer it: (n, samples, 8, 2)."""
    b = _basis(t)
    ahead = np.stack([np.cos(spline.turns), np.sin(spline.turns)], axis=1)
    aside = np.stack([-ahead[:, 1], ahead[:, 0]], axis=1)
    found = np.zeros((*t.shape, 8, 2))
    found[..., 0, 0] = found[..., 1, 1] = b[..., 0] + b[..., 1]
    found[..., 2, :] = b[..., 1, None] * (spline.handles[:, :1] * aside[:-1])[:, None]
    found[..., 3, 0] = found[..., 4, 1] = b[..., 2] + b[..., 3]
    found[..., 5, :] = -b[..., 2, None] * (spline.handles[:, 1:] * aside[1:])[:, None]
    found[..., 6, :] = b[..., 1, None] * ahead[:-1][:, None]
    found[..., 7, :] = -b[..., 2, None] * ahead[1:][:, None]
    return found


def _places(spline: Spline) -> NDArray[np.intp]:
    """Where the eight numbers of each curve stand among all: three a joint, then two a curve."""
    n = spline.count
    joints = n if spline.closed else n + 1
    here = np.arange(n)
    following = (here + 1) % joints
    columns = [3 * here, 3 * here + 1, 3 * here + 2, 3 * following, 3 * following + 1, 3 * following + 2]
    return np.stack([*columns, 3 * joints + 2 * here, 3 * joints + 2 * here + 1], axis=1)


def _stepped(spline: Spline, step: Values) -> Spline:
    joints = spline.count if spline.closed else spline.count + 1
    moves = step[: 3 * joints].reshape(-1, 3)
    if spline.closed:
        moves = np.concatenate([moves, moves[:1]])
    return replace(
        spline,
        joints=spline.joints + moves[:, :2],
        turns=spline.turns + moves[:, 2],
        handles=spline.handles + step[3 * joints :].reshape(-1, 2),
    )
