"""How long the work takes: seconds for each thing done, from which minutes are counted. Our own estimates."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class Pace:
    """Seconds of somebody practised, and how many times as long a beginner takes.

    `cut` is one patch cut or two sides of a unit trimmed, `seam` laying the parts of one seam on each other and taking
    them up and down, `sewing` one inch of it under the needle, `press` one seam under the iron, `pin` one pin set and
    taken out again.
    """

    cut: Fraction = Fraction(30)
    seam: Fraction = Fraction(45)
    sewing: Fraction = Fraction(1)
    press: Fraction = Fraction(25)
    pin: Fraction = Fraction(10)
    beginner: Fraction = Fraction(2)


USUAL_PACE = Pace()
"""What holds where a document says nothing."""
