"""How far off a stage may measure and still join: from small, independent errors of sewing and cutting.

Along a line across the piece every seam takes a little more or less than planned, and every patch has two cut edges
that lie a little off. Independent errors add as squares. The deviations are our own estimates, about one thread of a
cloth with 60 threads to the inch for a seam and half a thread for a cut; common practice (1/16 in for a unit, 1/8 in
for a 12 in block, no source) comes out with them.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

import numpy as np
from numpy.typing import NDArray

from service.craft.measure import MM_PER_INCH, Number, round_down, round_up
from workers.sewing.works import ROTATIONS, Work

Points = NDArray[np.complex128]


@dataclass(frozen=True)
class ErrorModel:
    """Standard deviations in inches, how many of them are still fine, and the least that is allowed."""

    seam: Fraction = Fraction(1, 64)
    cut: Fraction = Fraction(1, 128)
    deviations: int = 2
    least: Fraction = Fraction(1, 16)


STEPS = {"in": Fraction(1, 16), "mm": 1 / MM_PER_INCH, "cm": 1 / MM_PER_INCH}
"""What limits are rounded to, outwards, in each measure: marks that a ruler has."""


def measure_slack(seams: int, step: Fraction, model: ErrorModel) -> Fraction:
    """How far off (inches) a piece may be with so many seams across: rounded up to `step`.

    >>> measure_slack(1, Fraction(1, 16), ErrorModel()), measure_slack(8, Fraction(1, 16), ErrorModel())
    (Fraction(1, 16), Fraction(1, 8))
    """
    variance = seams * model.seam**2 + 2 * (seams + 1) * model.cut**2
    square = model.deviations**2 * variance / step**2
    # the least whole number whose square is not below
    steps = isqrt(square.numerator // square.denominator)
    while steps * steps < square:
        steps += 1
    return max(steps * step, round_up(model.least, step))


def find_limits(size: Number, seams: int, measure: str, model: ErrorModel) -> tuple[Fraction, Fraction]:
    """The smallest and the largest size (inches) that still joins, rounded outwards."""
    step = STEPS[measure]
    slack = measure_slack(seams, step, model)
    return round_down(size - slack, step), round_up(size + slack, step)


class SeamCounter:
    """Counts seams across works, along the worst line; every seam inside is looked at where it lies."""

    def __init__(self) -> None:
        self._ends: dict[Work, tuple[Points, Points]] = {}

    def count(self, work: Work) -> tuple[int, int]:
        """How many seams the worst level line crosses, and how many the worst upright one."""
        starts, ends = self._seams(work)
        return _most_at_once(starts.imag, ends.imag), _most_at_once(starts.real, ends.real)

    def _seams(self, work: Work) -> tuple[Points, Points]:
        if work not in self._ends:
            own = () if work.laid_on else work.seams
            starts = [np.array([seam.start for seam in own], dtype=complex)]
            ends = [np.array([seam.end for seam in own], dtype=complex)]
            for item in work.items:
                if isinstance(item.piece, Work):
                    turn = ROTATIONS[item.eighths]
                    inner = self._seams(item.piece)
                    starts.append(inner[0] * turn + item.shift)
                    ends.append(inner[1] * turn + item.shift)
            self._ends[work] = np.concatenate(starts), np.concatenate(ends)
        return self._ends[work]


def _most_at_once(first: NDArray[np.float64], second: NDArray[np.float64], *, close: float = 1e-6) -> int:
    """The greatest number of stretches that overlap in one place; stretches that only touch do not overlap."""
    low, high = np.minimum(first, second) + close, np.maximum(first, second) - close
    real = low < high
    low, high = np.sort(low[real]), np.sort(high[real])
    if not len(low):
        return 0
    begun = np.arange(1, len(low) + 1)
    return int(np.max(begun - np.searchsorted(high, low, side="left")))
