"""Sewing a stage some thousand times over with small errors, to see how far off it comes out.

Every draw is one person at one table: their seams all take a little too much or too little alike (`habit`), each seam
is off by itself besides, and so is every cut edge. A unit that is trimmed on the way forgets how it was sewn as long
as it came out large enough; one that came out too small stays as it is. That is what has no closed form; where
nothing is trimmed, the closed form of `tolerance.py` must come out.

The generator is seeded alike for every line, so that equal lines give equal limits, byte for byte.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import erfc, sqrt

import numpy as np
from numpy.typing import NDArray

from service.craft.accuracy import Accuracy
from workers.sewing.lines import Line
from workers.sewing.tolerance import ErrorModel

Floats = NDArray[np.float64]

DRAWS = 8192
"""Half of them drawn, half their mirror images, so that no line leans to one side by chance."""
SEED = 1
"""Any number does; it is fixed, since the same document must give the same plan."""


@dataclass(frozen=True)
class Spread:
    """How far below and above its planned size a stage comes out, in inches, at the model's number of deviations."""

    below: float
    above: float


class Draws:
    """Normal errors, one column a draw, from one seeded stream; the second half is the mirror image of the first."""

    def __init__(self, draws: int = DRAWS, seed: int = SEED) -> None:
        self._random = np.random.Generator(np.random.PCG64(seed))
        self.count = draws

    def take(self, deviation: float, rows: int = 1) -> Floats:
        """So many rows of errors of that standard deviation (inches)."""
        half = self._random.standard_normal((rows, self.count // 2)) * deviation
        return np.hstack([half, -half])


def simulate_line(line: Line, accuracy: Accuracy, draws: Draws) -> Floats:
    """By how much (inches) the size across a line is off, in every draw."""
    habit: Floats = draws.take(float(accuracy.habit))[0]
    pieces = line.seams + 1
    size: Floats = draws.take(float(accuracy.cut), 2 * pieces).sum(axis=0)
    if line.seams:
        size += draws.take(float(accuracy.seam), line.seams).sum(axis=0) + line.seams * habit
    # a trimmed unit is one of the pieces: its edges are cut ones, unless it came out too small to be cut
    for room in line.trimmed:
        size += np.minimum(0.0, room + _sew_unit(accuracy, habit, draws))
    return size if line.own is None else _trim(size, line.own, accuracy, draws)


def _sew_unit(accuracy: Accuracy, habit: Floats, draws: Draws) -> Floats:
    """A unit of triangles before it is trimmed: one slanted seam and two cut edges. A seam at 45 degrees that takes e
    more makes the square e/√2 smaller (geometry).
    """
    seam: Floats = draws.take(float(accuracy.seam))[0] + habit
    cuts: Floats = draws.take(float(accuracy.cut), 2).sum(axis=0)
    return seam / sqrt(2) + cuts


def _trim(sewn: Floats, room: float, accuracy: Accuracy, draws: Draws) -> Floats:
    """The size after trimming: that of the two cuts, or what there was where it was less."""
    cuts: Floats = draws.take(float(accuracy.cut), 2).sum(axis=0)
    return np.minimum(cuts, sewn + room)


def share_beyond(deviations: float) -> float:
    """The share of a normal spread that lies more than so many deviations below the middle.

    >>> round(share_beyond(2), 5)
    0.02275
    """
    return erfc(deviations / sqrt(2)) / 2


def find_spread(errors: Floats, deviations: float) -> Spread:
    """Where all but the share outside so many deviations lie, on either side."""
    tail = share_beyond(deviations)
    low, high = np.quantile(errors, [tail, 1 - tail])
    return Spread(max(0.0, float(-low)), max(0.0, float(high)))


class Simulator:
    """Simulates lines under one model, equal ones once."""

    def __init__(self, model: ErrorModel) -> None:
        self._model = model
        self._seen: dict[Line, Spread] = {}

    def spread(self, line: Line) -> Spread:
        """How far off the size across a line comes out."""
        if line not in self._seen:
            errors = simulate_line(line, self._model.accuracy, Draws())
            self._seen[line] = find_spread(errors, self._model.deviations)
        return self._seen[line]
