"""How long the work takes: seconds for each thing done, from which minutes are counted. Our own estimates."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True)
class Pace:
    """Seconds of somebody practised, and how many times as long a beginner takes.

    `cut` is one patch cut or one unit trimmed, `seam` taking up and putting down one seam, `sewing` one inch of it
    under the needle, `press` one seam under the iron, `pin` one pin set and taken out again.
    """

    cut: Fraction = Fraction(15)
    seam: Fraction = Fraction(20)
    sewing: Fraction = Fraction(1)
    press: Fraction = Fraction(15)
    pin: Fraction = Fraction(6)
    beginner: Fraction = Fraction(2)


USUAL_PACE = Pace()
"""What holds where a document says nothing."""
