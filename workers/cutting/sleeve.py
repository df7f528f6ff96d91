"""A hanging sleeve: a strip sewn to a flat tube along the upper edge of the back."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from service.craft.finish import Sleeve
from service.craft.joining import Joined, join_strips
from service.craft.measure import Number
from service.craft.units import CuttingRules
from workers.cutting.bias import TooNarrow


@dataclass(frozen=True)
class SleevePlan:
    """A strip of `length` by `height` inches, out of `joined` pieces, for a sleeve of that finished depth."""

    sleeve: Sleeve
    length: Fraction
    height: Fraction
    joined: Joined


def plan_sleeve(sleeve: Sleeve, width: Number, *, usable_width: Fraction, rules: CuttingRules) -> SleevePlan:
    """The sleeve of a quilt of that finished width (inches); `TooNarrow` where the joins eat the cloth up.

    Its strip is joined straight whatever the document says of others: a slanting seam as high takes too much.
    """
    long, high = sleeve.strip(width, rules.seam_allowance)
    length = rules.round(long)
    joined = join_strips(length, usable_width, seam_allowance=rules.seam_allowance, round_to=rules.round_to)
    if joined is None:
        raise TooNarrow("the cloth is too narrow for the joins of a sleeve")
    return SleevePlan(sleeve, length, rules.round(high), joined)
