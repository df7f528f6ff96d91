"""Bias: strips cut on the slant of a square or a rectangle, or one continuous strip out of a sewn tube.

Exact geometry, in inches. A seam allowance counts twice in every join, and √2 times as much along a strip whose
ends slant.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from math import ceil, floor, isqrt

from service.craft.measure import ROOT_2, Exact, Number

NARROWEST = Fraction(6)
"""Inches: a smaller square gives more seams than bias."""


class TooNarrow(ValueError):
    """Cloth that is not wide enough to make the wanted thing of it at all."""


def area_side(needed: Fraction, strip: Fraction) -> int:
    """The side of a square by the usual rule, √(length x width) up to a whole inch, seams left out.

    Source: getasquiltingstudio.com 2018/04; quiltersquestiontime.com 2021/08; sewaquilt.com/bias-tape.html.
    """
    return ceil_root(needed * strip)


def ceil_root(square: Fraction) -> int:
    """The least whole number whose square is not below the given number.

    >>> ceil_root(Fraction(500)), ceil_root(Fraction(529)), ceil_root(Fraction(1059, 2))
    (23, 23, 24)
    """
    whole = ceil(square)
    root = isqrt(whole)
    return root if root * root >= whole else root + 1


def strip_lengths(side: Fraction, length: Fraction, strip: Fraction) -> Iterator[Exact]:
    """The strips of a square, or of a rectangle `side` wide and longer, each with the length it adds to the whole.

    The first cut runs on the slant from a corner. To one side of it lies a triangle, whose strips grow shorter
    by two strip widths each; beyond it as many whole strips as there is room for, and another triangle. The ends
    slant all one way once every other strip is turned, so a strip adds the middle of its two edges. What is
    shorter than wide is left.
    """
    diagonal = side * ROOT_2
    for _ in range(floor((length - side) / (strip * ROOT_2))):
        yield diagonal
    number = 0
    while (middle := diagonal - (2 * number + 1) * strip) >= 2 * strip:
        yield middle
        yield middle
        number += 1


def joined_strips(side: Fraction, length: Fraction, strip: Fraction, seam: Fraction) -> tuple[int, Exact]:
    """How many strips such a piece gives, and the length of all of them joined."""
    found = list(strip_lengths(side, length, strip))
    joins = max(0, len(found) - 1)
    return len(found), sum(found, Exact(0)) - joins * slant_loss(seam)


def piece_for_strips(needed: Fraction, strip: Fraction, usable: Fraction, seam: Fraction) -> tuple[int, int]:
    """Width and length in whole inches of the least piece whose strips, joined, reach `needed`.

    A square while it fits on the cloth, else a rectangle as wide as the cloth.
    """
    widest = floor(usable)
    if widest < NARROWEST or widest * ROOT_2 < 3 * strip:
        raise TooNarrow("the cloth is too narrow for bias strips of that width")
    side = min(widest, max(int(NARROWEST), area_side(needed, strip)))
    while side < widest and _square_gives(side, strip, seam) < needed:
        side += 1
    missing = needed - _square_gives(side, strip, seam)
    if missing <= 0:
        return side, side
    more = ceil(missing / (side * ROOT_2 - slant_loss(seam)))
    return side, side + ceil(more * strip * ROOT_2)


def _square_gives(side: int, strip: Fraction, seam: Fraction) -> Exact:
    return joined_strips(Fraction(side), Fraction(side), strip, seam)[1]


def continuous_length(side: Fraction, strip: Fraction, seam: Fraction) -> Exact:
    """What a square gives as one continuous strip: whole rounds of the tube it is sewn to, or less.

    Two seams make the tube; each takes two allowances, so side - 2 x allowance is left both ways. A round is √2
    times that long, and a strip takes √2 times its width of it: only whole rounds are cut. Where the usual chart,
    (side - 1)² / width, promises less than that, it is kept to: the safer of the two (its source: a scraped chart
    of 2 in bias, 12 in squares giving 60 in).
    """
    left = side - 2 * seam
    rounds = floor(left / (strip * ROOT_2))
    return min(rounds * left * ROOT_2, Exact((side - 1) * (side - 1) / strip))


def continuous_squares(
    needed: Fraction, strip: Fraction, usable: Fraction, seam: Fraction
) -> tuple[int, int]:
    """The fewest equal squares, and their side in whole inches, that give `needed` inches of continuous bias."""
    largest = floor(usable)
    if largest < NARROWEST or continuous_length(Fraction(largest), strip, seam) <= slant_loss(seam):
        raise TooNarrow("the cloth is too narrow for bias strips of that width")
    pieces = 1
    while continuous_total(pieces, Fraction(largest), strip, seam) < needed:
        pieces += 1
    side = min(largest, max(int(NARROWEST), area_side(needed / pieces, strip)))
    while continuous_total(pieces, Fraction(side), strip, seam) < needed:
        side += 1
    return pieces, side


def continuous_total(pieces: int, side: Fraction, strip: Fraction, seam: Fraction) -> Exact:
    """What several equal squares give, their strips joined to one."""
    return pieces * continuous_length(side, strip, seam) - (pieces - 1) * slant_loss(seam)


def slant_loss(seam: Number) -> Exact:
    """What a join of two ends that slant takes along the strip: two allowances, square to the seam."""
    return 2 * seam * ROOT_2
