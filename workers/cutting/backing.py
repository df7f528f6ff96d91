"""The back: panels of cloth, seams along the length or across it."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from service.craft.finish import BACKING_SEAM, HORIZONTAL, LEAST, VERTICAL, Backing
from service.craft.measure import Number, round_down
from service.craft.units import CuttingRules
from workers.cutting.bias import TooNarrow

OFF_FOLD = Fraction(2)
"""Inches a seam keeps from the middle, where the fold lies and wears; common practice, no source."""


@dataclass(frozen=True)
class Panels:
    """Panels side by side, of these `widths` across the roll and of `length` along it, their seams running so."""

    widths: tuple[Fraction, ...]
    length: Fraction
    seams: str

    @property
    def count(self) -> int:
        """How many panels."""
        return len(self.widths)

    @property
    def along_roll(self) -> Fraction:
        """Inches of cloth the panels take."""
        return self.count * self.length

    @property
    def across(self) -> Fraction:
        """Inches they come to when they are sewn together."""
        return sum(self.widths, Fraction(0)) - 2 * BACKING_SEAM * (self.count - 1)

    @property
    def seam_places(self) -> tuple[Fraction, ...]:
        """Where the seams lie, in inches from the edge the first panel lies at."""
        places, edge = [], Fraction(0)
        for width in self.widths[:-1]:
            edge += width - 2 * BACKING_SEAM
            places.append(edge + BACKING_SEAM)
        return tuple(places)

    @property
    def on_the_fold(self) -> bool:
        """Whether a seam lies on or hard by the middle of the back."""
        return any(abs(place - self.across / 2) < OFF_FOLD for place in self.seam_places)


@dataclass(frozen=True)
class BackingPlan:
    """The back, `width` by `height` inches; `other` is the other way of laying the panels, where there is one."""

    fabric: str
    width: Fraction
    height: Fraction
    chosen: Panels
    other: Panels | None


def plan_backing(
    backing: Backing,
    width: Number,
    height: Number,
    *,
    usable_width: Fraction,
    directional: bool,
    rules: CuttingRules,
) -> BackingPlan:
    """The back of a top of that finished size (inches), larger by the overhang on every side.

    The way that takes less cloth is chosen unless the document chooses. A print with a direction stands upright,
    so its panels run along the length. `TooNarrow` where the seams eat the cloth up.
    """
    w, h = (rules.round(side + 2 * backing.overhang) for side in (width, height))
    upright = cut_panels(w, h, VERTICAL, usable_width=usable_width, rules=rules)
    if directional:
        return BackingPlan(backing.fabric, w, h, upright, None)
    lying = cut_panels(h, w, HORIZONTAL, usable_width=usable_width, rules=rules)
    if backing.seams == LEAST:
        chosen, other = sorted((upright, lying), key=lambda p: (p.along_roll, p.count))
    else:
        chosen, other = (upright, lying) if backing.seams == VERTICAL else (lying, upright)
    return BackingPlan(backing.fabric, w, h, chosen, other)


def cut_panels(
    across: Fraction, along: Fraction, seams: str, *, usable_width: Fraction, rules: CuttingRules
) -> Panels:
    """The fewest panels that come to `across` inches, each `along` inches of the roll.

    k panels give k x usable - (k - 1) x two seam allowances: the panel model of the tests. Two are unequal, so that
    their seam keeps off the fold in the middle as far as the cloth allows; more are equal.
    """
    loss = 2 * BACKING_SEAM
    if usable_width - loss < rules.round_to:
        raise TooNarrow("the cloth is too narrow for the seams of a back")
    count = max(1, ceil((across - loss) / (usable_width - loss)))
    if count == 2:
        wide = min(rules.round((across + loss) * Fraction(2, 3)), round_down(usable_width, rules.round_to))
        narrow = rules.round(across + loss - wide)
        if narrow <= wide:
            return Panels((wide, narrow), along, seams)
    while (width := rules.round((across + (count - 1) * loss) / count)) > usable_width:
        count += 1
    return Panels((width,) * count, along, seams)
