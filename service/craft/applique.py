"""What a document says of all applique pieces at once: how far one reaches under another, what is turned under."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from service.craft.measure import MM_PER_INCH

DEFAULT_UNDERLAP = Fraction(1, 4)
"""Inches that a piece reaches under the one on top of it. Common practice, no source: 1/8 to 1/4 in are met."""

DEFAULT_TURNING = Fraction(3, 16)
"""Inches of cloth turned under along a turned edge. Common practice, no source: 1/8 to 1/4 in are met."""


@dataclass(frozen=True)
class AppliqueRules:
    """How pieces are cut beyond their finished shape, in inches."""

    underlap: Fraction = DEFAULT_UNDERLAP
    turning: Fraction = DEFAULT_TURNING

    @property
    def underlap_mm(self) -> float:
        """The underlap in millimetres."""
        return float(self.underlap * MM_PER_INCH)

    @property
    def turning_mm(self) -> float:
        """The turning allowance in millimetres."""
        return float(self.turning * MM_PER_INCH)


USUAL_APPLIQUE = AppliqueRules()
