"""How far off a stage may measure and still join: small errors of sewing and cutting, added up in a closed form.

Along a line across the piece every seam takes a little more or less than planned, and every patch has two cut edges
that lie a little off. Independent errors add as squares; what a person does wrong in every seam alike adds as it is.
With n seams the variance is n·seam² + 2(n + 1)·cut² + n²·habit². The deviations are our own estimates (`Accuracy`);
common practice (1/16 in for a unit, 1/8 in for a 12 in block, no source) comes out with them. Where units are trimmed
on the way there is no such form: `simulation.py` tries it out, and this one is its check.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from service.craft.accuracy import USUAL, Accuracy
from service.craft.measure import MM_PER_INCH, Number, round_down, round_up


@dataclass(frozen=True)
class ErrorModel:
    """The errors of one person's work, how many deviations are still fine, and the least (inches) that is allowed."""

    accuracy: Accuracy = USUAL
    deviations: int = 2
    least: Fraction = Fraction(1, 16)


Limits = tuple[Fraction, Fraction]

CLOSE = Fraction(1, 10**9)
"""Inches by which a slack worked out in floats may lie above a mark of the ruler and still mean it."""

STEPS = {"in": Fraction(1, 16), "mm": 1 / MM_PER_INCH, "cm": 1 / MM_PER_INCH}
"""What limits are rounded to, outwards, in each measure: marks that a ruler has."""


def find_variance(seams: int, accuracy: Accuracy) -> Fraction:
    """The variance (square inches) of the size across so many seams with a patch on both sides of each."""
    independent = seams * accuracy.seam**2 + 2 * (seams + 1) * accuracy.cut**2
    return independent + seams**2 * accuracy.habit**2


def measure_slack(seams: int, step: Fraction, model: ErrorModel) -> Fraction:
    """How far off (inches) a piece may be with so many seams across: rounded up to `step`.

    >>> measure_slack(1, Fraction(1, 16), ErrorModel()), measure_slack(3, Fraction(1, 16), ErrorModel())
    (Fraction(1, 16), Fraction(1, 8))
    """
    square = model.deviations**2 * find_variance(seams, model.accuracy) / step**2
    # the least whole number whose square is not below
    steps = isqrt(square.numerator // square.denominator)
    while steps * steps < square:
        steps += 1
    return max(steps * step, round_up(model.least, step))


def round_limits(size: Number, below: float, above: float, measure: str, model: ErrorModel) -> Limits:
    """The smallest and the largest size (inches) that still joins: so far below and above, rounded outwards."""
    step = STEPS[measure]
    least = round_up(model.least, step)
    low, high = (max(round_up(Fraction(slack) - CLOSE, step), least) for slack in (below, above))
    return round_down(size - low, step), round_up(size + high, step)
