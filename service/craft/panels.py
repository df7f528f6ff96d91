"""Pieces wider than their cloth: how a piece lies on it, and of how many panels it is sewn where it does not fit.

Squares and rectangles are pieced of equal panels with straight seams of the project's own allowance, pressed open: two
panels of one cloth give no side to press to. What is cut up afterwards, or with a template, is not: the seam would come
to lie elsewhere in every patch of it.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction

from service.craft.cutting_choices import ALONG, LEAST_CLOTH
from service.craft.fabric import Fabric
from service.craft.joining import Joined, join_panels
from service.craft.units.base import CuttingRules, Need

STRIP = "strip"

LEAST_SEEN = Fraction(1)
"""Inches that a panel as wide as the cloth shows at least: narrower ones are more seam than cloth. Our own choice."""


@dataclass(frozen=True)
class Panels:
    """A piece of `width` by `height` inches as it lies on the cloth, sewn of panels that each are `height` long."""

    width: Fraction
    height: Fraction
    joined: Joined

    @property
    def along_roll(self) -> Fraction:
        """Inches of cloth that the panels take: no two of them lie beside each other."""
        return self.joined.pieces * self.height


def lie_on_cloth(need: Need, fabric: Fabric, *, sideways: bool) -> Need:
    """The need as its piece lies on the cloth: upright where the print has a direction, else the long side across.

    A strip that is asked to lie one way lies so, whatever it is cut from.
    """
    if need.lay != LEAST_CLOTH:
        short, long = sorted((need.width, need.height))
        across, along = (short, long) if need.lay == ALONG else (long, short)
        return replace(need, width=across, height=along)
    if fabric.one_way and need.upright is not None:
        need = replace(need, width=need.upright[0], height=need.upright[1])
    turned = sideways if fabric.one_way else need.height > need.width
    return replace(need, width=need.height, height=need.width) if turned else need


def fits_on(need: Need, fabric: Fabric) -> bool:
    """Whether a piece fits on its cloth in a way that it may lie."""
    may_turn = not fabric.one_way and need.lay == LEAST_CLOTH
    return fabric.usable_width >= (min(need.width, need.height) if may_turn else need.width)


def is_strip(need: Need) -> bool:
    """Whether a piece is joined as strips are, or is asked to lie one way as they are."""
    return need.form == STRIP or need.lay != LEAST_CLOTH


def may_be_pieced(need: Need) -> bool:
    """Whether a piece may come of panels: a square or rectangle that is sewn as it is cut."""
    return not (is_strip(need) or need.then or need.method or need.template)


def find_panels(need: Need, fabric: Fabric, rules: CuttingRules) -> Panels | None:
    """The panels of a piece that does not fit, lying the way that takes less of the roll; cloth with a direction is
    not turned. None where the cloth is too narrow for panels. `need` is as it lies.
    """
    if fabric.usable_width < least_width(rules):
        return None
    ways = [(need.width, need.height)]
    if not fabric.one_way:
        ways.append((need.height, need.width))
    found = [
        Panels(across, along, joined)
        for across, along in ways
        if (joined := cut_panels(across, fabric, rules)) is not None
    ]
    return min(found, key=lambda panels: (panels.along_roll, panels.joined.pieces), default=None)


def cut_panels(across: Fraction, fabric: Fabric, rules: CuttingRules) -> Joined | None:
    """The panels that come to so many inches; None where their seams eat the cloth up."""
    return join_panels(
        across, fabric.usable_width, seam_allowance=rules.seam_allowance, round_to=rules.round_to
    )


def least_width(rules: CuttingRules) -> Fraction:
    """Inches of usable width from which a cloth can be sewn in panels."""
    return rules.round(LEAST_SEEN + 2 * rules.seam_allowance)
