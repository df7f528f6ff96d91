"""What to buy: cloth shrinks, shops cut in steps, and a length has its price."""

from __future__ import annotations

from fractions import Fraction

from service.craft.fabric import Fabric
from service.craft.measure import MM_PER_INCH, round_nearest, round_up

SHOP_STEPS = {"in": Fraction(9, 2), "mm": 100 / MM_PER_INCH, "cm": 100 / MM_PER_INCH}
"""Inches in the steps cloth is sold in: an eighth of a yard, or 0.1 m."""

CENT = Fraction(1, 100)


def length_to_buy(length: Fraction, shrinkage: Fraction, measure: str) -> Fraction:
    """Inches to buy so that `length` is left after a wash: length / (1 - shrinkage), up to the shop's step.

    >>> length_to_buy(Fraction(36), Fraction(3, 100), "in")        # 37.11 in: 1 1/8 yd
    Fraction(81, 2)
    """
    return round_up(length / (1 - shrinkage), SHOP_STEPS[measure])


def cost(length: Fraction, fabric: Fabric) -> Fraction | None:
    """What a length bought costs, to the cent, or None where the cloth has no price."""
    if fabric.price is None:
        return None
    amount, per = fabric.price
    return round_nearest(length * amount / per, CENT)
