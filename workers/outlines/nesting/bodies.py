"""Shapes as they are pushed about on a strip: corners, a pivot they turn about, and where a push has brought them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from math import cos, degrees, sin

import numpy as np
import shapely
from numpy.typing import NDArray

from service.craft.outlines import Outline
from service.craft.outlines.affine import Affine
from service.craft.outlines.polygons import to_polygon
from workers.outlines.nesting.taken import FINEST_MM, simplify

Numbers = NDArray[np.float64]

MOST_CORNERS = 200
"""Of one shape. A jagged edge loses more of its teeth than where rooms are taken, and keeps further off for it."""

CHORD_MM = 0.01
"""How far a curve may run beside the polygon that stands for it."""


@dataclass(frozen=True, eq=False)
class Body:
    """A shape where it lies: corners as they were at first, all mm, and the turn (radians) and move since then.

    Its true edge runs no further than `off_mm` beside the one with these corners.
    """

    first: Numbers
    off_mm: float
    may_turn: bool
    turn: float = 0.0
    move: tuple[float, float] = (0.0, 0.0)

    @cached_property
    def middle(self) -> Numbers:
        """The point the shape turns about, as it was at first."""
        return np.asarray((self.first.min(0) + self.first.max(0)) / 2)

    @cached_property
    def pivot(self) -> Numbers:
        """The same point where it is now."""
        return self.middle + self.move

    @cached_property
    def radius_mm(self) -> float:
        """How far its furthest corner is from the pivot: a turn by an arc moves no corner by more than the arc."""
        return float(np.hypot(*(self.first - self.middle).T).max())

    @cached_property
    def corners(self) -> Numbers:
        """The corners where they are now."""
        turning = np.array([[cos(self.turn), sin(self.turn)], [-sin(self.turn), cos(self.turn)]])
        return np.asarray((self.first - self.middle) @ turning + self.pivot)

    @cached_property
    def box_mm(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        return (*self.corners.min(0).tolist(), *self.corners.max(0).tolist())

    def pushed(self, x_mm: float, y_mm: float, arc_mm: float) -> Body:
        """The body moved on, and turned by an arc at its radius."""
        turn = self.turn + arc_mm / self.radius_mm
        return replace(self, turn=turn, move=(self.move[0] + x_mm, self.move[1] + y_mm))

    def carry(self, outline: Outline) -> Outline:
        """The outline that the body was made of, brought where the body is."""
        x, y = (float(n) for n in self.middle)
        back, there = Affine.moving(-x, -y), Affine.moving(x + self.move[0], y + self.move[1])
        turning = Affine.turning(degrees(self.turn)) if self.turn else Affine.moving(0, 0)
        return outline.moved(there @ turning @ back)


def make_body(outline: Outline, *, may_turn: bool) -> Body:
    """The body of an outline as it lies; holes count as filled."""
    shape, off_mm = simplify(to_polygon(outline), FINEST_MM, MOST_CORNERS)
    return Body(shapely.get_coordinates(shape.exterior)[:-1], off_mm + CHORD_MM, may_turn)


def find_length(bodies: Sequence[Body]) -> float:
    """How far down the strip the bodies reach, mm."""
    return max(body.box_mm[3] for body in bodies)


def measure_least_gap(bodies: Sequence[Body], wide_mm: float) -> float:
    """How near any two true edges may come to each other at most, mm; `wide_mm` where none come nearer than that.

    Nothing, or less, where shapes may overlap.
    """
    shapes = np.array([shapely.Polygon(body.corners) for body in bodies])
    off = np.array([body.off_mm for body in bodies])
    a, b = shapely.STRtree(shapes).query(shapes, predicate="dwithin", distance=wide_mm + 2 * off.max())
    pairs = a < b
    a, b = a[pairs], b[pairs]
    return float(
        min((shapely.distance(shapes[a], shapes[b]) - off[a] - off[b]).min(initial=wide_mm), wide_mm)
    )
