"""Strips longer than the cloth is wide: equal shorter ones, joined end to end with a straight seam."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from service.craft.measure import round_up


@dataclass(frozen=True)
class Joined:
    """`pieces` of `length` inches each, joined to `total`, of which the wanted length is trimmed."""

    pieces: int
    length: Fraction
    total: Fraction


def join_strips(
    wanted: Fraction, usable_width: Fraction, *, seam_allowance: Fraction, round_to: Fraction
) -> Joined | None:
    """The fewest equal pieces that give the wanted length (inches); each join costs two allowances.

    None where the cloth is so narrow that joins eat it up. Source of the loss: geometry (10 in and 10 in
    joined with 1/4 in give 19 1/2 in).

    >>> join_strips(Fraction(45), Fraction(40), seam_allowance=Fraction(1, 4), round_to=Fraction(1, 8))
    Joined(pieces=2, length=Fraction(91, 4), total=Fraction(45, 1))
    """
    loss = 2 * seam_allowance
    if usable_width - loss < round_to:
        return None
    pieces = max(1, ceil((wanted - loss) / (usable_width - loss)))
    length = _each(pieces, wanted, loss, round_to)
    while length > usable_width:
        # a width between two steps of the ruler: rounding up went over it
        pieces += 1
        length = _each(pieces, wanted, loss, round_to)
    return Joined(pieces, length, pieces * length - (pieces - 1) * loss)


def _each(pieces: int, wanted: Fraction, loss: Fraction, step: Fraction) -> Fraction:
    return round_up((wanted + (pieces - 1) * loss) / pieces, step)
