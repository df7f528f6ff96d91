"""Sines and cosines as fractions: off by less than `ERROR`, the same on every machine.

Angles of patchwork are whole degrees or simple fractions of them, their sines almost never; the error is so small that
it decides no rounding that matters, and no float comes in.
"""

from __future__ import annotations

from fractions import Fraction

ERROR = Fraction(1, 10**30)
"""More than a sine given here is off by."""

_SCALE = 10**40
_PI = 31415926535897932384626433832795028841971
"""π in parts of `_SCALE`, cut off after the last digit (to be found in any table)."""


def sine(degrees: Fraction) -> Fraction:
    """The sine of an angle; opposite angles have exactly opposite sines.

    >>> sine(Fraction(0)), sine(Fraction(90)), sine(Fraction(-270))
    (Fraction(0, 1), Fraction(1, 1), Fraction(1, 1))
    >>> float(sine(Fraction(18))).__round__(6)
    0.309017
    """
    turned = degrees % 360
    if turned > 180:
        return -sine(360 - turned)
    if turned > 90:
        turned = 180 - turned
    first = 1 if turned <= 45 else 0
    arc = turned if first else 90 - turned
    return Fraction(_sum_series(int(arc * _PI / 180), first), _SCALE)


def cosine(degrees: Fraction) -> Fraction:
    """The cosine of an angle.

    >>> cosine(Fraction(90)), cosine(Fraction(180))
    (Fraction(0, 1), Fraction(-1, 1))
    """
    return sine(90 - degrees)


def tangent(degrees: Fraction) -> Fraction:
    """The tangent of an angle under 90 degrees."""
    return sine(degrees) / cosine(degrees)


def _sum_series(x: int, first: int) -> int:
    """x - x³/3! + x⁵/5! … where `first` is 1, 1 - x²/2! + x⁴/4! … where it is 0, in parts of `_SCALE`.

    Up to 45 degrees every term is smaller than the one before, so what is left out is smaller than a part.
    """
    term, total, power = (x if first else _SCALE), 0, first
    while term:
        total += term
        term = -term * x // _SCALE * x // _SCALE // ((power + 1) * (power + 2))
        if term == -1:
            # rounded down, a term below nought never gets to nought by itself
            break
        power += 2
    return total
