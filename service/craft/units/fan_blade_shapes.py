"""What is seen of a ring of blades, patch by patch, in places that neighbours share exactly.

Sines are no fractions: every corner is taken to the nearest of `STEPS` parts of an inch from the middle of the ring, so
that it is off by less than 1/30,000 in each way. Round edges are chords of `ARC` degrees at most: with a radius of 2 in
they lie 1/150 in inside the true curve. Nothing is cut by these corners: templates are made of the true shapes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import accumulate
from math import ceil

from service.craft.measure import cosine, round_nearest, sine
from service.craft.planar.figures import RationalPoint
from service.craft.planar.round_shapes import FLAT, POINTED

STEPS = 2**14
ARC = 9


@dataclass(frozen=True)
class RingSizes:
    """A ring, radii in inches: `angles` of its blades in degrees, clockwise from noon; `core` is the disc's radius."""

    angles: tuple[Fraction, ...]
    tips: str
    reach: Fraction
    hole: Fraction
    core: Fraction


@dataclass(frozen=True)
class RingShapes:
    """Corners in inches from the middle of the ring, clockwise on a page: what is seen of the blades and the disc."""

    outline: list[RationalPoint]
    blades: list[list[RationalPoint]]
    disc: list[RationalPoint]


def find_shoulder(angle: Fraction, reach: Fraction, tips: str) -> Fraction:
    """How far from the middle a blade's long sides end, along them (inches).

    A tip turned over 45 degrees is as long as half the blade is wide there: the middle line is reach / (1 + tan) long
    up to it. A half circle touches the sides where its own middle is reach / (1 + sin) away (geometry).
    """
    half = angle / 2
    if tips == FLAT:
        return reach
    if tips == POINTED:
        return reach / (cosine(half) + sine(half))
    return reach * cosine(half) / (1 + sine(half))


def trace_ring(sizes: RingSizes) -> RingShapes:
    """Everything seen of a ring; blades as long as the disc leaves them."""
    ends = list(accumulate(sizes.angles, initial=Fraction(0)))
    shoulders = [find_shoulder(angle, sizes.reach, sizes.tips) for angle in sizes.angles]
    outer = [_trace_tip(start, angle, sizes) for start, angle in zip(ends, sizes.angles, strict=False)]
    inner = [
        _trace_circle(sizes.core, start, angle) for start, angle in zip(ends, sizes.angles, strict=False)
    ]
    count = len(sizes.angles)
    blades = []
    for i in range(count):
        before, after = shoulders[i - 1], shoulders[(i + 1) % count]
        # a neighbour that ends lower down leaves its corner on this blade's side
        first = [outer[i - 1][-1]] if before < shoulders[i] else []
        last = [outer[(i + 1) % count][0]] if after < shoulders[i] else []
        blades.append(_join([first, outer[i], last, inner[i][::-1]]))
    return RingShapes(
        outline=_join(outer), blades=blades, disc=[point for arc in inner for point in arc[:-1]]
    )


def _trace_tip(start: Fraction, angle: Fraction, sizes: RingSizes) -> list[RationalPoint]:
    """The wide end of a blade from shoulder to shoulder."""
    shoulder, middle = find_shoulder(angle, sizes.reach, sizes.tips), start + angle / 2
    first, last = _place(start, shoulder), _place(start + angle, shoulder)
    if sizes.tips == FLAT:
        return [first, last]
    if sizes.tips == POINTED:
        return [first, _place(middle, sizes.reach), last]
    away = sizes.reach / (1 + sine(angle / 2))
    centre, radius, round_about = _polar(middle, away), away * sine(angle / 2), 180 + angle
    steps = 2 * ceil(round_about / ARC / 2)
    turns = [middle - round_about / 2 + round_about * step / steps for step in range(1, steps)]
    between = [_near(*_added(centre, _polar(turn, radius))) for turn in turns]
    return [first, *between, last]


def _trace_circle(radius: Fraction, start: Fraction, angle: Fraction) -> list[RationalPoint]:
    steps = ceil(angle / ARC)
    return [_place(start + angle * step / steps, radius) for step in range(steps + 1)]


def _join(ends: Sequence[list[RationalPoint]]) -> list[RationalPoint]:
    """One closed line out of several, a corner that two of them share named once."""
    line: list[RationalPoint] = []
    for end in filter(None, ends):
        line += end[1:] if line and line[-1] == end[0] else end
    return line[:-1] if line[0] == line[-1] else line


def _place(degrees: Fraction, radius: Fraction) -> RationalPoint:
    """A point so far from the middle, clockwise from noon, on the steps."""
    return _near(*_polar(degrees, radius))


def _polar(degrees: Fraction, radius: Fraction) -> RationalPoint:
    return radius * sine(degrees), -radius * cosine(degrees)


def _added(first: RationalPoint, second: RationalPoint) -> RationalPoint:
    return first[0] + second[0], first[1] + second[1]


def _near(x: Fraction, y: Fraction) -> RationalPoint:
    step = Fraction(1, STEPS)
    return round_nearest(x, step), round_nearest(y, step)
