"""Strips longer than the cloth is wide: equal shorter ones, joined end to end with straight or diagonal seams."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from service.craft.cutting_choices import DIAGONAL_JOIN, STRAIGHT_JOIN
from service.craft.measure import round_up

SEAMS = {STRAIGHT_JOIN: "with straight seams", DIAGONAL_JOIN: "on the diagonal"}
"""How a join is named."""


@dataclass(frozen=True)
class Joined:
    """`pieces` of `length` inches each, joined to `total`, of which the length `wanted` is trimmed.

    `loss` is what each join takes, and `seams` how it is sewn, straight or diagonal.
    """

    pieces: int
    length: Fraction
    total: Fraction
    loss: Fraction
    seams: str
    wanted: Fraction

    def say(self) -> str:
        """How the pieces are joined, in words."""
        return f"join {self.pieces} end to end {SEAMS[self.seams]}"


def join_strips(
    wanted: Fraction, usable_width: Fraction, *, seam_allowance: Fraction, round_to: Fraction
) -> Joined | None:
    """The fewest equal pieces that give the wanted length (inches); each join costs two allowances.

    None where the cloth is so narrow that joins eat it up. Source of the loss: geometry (10 in and 10 in
    joined with 1/4 in give 19 1/2 in).

    >>> join_strips(Fraction(45), Fraction(40), seam_allowance=Fraction(1, 4), round_to=Fraction(1, 8)).length
    Fraction(91, 4)
    """
    return _join(wanted, usable_width, 2 * seam_allowance, round_to, STRAIGHT_JOIN)


def join_on_the_diagonal(
    wanted: Fraction, usable_width: Fraction, *, strip: Fraction, round_to: Fraction
) -> Joined | None:
    """The same with diagonal seams, each of which costs the width of the strip (crayonboxquiltstudio.com 2012/04).

    >>> join_on_the_diagonal(Fraction(17), Fraction(10), strip=Fraction(3), round_to=Fraction(1, 8)).pieces
    2
    """
    return _join(wanted, usable_width, strip, round_to, DIAGONAL_JOIN)


def _join(
    wanted: Fraction, usable_width: Fraction, loss: Fraction, round_to: Fraction, seams: str
) -> Joined | None:
    if usable_width - loss < round_to:
        return None
    pieces = max(1, ceil((wanted - loss) / (usable_width - loss)))
    length = _each(pieces, wanted, loss, round_to)
    while length > usable_width:
        # a width between two steps of the ruler: rounding up went over it
        pieces += 1
        length = _each(pieces, wanted, loss, round_to)
    return Joined(pieces, length, pieces * length - (pieces - 1) * loss, loss, seams, wanted)


def _each(pieces: int, wanted: Fraction, loss: Fraction, step: Fraction) -> Fraction:
    return round_up((wanted + (pieces - 1) * loss) / pieces, step)
