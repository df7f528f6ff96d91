"""Pieces of cloth sold cut already: their sizes, and how many squares come from one, against published values."""

from __future__ import annotations

from fractions import Fraction

import pytest

from service.craft.fabric import Fabric, SoldAs, StashPiece
from service.craft.sections.sold_as import FAT_EIGHTH, FAT_QUARTER, SIZES, STRIP_LENGTH
from workers.cutting.cuts import SQUARE, Cut
from workers.cutting.stock.stock_plan import plan_sold, plan_stash

PUBLISHED = {
    FAT_QUARTER: {(22, 18), (21, 18)},
    FAT_EIGHTH: {(21, 9)},
}
"""Across the cloth and along it, in inches. Fat quarter: 18 x 22 in quilterscache.com (M. Hohn, math charts, 2002) and
sew4home.com (glossary), 18 x 21 in allpeoplequilt.com 2017-02-13; fat eighth: 9 x 21 there. From memory: 9 x 22, and
that no more than 18 x 20 of a fat quarter may be usable."""

PER_FAT_QUARTER = {
    "2": 99, "2.5": 56, "2.875": 42, "3": 42, "3.5": 30, "3.875": 20, "4": 20, "4.5": 16,
    "4.875": 12, "5": 12, "5.5": 12, "5.875": 9, "6": 9, "6.5": 6, "6.875": 6,
}  # fmt: skip
"""Squares from a fat quarter of 18 by 22 in: M. Hohn, math charts, 2002 (quilterscache.com); sylviasquiltdepot.com,
yardage for cutting squares; piecefulliving.blogspot.com 2011/08. The three agree."""


@pytest.mark.parametrize("name", PUBLISHED)
def test_a_name_stands_for_the_smallest_size_published_for_it(name):
    assert SIZES[name] in PUBLISHED[name]
    for side, smallest in zip(SIZES[name], zip(*PUBLISHED[name], strict=True), strict=True):
        assert side == min(smallest)


def test_a_strip_sold_by_that_name_is_two_and_a_half_inches_high():
    """Nebraska Extension 4-H fair book (4h.unl.edu/fairbook, quilting): rolls of strips 2 1/2 in by the width."""
    assert Fraction("2.5") == STRIP_LENGTH


def squares(side, count):
    side = Fraction(side)
    return {
        0: Cut(fabric="leaf", width=side, height=side, count=count, makes=count, wanted=count, shape=SQUARE)
    }


@pytest.mark.parametrize(("side", "count"), PER_FAT_QUARTER.items())
def test_a_fat_quarter_gives_as_many_squares_as_the_charts_say(side, count):
    sold = SoldAs(FAT_QUARTER, Fraction(22), Fraction(18))
    fabric = Fabric("leaf", "leek green", "#5f8f4e", Fraction(40), sold_as=sold)
    for more, pieces in ((0, 1), (1, 2)):
        plan = plan_sold(fabric, squares(side, count + more))
        assert (len(plan.pieces), plan.lower_bound) == (pieces, pieces)


@pytest.mark.parametrize(("side", "count"), PER_FAT_QUARTER.items())
def test_so_many_squares_come_from_a_fat_quarter_at_home_and_no_more(side, count):
    stash = (StashPiece(Fraction(22), Fraction(18), 1),)
    fabric = Fabric("leaf", "leek green", "#5f8f4e", Fraction(40), stash=stash)
    assert plan_stash(fabric, squares(side, count)).enough
    assert not plan_stash(fabric, squares(side, count + 1)).enough
