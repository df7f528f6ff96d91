"""Templates with round edges: the blade of a ring and the disc in its middle, curves as chords too short to see.

In floats, as all templates. A blade stands upright, the middle of its ring at (0, 0) below it.
"""

from __future__ import annotations

from abc import ABC, abstractmethod
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, cos, pi, radians, sin, tan

from service.craft.planar.naming import PatchTemplate
from service.craft.planar.templates import PlanePoint

POINTED, FLAT, ROUND = TIPS = ("pointed", "flat", "round")
"""How the wide end of a blade is made: folded and turned, straight, or a half circle."""

CHORD = pi / 120
"""Radians of a curve to one chord at most: less than 1/1000 in off the curve at a radius of 10 in."""


class RoundTemplate(PatchTemplate, ABC):
    """A template whose edge is followed once, at any distance outside the seam line."""

    @property
    def turns_over(self) -> bool:
        """Always: each of these shapes is its own mirror image."""
        return True

    @property
    def seam_line(self) -> list[PlanePoint]:
        """Where the seams run."""
        return self._trace(0.0)

    def cut_line(self, seam_allowance: Fraction) -> list[PlanePoint]:
        """The seam line with the allowance all round, its corners in full."""
        return self._trace(float(seam_allowance))

    @abstractmethod
    def _trace(self, s: float) -> list[PlanePoint]:
        """The edges `s` inches outside the seam line."""


@dataclass(frozen=True)
class BladeTemplate(RoundTemplate):
    """A blade of a ring: `angle` in degrees, `reach` and `hole` the radii (inches) its ring fits in and leaves open.

    A pointed blade is cut with its end straight across; folded in half, sewn across and turned, it is a point.
    """

    angle: Fraction
    reach: Fraction
    hole: Fraction
    tips: str

    def _trace(self, s: float) -> list[PlanePoint]:
        """The edges `s` outside the seam line, clockwise on a page from the lower left."""
        half, reach = radians(float(self.angle) / 2), float(self.reach)
        low = float(self.hole) * cos(half) - s
        inner = low * tan(half) + s / cos(half)
        if self.tips == ROUND:
            middle = reach / (1 + sin(half))
            end = _trace_arc(0.0, -middle, middle * sin(half) + s, pi + half, -half)
        else:
            high = (reach if self.tips == POINTED else reach * cos(half)) + s
            outer = high * tan(half) + s / cos(half)
            end = [(-outer, -high), (outer, -high)]
        return [(-inner, -low), *end, (inner, -low)]


@dataclass(frozen=True)
class DiscTemplate(RoundTemplate):
    """A disc of that finished diameter in inches, its allowance turned under."""

    diameter: Fraction

    def _trace(self, s: float) -> list[PlanePoint]:
        return _trace_arc(0.0, 0.0, float(self.diameter) / 2 + s, pi, -pi)[:-1]


def _trace_arc(x: float, y: float, radius: float, start: float, end: float) -> list[PlanePoint]:
    """Points of a circle from one angle down to another (radians, anticlockwise from the right, y down).

    Always with its topmost point where start and end lie evenly beside it.
    """
    steps = 2 * ceil(abs(end - start) / CHORD / 2)
    turns = [start + (end - start) * step / steps for step in range(steps + 1)]
    return [(x + radius * cos(turn), y - radius * sin(turn)) for turn in turns]
