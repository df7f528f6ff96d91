"""One side of a corner as a straight line or a gentle bow, carried on to where it meets the other."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from workers.outlines.tracing.points import Points

BOW_SHOWS_MM = 0.004
"""What a line leaves (its mean square) shows no bow where it is less than this."""

HANG_TOGETHER, SURE = 5, 12.0
"""Grain moves so many neighbours alike; a bow explains so many times what each such group leaves."""

MAY_LEAVE, MAY_LEAVE_MM = 1.35, 0.001
"""A long side leaves the points near the corner by hardly more than their own line or bow does."""

PARALLEL = 0.1
"""The least sine between two sides that still say where they meet."""


@dataclass(frozen=True)
class Side:
    """v = a + b u + c u² in its own frame: `along` points to the corner, u = 0 in the middle of what was read."""

    middle: Points
    along: Points
    a: float
    b: float
    c: float
    end: float

    def at(self, u: float) -> Points:
        """The point at `u`."""
        across = np.array([-self.along[1], self.along[0]])
        return self.middle + u * self.along + (self.a + self.b * u + self.c * u * u) * across

    def direction(self, u: float) -> Points:
        """Where the side runs at `u`, of length 1."""
        across = np.array([-self.along[1], self.along[0]])
        run = self.along + (self.b + 2 * self.c * u) * across
        return run / math.hypot(*run)

    def place_of(self, point: Points) -> float:
        """The `u` of a point on the side."""
        return float((point - self.middle) @ self.along)

    def off(self, run: Points) -> float:
        """How far the points of a run lie off the side, across it: the root of their mean square."""
        u = (run - self.middle) @ self.along
        v = (run - self.middle) @ np.array([-self.along[1], self.along[0]])
        return float(np.sqrt(np.mean((v - self.a - self.b * u - self.c * u * u) ** 2)))

    def towards(self, tip: Points, step: float) -> Points:
        """Points from where the side was read last up to the tip, both left out."""
        stop = self.place_of(tip)
        count = max(1, round((stop - self.end) / step))
        return np.array([self.at(u) for u in np.linspace(self.end, stop, count + 1)[1:-1]]).reshape(-1, 2)


def fit_side(run: Points, *, bowed: bool | None = None) -> Side:
    """The side through a run of points that leads to a corner: `bowed`, or not, or as the points show.

    Least squares in polynomials that are orthogonal over the run: what a parabola leaves is what a line leaves
    without its own share.
    """
    middle = run.mean(axis=0)
    chord = run[-1] - run[0]
    along = chord / max(math.hypot(*chord), 1e-12)
    u = (run - middle) @ along
    v = (run - middle) @ np.array([-along[1], along[0]])
    square = float(u @ u)
    slope = float(u @ v) / square
    flat = v - slope * u
    lean, level = float(u @ (u * u)) / square, square / len(u)
    bowl = u * u - lean * u - level
    bend = float(bowl @ flat) / float(bowl @ bowl)
    left, explained = float(flat @ flat), bend * bend * float(bowl @ bowl)
    shows = left > len(u) * BOW_SHOWS_MM**2
    sure = explained > SURE * HANG_TOGETHER / len(u) * (left - explained)
    if bowed or (bowed is None and shows and sure):
        return Side(middle, along, -bend * level, slope - bend * lean, bend, float(u[-1]))
    return Side(middle, along, 0.0, slope, 0.0, float(u[-1]))


def longest_side(run: Points, lengths: Sequence[int]) -> Side:
    """The side through as many of the last points of a run as follow one line or bow with those nearest the corner.

    `lengths` are numbers of points, falling; the last of them is always believed. A longer side says better where
    it leads: a slip of the grain turns it less.
    """
    nearest = run[-lengths[-1] :]
    for length in lengths[:-1]:
        side = fit_side(run[-length:])
        # held against its like: grain alone looks bowed on a short side
        own = fit_side(nearest, bowed=side.c != 0)
        if side.off(nearest) <= MAY_LEAVE * (own.off(nearest) + MAY_LEAVE_MM):
            return side
    return fit_side(nearest)


def meet(one: Side, other: Side) -> tuple[Points, float] | None:
    """Where two sides meet and the turn between them in degrees; None where they run alongside.

    Newton's way: tangents are met, and the tangents there again.
    """
    u, w = one.end, other.end
    for _ in range(6):
        p, q, d, e = one.at(u), other.at(w), one.direction(u), other.direction(w)
        sine = float(d[0] * e[1] - d[1] * e[0])
        if abs(sine) < PARALLEL:
            return None
        ahead = float((q - p)[0] * e[1] - (q - p)[1] * e[0]) / sine
        tip = p + ahead * d
        u, w = one.place_of(tip), other.place_of(tip)
    # Both sides lead to the tip: going on straight would turn by 180 degrees less the angle between them.
    turned = 180 - math.degrees(math.acos(float(np.clip(d @ e, -1, 1))))
    return tip, turned
