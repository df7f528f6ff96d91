"""Binding: how many strips go round a quilt, or how large a square gives enough bias."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, isqrt

from service.craft.finish import BIAS, Binding
from service.craft.measure import Number, round_down
from service.craft.units import CuttingRules

EXTRA = Fraction(12)
"""Inches on top of the way round, for the corners and the last join. Published values run from 0 to 24
(binding tables of the tests); 12 is common practice, no source."""


NARROWEST_FOR_BIAS = Fraction(6)
"""Inches: a smaller square gives more seams than bias."""


class TooNarrow(ValueError):
    """Cloth that is not wide enough to make the wanted thing of it at all."""


@dataclass(frozen=True)
class BindingPlan:
    """Inches. `pieces` strips of `length` by `strip`, or `pieces` squares of `length`, give `total` of binding."""

    fabric: str
    bias: bool
    strip: Fraction
    pieces: int
    length: Fraction
    around: Fraction
    needed: Fraction
    total: Fraction


def plan_binding(
    binding: Binding,
    width: Number,
    height: Number,
    *,
    usable_width: Fraction,
    rules: CuttingRules,
    extra: Fraction = EXTRA,
) -> BindingPlan:
    """The binding of a top of that finished size (inches); `TooNarrow` where the cloth is no wider than its strips."""
    around = rules.round(2 * (width + height))
    needed = rules.round(2 * (width + height) + extra)
    strip, usable = rules.round(binding.strip), round_down(usable_width, rules.round_to)
    bias = binding.cut == BIAS
    if usable <= (NARROWEST_FOR_BIAS if bias else 2 * strip):
        raise TooNarrow("the cloth is too narrow for strips of that width")
    if bias:
        pieces, side = bias_squares(needed, strip, usable)
        length = rules.round(side)
        total = round_down(pieces * (length - 1) ** 2 / strip, rules.round_to)
    else:
        pieces, length = count_strips(needed, strip, usable), usable
        total = joined_length(pieces, strip, usable)
    return BindingPlan(binding.fabric, bias, strip, pieces, length, around, needed, total)


def count_strips(needed: Number, strip: Fraction, usable: Fraction) -> int:
    """How many strips of the cloth's width, joined on the diagonal, reach `needed` inches.

    Every join costs one strip width (crayonboxquiltstudio.com 2012/04); the published strip counts leave that
    out, so for 56 by 78 in with 8 in extra from 40 in cloth they say 7, and 7 come to 268 in of 276.
    """
    return max(1, ceil((needed - strip) / (usable - strip)))


def joined_length(pieces: int, strip: Fraction, usable: Fraction) -> Fraction:
    """Inches of binding from so many strips joined on the diagonal."""
    return pieces * usable - (pieces - 1) * strip


def bias_squares(needed: Fraction, strip: Fraction, usable: Fraction) -> tuple[int, Fraction]:
    """The fewest equal squares, and their side in whole inches, that give `needed` inches of bias binding.

    A square yields (side - 1)² / strip once its seams are sewn: the charts of makers keep to that, while
    area over width alone promises more than it keeps. `usable` is more than 3 in.
    """
    largest = floor(usable) - 1
    pieces = max(1, ceil(needed * strip / (largest * largest)))
    return pieces, Fraction(_root_up(needed * strip / pieces) + 1)


def _root_up(square: Fraction) -> int:
    """The least whole number whose square is not below the given number."""
    whole = ceil(square)
    root = isqrt(whole)
    return root if root * root >= square else root + 1
