"""What to buy: cloth is cut straight, shrinks, is sold in steps, and has its price."""

from __future__ import annotations

from fractions import Fraction

from service.craft.cutting_choices import BUYING_STEPS, DEFAULT_STEP
from service.craft.fabric import Fabric
from service.craft.measure import round_nearest, round_up

CENT = Fraction(1, 100)


def cloth_to_buy(length: Fraction, fabric: Fabric) -> Fraction:
    """Inches to buy so that `length` is left: (length + straightening) / (1 - shrinkage), up to the shop's step.

    Nothing for nothing.

    >>> cloth_to_buy(Fraction(36), Fabric("leek", "leek", "#5f8f4e", Fraction(40), shrinkage=Fraction(3, 100)))
    Fraction(81, 2)
    """
    return up_to_step(length and length + fabric.straightening, fabric.shrinkage, fabric.buying_step)


def length_to_buy(length: Fraction, shrinkage: Fraction, measure: str) -> Fraction:
    """Inches to buy of anything sold by the length and not cut straight: in the usual steps of a measure.

    >>> length_to_buy(Fraction(36), Fraction(3, 100), "in")        # 37.11 in: 1 1/8 yd
    Fraction(81, 2)
    """
    return up_to_step(length, shrinkage, BUYING_STEPS[DEFAULT_STEP[measure]])


def up_to_step(length: Fraction, shrinkage: Fraction, step: Fraction) -> Fraction:
    """The least multiple of a step that leaves `length` after a wash: purchase = need / (1 - p), arithmetic."""
    return round_up(length / (1 - shrinkage), step)


def longest_for_the_same(length: Fraction, fabric: Fabric) -> Fraction:
    """The longest length (inches) that what is bought for `length` is enough for.

    >>> longest_for_the_same(Fraction(35), Fabric("leek", "leek", "#5f8f4e", Fraction(40)))
    Fraction(35, 1)
    >>> longest_for_the_same(Fraction(36), Fabric("leek", "leek", "#5f8f4e", Fraction(40)))
    Fraction(79, 2)
    """
    if not length:
        return length
    return cloth_to_buy(length, fabric) * (1 - fabric.shrinkage) - fabric.straightening


def cost(length: Fraction, fabric: Fabric) -> Fraction | None:
    """What a length bought costs, to the cent, or None where the cloth has no price."""
    if fabric.price is None:
        return None
    amount, per = fabric.price
    return round_nearest(length * amount / per, CENT)
