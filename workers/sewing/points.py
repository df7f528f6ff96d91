"""Points that the next seam may cut off: how much allowance is left beyond each, tried out with small errors.

A point is where slanted seams end on the edge of a unit: the tip of a goose, the corner of a half-square triangle, the
ray of a star. Its seams lie a little beside where they should, half of what a seam is off; where they meet, their
errors come out larger the sharper the point is. With the error of the cut edge that leaves more or less allowance
beyond it. A unit that is trimmed is laid with its points under the ruler: only the cut counts, where there was enough.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import combinations

import numpy as np
from numpy.typing import NDArray

from service.craft.document import Project
from service.craft.measure import round_down
from workers.sewing.bias import DIAGONAL_ROW
from workers.sewing.simulation import Draws, find_spread
from workers.sewing.tolerance import ErrorModel
from workers.sewing.trimming import find_room_to_trim
from workers.sewing.works import SeamLine, Work

Floats = NDArray[np.float64]

CLOSE = 1e-6
SLANT = 1e-3
"""Directions whose unit vectors differ by less are one direction."""

FINEST = Fraction(1, 64)
"""Inches to which the allowance beyond a point is given, rounded down."""


@dataclass(frozen=True)
class Point:
    """A point at the edge of a work's picture: where it lies, and the least allowance (inches) beyond it.

    `low` is where all but the share outside the model's deviations lie; `share` of all come out below `least`.
    """

    at: complex
    low: Fraction
    least: Fraction
    share: float

    @property
    def at_risk(self) -> bool:
        """Whether the allowance may fall below the stated least."""
        return self.low < self.least


@dataclass(frozen=True)
class _Edge:
    start: complex
    end: complex

    @property
    def outwards(self) -> complex:
        """The unit vector out of the work; its outline runs clockwise with y down."""
        along = self.end - self.start
        return along / abs(along) * -1j

    def holds(self, point: complex) -> bool:
        """Whether a point lies on the edge."""
        along = self.end - self.start
        place = (point - self.start) / along
        return abs(place.imag) * abs(along) < CLOSE and -CLOSE < place.real * abs(along) < abs(along) + CLOSE


def find_points(work: Work, project: Project, model: ErrorModel) -> tuple[Point, ...]:
    """The points of a work's own slanted seams, in the order of its seams; each place once.

    Those of diagonal rows are looked at where the edges of the whole are trimmed.
    """
    if work.laid_on or not work.seams or work.kind == DIAGONAL_ROW:
        return ()
    edges = _edges(work.corners)
    room = find_room_to_trim(work, project.rules)
    found: dict[tuple[int, int], Point] = {}
    for at, seams in _ends(work.seams):
        key = round(at.real / CLOSE), round(at.imag / CLOSE)
        touched = [edge for edge in edges if edge.holds(at)]
        if touched and key not in found:
            worst = _try_out(seams, touched, room, model)
            if worst is not None:
                found[key] = _judge(at, worst, project, model)
    return tuple(found.values())


def _edges(corners: Sequence[complex]) -> list[_Edge]:
    return [_Edge(a, b) for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]


def _ends(seams: Sequence[SeamLine]) -> Iterator[tuple[complex, list[SeamLine]]]:
    """Every end of a seam with the seams that end there."""
    for seam in seams:
        for at in (seam.start, seam.end):
            yield at, [other for other in seams if min(abs(other.start - at), abs(other.end - at)) < CLOSE]


def _try_out(
    seams: Sequence[SeamLine], edges: Sequence[_Edge], room: float | None, model: ErrorModel
) -> Floats | None:
    """By how much (inches) the allowance beyond a point is off, at the edge where it is worst; None for no point.

    On one edge two seams make a point; in a corner one slanted seam does, with the seam that is sewn along the other
    edge later on.
    """
    tried = []
    for edge in edges:
        others = [other.outwards for other in edges if other is not edge]
        lines = [seam.to_right for seam in seams if _crosses(seam.to_right, edge.outwards)]
        slanted = [line for line in lines if not any(_crosses(line, o) is False for o in others)]
        pairs = list(combinations(slanted, 2)) or [(line, other) for line in slanted for other in others]
        pair = next(((a, b) for a, b in pairs if _crosses(a, b)), None)
        if pair is not None:
            tried.append(_beyond(pair, edge.outwards, room, model))
    return max(tried, key=lambda errors: float(np.std(errors)), default=None)


def _crosses(first: complex, second: complex) -> bool:
    return abs((first * second.conjugate()).imag) > SLANT


def _beyond(
    pair: tuple[complex, complex], outwards: complex, room: float | None, model: ErrorModel
) -> Floats:
    """How far off the allowance is where two lines meet that are each off by half of what a seam is.

    The crossing moves by the v with v·n1 = d1 and v·n2 = d2; what counts is v·outwards.
    """
    draws, accuracy = Draws(), model.accuracy
    habit: Floats = draws.take(float(accuracy.habit))[0]
    offs: Floats = (draws.take(float(accuracy.seam), 2) + habit) / 2
    normals = np.array([[line.real, line.imag] for line in pair])
    moved: Floats = np.array([outwards.real, outwards.imag]) @ np.linalg.solve(normals, offs)
    cut: Floats = draws.take(float(accuracy.cut))[0]
    return cut + moved if room is None else np.minimum(cut, room / 2 + moved)


def _judge(at: complex, errors: Floats, project: Project, model: ErrorModel) -> Point:
    allowance = project.seam_allowance
    least = model.accuracy.least_beyond(allowance)
    low = round_down(allowance - Fraction(find_spread(errors, model.deviations).below), FINEST)
    share = float(np.mean(float(allowance) + errors < float(least)))
    return Point(at, max(Fraction(0), low), least, share)
