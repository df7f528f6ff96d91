"""Cloth that is not wide enough: equal strips joined end to end, or equal panels side by side, with what joins take."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from service.craft.cutting_choices import DIAGONAL_JOIN, STRAIGHT_JOIN
from service.craft.language import mark, phrase
from service.craft.measure import round_up

END_TO_END, SIDE_BY_SIDE = "end to end", "side by side"
"""How pieces lie that are joined: strips by their short ends, panels by their long edges."""

JOINS = {
    (END_TO_END, STRAIGHT_JOIN): mark("join {count} end to end with straight seams"),
    (END_TO_END, DIAGONAL_JOIN): mark("join {count} end to end on the diagonal"),
    (SIDE_BY_SIDE, STRAIGHT_JOIN): mark("join {count} side by side with straight seams"),
}
"""How a join is named."""


@dataclass(frozen=True)
class Part:
    """`count` strips of `length` inches cut from a longer joined one; so many patches come of all of them."""

    count: int
    length: Fraction
    makes: int


@dataclass(frozen=True)
class Joined:
    """`pieces` of `length` inches each, joined to `total`, of which the length `wanted` is trimmed.

    `loss` is what each join takes, `seams` how it is sewn, straight or diagonal, and `laid` how the pieces lie.
    Where several strips are cut from one joined one, `parts` says which; all its pieces are one set then.
    """

    pieces: int
    length: Fraction
    total: Fraction
    loss: Fraction
    seams: str
    wanted: Fraction
    laid: str = END_TO_END
    parts: tuple[Part, ...] = ()

    @property
    def in_panels(self) -> bool:
        """Whether these are panels: `length` then lies across the roll, and the seams run along it."""
        return self.laid == SIDE_BY_SIDE

    def say(self) -> str:
        """How the pieces are joined, in words."""
        return phrase(JOINS[self.laid, self.seams], count=self.pieces)


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


def join_panels(
    wanted: Fraction, usable_width: Fraction, *, seam_allowance: Fraction, round_to: Fraction
) -> Joined | None:
    """The fewest equal panels, as long as the piece and side by side, that come to its width (inches).

    None as with strips. Equal panels, for the seams are seen: they divide the piece evenly, there is one size to cut,
    and no panel is a sliver, since all of the fewest are wider than half the cloth.

    >>> join_panels(Fraction(121, 2), Fraction(40), seam_allowance=Fraction(1, 4), round_to=Fraction(1, 8)).length
    Fraction(61, 2)
    """
    joined = join_strips(wanted, usable_width, seam_allowance=seam_allowance, round_to=round_to)
    return None if joined is None else replace(joined, laid=SIDE_BY_SIDE)


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
