"""The cut shape of a patch: its finished shape with the seam allowance all round, and the tips trimmed.

In floats: a template is drawn and cut round by hand, to a hair. What is cut with a ruler never comes through here.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import acos, cos, hypot, pi, sin, tan

import shapely

from service.craft.measure import round_up

PlanePoint = tuple[float, float]

HAIR = Fraction(1, 10**9)
"""Inches by which a box may fall short, so that noise in the last place of a float costs no step of the grid."""

LONGEST_MITRE = 20.0
"""Allowances a corner may stick out where outlines are put right by the library; no template tip comes near it."""


def cut_outline(corners: Sequence[PlanePoint], seam_allowance: float) -> list[PlanePoint]:
    """The cut line round a finished shape (corners clockwise on a page, y down), in the same direction and unit.

    Corners of 90 degrees and more are mitred. A sharper one has its tip trimmed along the line on which the
    patch beside it ends, if their outer edges run straight on: folded back along either seam, the tip then lies
    even with the edge of its own patch and sticks out nowhere (geometry).
    """
    n = len(corners)
    ring = [
        point
        for i in range(n)
        for point in _cut_corner(corners[i - 1], corners[i], corners[(i + 1) % n], seam_allowance)
    ]
    shape = shapely.Polygon(ring)
    if not shape.is_valid:
        # an edge shorter than the allowance in a hollow corner: its cut line turns back on itself
        whole = shapely.Polygon(corners).buffer(seam_allowance, join_style="mitre", mitre_limit=LONGEST_MITRE)
        ring = [(float(x), float(y)) for x, y in whole.exterior.coords[:-1]]
        ring = ring if shapely.Polygon(ring).exterior.is_ccw else ring[::-1]
    return ring


def _cut_corner(before: PlanePoint, here: PlanePoint, after: PlanePoint, s: float) -> list[PlanePoint]:
    """The points of the cut line round one corner, in order."""
    (ux, uy), (vx, vy) = _unit(before, here), _unit(here, after)
    turn = ux * vy - uy * vx
    inner = pi - acos(max(-1.0, min(1.0, ux * vx + uy * vy))) if turn > 0 else pi
    # outwards lies at the left hand of who goes round clockwise
    first, second = (here[0] + s * uy, here[1] - s * ux), (here[0] + s * vy, here[1] - s * vx)
    if inner < pi / 2 - 1e-9:
        return _trim_tip(here, (ux, uy), (vx, vy), inner, s)
    if abs(turn) < 1e-12:
        return [first]
    along = ((second[0] - first[0]) * vy - (second[1] - first[1]) * vx) / turn
    return [(first[0] + along * ux, first[1] + along * uy)]


def _trim_tip(here: PlanePoint, u: PlanePoint, v: PlanePoint, inner: float, s: float) -> list[PlanePoint]:
    """Both cut lines end s·tan(angle / 2) beyond the corner; a tip under 60 degrees keeps a point between them."""
    beyond = s * tan(inner / 2)
    first = (here[0] + s * u[1] + beyond * u[0], here[1] - s * u[0] + beyond * u[1])
    last = (here[0] + s * v[1] - beyond * v[0], here[1] - s * v[0] - beyond * v[1])
    if inner >= pi / 3 - 1e-9:
        return [first, last]
    # the two trimming lines meet on the line that halves the corner, s / sin(3/2 angle) away from it
    reach = s / sin(1.5 * inner)
    half = cos(inner / 2) * 2
    out = ((u[0] - v[0]) / half, (u[1] - v[1]) / half)
    return [first, (here[0] + reach * out[0], here[1] + reach * out[1]), last]


def _unit(start: PlanePoint, end: PlanePoint) -> PlanePoint:
    x, y = end[0] - start[0], end[1] - start[1]
    length = hypot(x, y)
    return x / length, y / length


def measure_box(points: Sequence[PlanePoint], round_to: Fraction) -> tuple[Fraction, Fraction]:
    """Width and height of the box round a shape, each up to the next step of the grid."""
    sides = []
    for axis in (0, 1):
        values = [point[axis] for point in points]
        sides.append(round_up(Fraction(max(values) - min(values)) - HAIR, round_to))
    return sides[0], sides[1]
