"""The back: panels of cloth, seams along the length or across it, and the batting between."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from service.craft.measure import Number
from service.craft.units import CuttingRules
from workers.cutting.binding import TooNarrow

SEAM = Fraction(1, 2)
"""Seam allowance of the back, in inches: a wide seam, pressed open."""

VERTICAL, HORIZONTAL = "along the length", "across the width"
"""How the seams of the back run, seen from the finished quilt."""

BATTING_SIZES = (
    ("craft", 34, 45),
    ("crib", 45, 60),
    ("twin", 72, 90),
    ("full", 81, 96),
    ("queen", 90, 108),
    ("king", 120, 120),
)
"""Sizes in inches that batting is commonly sold in; where two published lists differ, the smaller."""


@dataclass(frozen=True)
class Panels:
    """`count` panels of `width` across the roll and `length` along it, sewn together with `seams` that way."""

    count: int
    width: Fraction
    length: Fraction
    seams: str

    @property
    def along_roll(self) -> Fraction:
        """Inches of cloth the panels take."""
        return self.count * self.length


@dataclass(frozen=True)
class BackingPlan:
    """The back, `width` by `height` inches; `chosen` needs less cloth than `other`, which may be None."""

    fabric: str
    width: Fraction
    height: Fraction
    chosen: Panels
    other: Panels | None


def plan_backing(
    fabric: str,
    width: Number,
    height: Number,
    overhang: Fraction,
    *,
    usable_width: Fraction,
    directional: bool,
    rules: CuttingRules,
    seam: Fraction = SEAM,
) -> BackingPlan:
    """The back of a top of that finished size (inches), larger by the overhang on every side.

    A print with a direction stands upright, so its panels run along the length. `TooNarrow` where the
    seams eat the cloth up.
    """
    w, h = rules.round(width + 2 * overhang), rules.round(height + 2 * overhang)
    upright = cut_panels(w, h, VERTICAL, usable_width=usable_width, rules=rules, seam=seam)
    if directional:
        return BackingPlan(fabric, w, h, upright, None)
    lying = cut_panels(h, w, HORIZONTAL, usable_width=usable_width, rules=rules, seam=seam)
    ranked = sorted((upright, lying), key=lambda p: (p.along_roll, p.count))
    return BackingPlan(fabric, w, h, *ranked)


def cut_panels(
    across: Fraction,
    along: Fraction,
    seams: str,
    *,
    usable_width: Fraction,
    rules: CuttingRules,
    seam: Fraction = SEAM,
) -> Panels:
    """The fewest equal panels that come to `across` inches, each `along` inches of the roll.

    k panels give k x usable - (k - 1) x two seam allowances: the panel model of the tests.
    """
    loss = 2 * seam
    if usable_width - loss < rules.round_to:
        raise TooNarrow("the cloth is too narrow for the seams of a back")
    count = max(1, ceil((across - loss) / (usable_width - loss)))
    while (width := rules.round((across + (count - 1) * loss) / count)) > usable_width:
        count += 1
    return Panels(count, width, along, seams)


def batting_package(width: Fraction, height: Fraction) -> tuple[str, int, int] | None:
    """The smallest size batting is sold in that covers so many inches, lying either way; None beyond the largest."""
    for name, short, long in BATTING_SIZES:
        if min(width, height) <= short and max(width, height) <= long:
            return name, short, long
    return None
