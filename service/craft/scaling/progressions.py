"""Fractions that come at equal distances: all r + k·m, and what several such rows have in common, exactly."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import gcd


@dataclass(frozen=True)
class Progression:
    """The numbers `start` + k·`step` for every whole k; 0 <= start < step."""

    start: Fraction
    step: Fraction

    @classmethod
    def through(cls, number: Fraction, step: Fraction) -> Progression:
        """The numbers at distances of `step` (above nothing) from a number."""
        return cls(number % step, step)

    def meet(self, other: Progression) -> Progression | None:
        """What both have in common: again such a row (the Chinese remainder theorem), or None.

        >>> a, b = (Progression.through(Fraction(0), Fraction(1, n)) for n in (24, 28))
        >>> a.meet(b)
        Progression(start=Fraction(0, 1), step=Fraction(1, 4))
        >>> Progression(Fraction(1, 3), Fraction(1)).meet(Progression(Fraction(1, 2), Fraction(1))) is None
        True
        """
        whole = 1
        for number in (self.start, self.step, other.start, other.step):
            whole = whole * number.denominator // gcd(whole, number.denominator)
        r, m, s, n = (int(number * whole) for number in (self.start, self.step, other.start, other.step))
        common = gcd(m, n)
        if (s - r) % common:
            return None
        # r + k·m ≡ s (mod n), so k ≡ (s - r)/common · (m/common)⁻¹ (mod n/common)
        k = (s - r) // common * pow(m // common, -1, n // common) if n != common else 0
        return Progression.through(Fraction(r + k * m, whole), Fraction(m // common * n, whole))

    def below(self, number: Fraction) -> Fraction:
        """The greatest member under a number."""
        steps = -((self.start - number) // self.step) - 1
        return self.start + steps * self.step

    def above(self, number: Fraction) -> Fraction:
        """The least member over a number.

        >>> row = Progression(Fraction(0), Fraction(1, 4))
        >>> row.below(Fraction(1)), row.above(Fraction(1)), row.below(Fraction(4, 3)), Fraction(3, 4) in row
        (Fraction(3, 4), Fraction(5, 4), Fraction(5, 4), True)
        """
        return self.start + ((number - self.start) // self.step + 1) * self.step

    def __contains__(self, number: Fraction) -> bool:
        return (number - self.start) % self.step == 0
