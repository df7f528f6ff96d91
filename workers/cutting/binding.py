"""Binding: how many strips go round a quilt, or how large a piece gives enough of them on the bias."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import ceil

from service.craft.cutting_choices import STRAIGHT_JOIN
from service.craft.finish import BIAS, CONTINUOUS, STRAIGHT, Binding
from service.craft.measure import Number, round_down
from service.craft.units import CuttingRules
from workers.cutting.bias import (
    TooNarrow,
    area_side,
    continuous_squares,
    continuous_total,
    joined_strips,
    piece_for_strips,
)


@dataclass(frozen=True)
class Usual:
    """What the usual rule says where it falls short: so many pieces, or squares of that side, and what they come to.

    Inches.
    """

    pieces: int
    side: Fraction | None
    joined: Fraction


@dataclass(frozen=True)
class BindingPlan:
    """Inches. `pieces` of `width` by `height` give `strips` of `strip`, joined to `total` of binding.

    A continuous strip has no strips to count; `loss` is what a join of straight ones takes. `usual` is None where the
    usual rule says the same.
    """

    binding: Binding
    strip: Fraction
    pieces: int
    width: Fraction
    height: Fraction
    strips: int | None
    around: Fraction
    needed: Fraction
    total: Fraction
    usual: Usual | None
    loss: Fraction


@dataclass(frozen=True)
class _Cloth:
    """The rules and the cloth a binding is cut by: its usable width on the rounding grid, in inches."""

    usable: Fraction
    rules: CuttingRules

    @property
    def seam(self) -> Fraction:
        return self.rules.seam_allowance

    def shorten(self, total: Number) -> Fraction:
        """A length that is there, on the grid: rounded down, for it must not be promised."""
        return round_down(total, self.rules.round_to)


def plan_binding(
    binding: Binding, width: Number, height: Number, *, usable_width: Fraction, rules: CuttingRules
) -> BindingPlan:
    """The binding of a top of that finished size (inches); `TooNarrow` where the cloth is no wider than its strips."""
    around = rules.round(2 * (width + height))
    needed = rules.round(2 * (width + height) + binding.extra)
    strip = rules.round(binding.strip)
    cloth = _Cloth(round_down(usable_width, rules.round_to), rules)
    if binding.cut == STRAIGHT and cloth.usable <= 2 * max(strip, 2 * cloth.seam):
        raise TooNarrow("the cloth is too narrow for strips of that width")
    plan = {STRAIGHT: _straight, BIAS: _bias, CONTINUOUS: _continuous}[binding.cut]
    loss = join_loss(binding.join, strip, cloth.seam)
    pieces, sides, strips, total, usual = plan(binding, needed, strip, cloth)
    return BindingPlan(binding, strip, pieces, *sides, strips, around, needed, total, usual, loss)


_Found = tuple[int, tuple[Fraction, Fraction], int | None, Fraction, Usual | None]


def _straight(binding: Binding, needed: Fraction, strip: Fraction, cloth: _Cloth) -> _Found:
    loss = join_loss(binding.join, strip, cloth.seam)
    pieces = count_strips(needed, cloth.usable, loss)
    usual = usual_strips(needed, cloth.usable)
    short = Usual(usual, None, joined_length(usual, cloth.usable, loss)) if usual < pieces else None
    return pieces, (cloth.usable, strip), pieces, joined_length(pieces, cloth.usable, loss), short


def _bias(binding: Binding, needed: Fraction, strip: Fraction, cloth: _Cloth) -> _Found:
    side, length = piece_for_strips(needed, strip, cloth.usable, cloth.seam)
    strips, total = joined_strips(Fraction(side), Fraction(length), strip, cloth.seam)
    short = None
    usual = area_side(needed, strip)
    if usual * usual < side * length:
        _, joined = joined_strips(Fraction(usual), Fraction(usual), strip, cloth.seam)
        short = Usual(1, Fraction(usual), cloth.shorten(joined))
    sides = cloth.rules.round(Fraction(side)), cloth.rules.round(Fraction(length))
    return 1, sides, strips, cloth.shorten(total), short


def _continuous(binding: Binding, needed: Fraction, strip: Fraction, cloth: _Cloth) -> _Found:
    pieces, side = continuous_squares(needed, strip, cloth.usable, cloth.seam)
    total = continuous_total(pieces, Fraction(side), strip, cloth.seam)
    usual, short = area_side(needed / pieces, strip), None
    if usual < side:
        joined = continuous_total(pieces, Fraction(usual), strip, cloth.seam)
        short = Usual(pieces, Fraction(usual), cloth.shorten(joined))
    cut = cloth.rules.round(Fraction(side))
    return pieces, (cut, cut), None, cloth.shorten(total), short


def join_loss(join: str, strip: Fraction, seam: Fraction) -> Fraction:
    """Inches of binding that a join of two straight strips takes.

    On the diagonal a whole strip width (crayonboxquiltstudio.com 2012/04), straight two allowances (geometry).
    """
    return 2 * seam if join == STRAIGHT_JOIN else strip


def usual_strips(needed: Fraction, usable: Fraction) -> int:
    """The published count, ceil(needed / usable): joins left out (binding tables of the tests)."""
    return max(1, ceil(needed / usable))


def count_strips(needed: Fraction, usable: Fraction, loss: Fraction) -> int:
    """How many strips of the cloth's width reach `needed` inches, where every join costs `loss`.

    The published counts leave the joins out: for 56 by 78 in with 8 in extra from 40 in cloth they say 7 strips
    of 2 in, and joined on the diagonal 7 come to 268 in of 276.
    """
    return max(1, ceil((needed - loss) / (usable - loss)))


def joined_length(pieces: int, usable: Fraction, loss: Fraction) -> Fraction:
    """Inches of binding from so many strips joined."""
    return pieces * usable - (pieces - 1) * loss
