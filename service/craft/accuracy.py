"""How exactly a project is cut and sewn, and how thick its thread is: settings, each with a default of our own."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from service.craft.measure import MM_PER_INCH

THICKNESS = Fraction(1, 4) / MM_PER_INCH
"""Inches: patchwork cotton is about a quarter of a millimetre thick. Our own estimate, no source."""

THREAD = Fraction(3, 20) / MM_PER_INCH
"""Inches: a sewing thread is about 0.15 mm thick. From memory."""

VISIBLE = Fraction(1, 32)
"""Inches that may be missing beyond a point before it looks cut off: two threads of a cloth with 60 to the inch. Our
own estimate, no source."""


@dataclass(frozen=True)
class Accuracy:
    """Standard deviations in inches, and what they are held against. Our own estimates, no source.

    `seam`: what one seam takes more or less than planned, about one thread of a cloth with 60 to the inch. `cut`: how
    far one cut edge lies off, half a thread. `habit`: what all seams of one person take too much or too little alike,
    left over where the test of the seam is read to 1/64 in. `beyond_points` is the least allowance that is to be left
    beyond a point, none where it follows from the seam allowance. `thread` is how thick the thread is.
    """

    seam: Fraction = Fraction(1, 64)
    cut: Fraction = Fraction(1, 128)
    habit: Fraction = Fraction(1, 256)
    beyond_points: Fraction | None = None
    thread: Fraction = THREAD

    def times(self, factor: int) -> Accuracy:
        """The same with errors so many times as large; what is held against them stays.

        >>> USUAL.times(2).seam
        Fraction(1, 32)
        """
        return replace(self, seam=factor * self.seam, cut=factor * self.cut, habit=factor * self.habit)

    def least_beyond(self, seam_allowance: Fraction) -> Fraction:
        """The least allowance beyond a point in inches: the given one, else the full one less what can be seen."""
        if self.beyond_points is not None:
            return self.beyond_points
        return max(seam_allowance - VISIBLE, seam_allowance / 2)


BEGINNERS_TIMES = 2
"""How many times as large the errors of somebody new to piecing are. Our own estimate, no source."""

USUAL = Accuracy()
"""What holds where a document says nothing."""
