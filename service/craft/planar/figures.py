"""Figures in whole numbers: corners on a grid fine enough that every point of a block lies on it.

Scaling once by the common denominator keeps all that follows exact and fast.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import gcd, lcm

GridPoint = tuple[int, int]
RationalPoint = tuple[Fraction, Fraction]


@dataclass(frozen=True)
class Figure:
    """A polygon with corners in grid steps, clockwise as seen on a page (y down), no corner on a straight edge."""

    corners: tuple[GridPoint, ...]

    @cached_property
    def doubled_area(self) -> int:
        """Twice the area in square grid steps, above zero."""
        return _doubled_area(self.corners)

    @cached_property
    def directions(self) -> frozenset[tuple[int, int]]:
        """(a, b) of the line each edge lies on."""
        return frozenset((line.a, line.b) for line in (line_through(p, q) for p, q in self.edges()))

    def edges(self) -> list[tuple[GridPoint, GridPoint]]:
        """Each edge from corner to corner, clockwise."""
        return list(zip(self.corners, self.corners[1:] + self.corners[:1], strict=True))


@dataclass(frozen=True)
class Line:
    """a·x + b·y = c in lowest terms, a > 0 or a = 0 and b > 0."""

    a: int
    b: int
    c: int

    def side(self, point: GridPoint) -> int:
        """Which side a point lies on: negative, zero or positive."""
        return self.a * point[0] + self.b * point[1] - self.c

    def along(self, point: GridPoint) -> int:
        """Where a point of the line lies along it."""
        return self.b * point[0] - self.a * point[1]


def line_through(p: GridPoint, q: GridPoint) -> Line:
    """The line through two different points.

    >>> line_through((0, 2), (4, 2)), line_through((0, 0), (3, 3))
    (Line(a=0, b=1, c=2), Line(a=1, b=-1, c=0))
    """
    a, b = q[1] - p[1], p[0] - q[0]
    step = gcd(a, b)
    if a < 0 or (a == 0 and b < 0):
        step = -step
    a, b = a // step, b // step
    return Line(a, b, a * p[0] + b * p[1])


def cross(o: GridPoint, p: GridPoint, q: GridPoint) -> int:
    """Twice the signed area of the triangle o, p, q; positive where o → p → q turns clockwise on a page."""
    return (p[0] - o[0]) * (q[1] - o[1]) - (p[1] - o[1]) * (q[0] - o[0])


def grid_step(points: Iterable[RationalPoint], *, most: int | None = None) -> int | None:
    """How many grid steps to the inch bring every point onto the grid; None where that is more than `most`."""
    per_inch = 1
    for denominator in dict.fromkeys(v.denominator for point in points for v in point):
        per_inch = lcm(per_inch, denominator)
        if most is not None and per_inch > most:
            return None
    return per_inch


def to_grid(points: Sequence[RationalPoint], per_inch: int) -> tuple[GridPoint, ...]:
    """The points in grid steps."""
    return tuple((int(x * per_inch), int(y * per_inch)) for x, y in points)


class NotAFigure(ValueError):
    """Corners that do not make a patch: too few, no area, or edges that cross."""


def make_figure(points: Sequence[GridPoint]) -> Figure:
    """The figure with these corners, in either direction, straight-edge corners dropped; else `NotAFigure`."""
    corners = _true_corners(list(points))
    if len(corners) < 3:
        raise NotAFigure("the corners lie on one line")
    if _edges_cross(corners):
        raise NotAFigure("its edges cross or touch each other")
    if _doubled_area(corners) < 0:
        corners.reverse()
    first = corners.index(min(corners, key=lambda p: (p[1], p[0])))
    return Figure(tuple(corners[first:] + corners[:first]))


def _doubled_area(corners: Sequence[GridPoint]) -> int:
    pairs = zip(corners, [*corners[1:], corners[0]], strict=True)
    return sum(p[0] * q[1] - q[0] * p[1] for p, q in pairs)


def _true_corners(points: list[GridPoint]) -> list[GridPoint]:
    """Drops repeated points and points on a straight edge, until none is left."""
    while True:
        # repeated points first: dropping the tip of a spike makes its foot one
        kept = [p for i, p in enumerate(points) if p != points[i - 1]]
        n = len(kept)
        kept = [p for i, p in enumerate(kept) if n > 2 and cross(kept[i - 1], p, kept[(i + 1) % n]) != 0]
        if len(kept) == len(points) or not kept:
            return kept
        points = kept


def _edges_cross(corners: Sequence[GridPoint]) -> bool:
    n = len(corners)
    edges = [(corners[i], corners[(i + 1) % n]) for i in range(n)]
    return any(
        _touch(edges[i], edges[j])
        for i in range(n)
        for j in range(i + 1, n)
        if j != i + 1 and (i, j) != (0, n - 1)
    )


def _touch(first: tuple[GridPoint, GridPoint], second: tuple[GridPoint, GridPoint]) -> bool:
    (a, b), (c, d) = first, second
    sides = [_sign(cross(a, b, c)), _sign(cross(a, b, d)), _sign(cross(c, d, a)), _sign(cross(c, d, b))]
    if sides[0] * sides[1] < 0 and sides[2] * sides[3] < 0:
        return True
    return any(
        side == 0 and _between(point, ends)
        for side, point, ends in zip(sides, (c, d, a, b), (first, first, second, second), strict=True)
    )


def _between(point: GridPoint, ends: tuple[GridPoint, GridPoint]) -> bool:
    (x0, y0), (x1, y1) = ends
    return min(x0, x1) <= point[0] <= max(x0, x1) and min(y0, y1) <= point[1] <= max(y0, y1)


def _sign(value: int) -> int:
    return (value > 0) - (value < 0)
