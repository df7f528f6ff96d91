"""One side of a corner as a straight line or a gentle bow, carried on to where it meets the other."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from workers.outlines.tracing.points import Points

BOW_SHOWS_MM = 0.004
BOW_EXPLAINS = 0.7
"""A side is bowed where a parabola leaves less than this share of what a line leaves, and that shows at all."""

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

    def towards(self, tip: Points, step: float) -> Points:
        """Points from where the side was read last up to the tip, both left out."""
        stop = self.place_of(tip)
        count = max(1, round((stop - self.end) / step))
        return np.array([self.at(u) for u in np.linspace(self.end, stop, count + 1)[1:-1]]).reshape(-1, 2)


def fit_side(run: Points) -> Side:
    """The side through a run of points that leads to a corner."""
    middle = run.mean(axis=0)
    chord = run[-1] - run[0]
    along = chord / max(math.hypot(*chord), 1e-12)
    u = (run - middle) @ along
    v = (run - middle) @ np.array([-along[1], along[0]])
    line = np.polynomial.polynomial.polyfit(u, v, 1)
    bow = np.polynomial.polynomial.polyfit(u, v, 2)
    left_line = float(np.sqrt(np.mean((v - line[0] - line[1] * u) ** 2)))
    left_bow = float(np.sqrt(np.mean((v - bow[0] - bow[1] * u - bow[2] * u * u) ** 2)))
    bowed = left_line > BOW_SHOWS_MM and left_bow < BOW_EXPLAINS * left_line
    a, b, c = (bow[0], bow[1], bow[2]) if bowed else (line[0], line[1], 0.0)
    return Side(middle, along, float(a), float(b), float(c), float(u[-1]))


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
