"""Rounding, as one named policy.

Anything that is trimmed down later, or must not come out short, is rounded `up`; a planning figure that
nobody cuts from is rounded to the `nearest`. Each length is rounded once, at the end, with whole numbers.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from service.craft.measure.exact import Number, exact


def round_up(value: Number, step: Fraction) -> Fraction:
    """The least multiple of `step` (inches) that is not below `value`.

    >>> from service.craft.measure.exact import Exact
    >>> round_up(Exact(Fraction(1, 2), 4), Fraction(1, 8))      # 8 in square in a square: centre 6.157
    Fraction(25, 4)
    """
    return ceil(exact(value) / step) * step


def round_down(value: Number, step: Fraction) -> Fraction:
    """The largest multiple of `step` (inches) that is not above `value`."""
    return floor(exact(value) / step) * step


def round_nearest(value: Number, step: Fraction) -> Fraction:
    """The multiple of `step` (inches) nearest to `value`; the upper one from halfway on."""
    return floor(exact(value) / step + Fraction(1, 2)) * step
