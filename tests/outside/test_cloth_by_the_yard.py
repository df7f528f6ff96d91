"""Usable widths, squares to the yard, straightening and the shop's steps against published values."""

from __future__ import annotations

from fractions import Fraction

import pytest

from service.craft.cutting_choices import BUYING_STEPS
from service.craft.document import read_document
from service.craft.fabric import Fabric
from service.craft.sections.cloth import DEFAULT_WIDTH
from workers.cutting.buying import cloth_to_buy
from workers.cutting.cuts import Cut
from workers.cutting.plan import plan_cloth

YARD = Fraction(36)


def squares(side, count):
    side = Fraction(side)
    return Cut(fabric="leaf", width=side, height=side, count=count, makes=count, wanted=count, shape="square")


def cloth(width, **more):
    return Fabric("leaf", "leek green", "#5f8f4e", Fraction(width), **more)


def yards_to_buy(side, count, fabric):
    return plan_cloth(fabric, {0: squares(side, count)}).buy / YARD


def test_the_usable_width_left_out_is_the_safe_one():
    """40 in: onceuponaquilt.blogspot.com (tips); sylviasquiltdepot.com (measuring fabric for continuous strips)."""
    assert DEFAULT_WIDTH == 40
    raw = {
        "title": "Leek",
        "fabrics": {"leaf": {}},
        "top": {"unit": "patch", "size": ["3", "3"], "fabric": "leaf"},
    }
    assert read_document(raw).fabrics["leaf"].usable_width == 40


@pytest.mark.parametrize(("width", "strips"), [(40, 4), (42, 3), (44, 3)])
def test_two_inches_of_usable_width_are_worth_a_strip(width, strips):
    """36 squares of 3 1/2 in. Published widths: 40 in (onceuponaquilt.blogspot.com), 42 in (quiltingboard.com 6228687,
    a guild lesson of June 2016 on slideblast.com), 44 in (M. Hohn, math charts, 2002); 11, 12 and 12 squares across:
    arithmetic."""
    assert len(plan_cloth(cloth(width), {0: squares("7/2", 36)}).strips) == strips


def test_seven_inch_squares_are_thirty_to_the_yard_and_not_the_thirty_five_printed():
    """A misprint in M. Hohn, math charts, 2002 (quilterscache.com): every other row is floor(44/s) x floor(36/s)."""
    whole = cloth(44, straightening=Fraction(0))
    assert yards_to_buy(7, 30, whole) == 1
    assert yards_to_buy(7, 35, whole) > 1


LOWER_CHARTS = {"1.5": (667, 696), "3": (154, 168), "4": (80, 99), "6": (35, 42)}
"""Squares to a yard in charts that lose a row where nothing is left over, and in the chart that does not.

docsbay.net, number of squares from a fat quarter (44 in); sylviasquiltdepot.com, yardage for cutting squares; against
M. Hohn, math charts, 2002.
"""


@pytest.mark.parametrize(("side", "counts"), LOWER_CHARTS.items())
def test_an_inch_of_straightening_is_what_two_charts_differ_by(side, counts):
    """With 1 in for the cut end, and 43 1/2 in between the selvedges, a yard gives what the lower charts say."""
    low, high = counts
    careful, exact = cloth("87/2"), cloth(44, straightening=Fraction(0))
    assert yards_to_buy(side, low, careful) <= 1 < yards_to_buy(side, low + 1, careful)
    assert yards_to_buy(side, high, exact) <= 1 < yards_to_buy(side, high + 1, exact)
    assert yards_to_buy(side, high, careful) > 1


@pytest.mark.parametrize(
    ("inches", "step", "yards"),
    [
        ("152", "1/8 yd", "4.25"),
        ("31.5", "1/8 yd", "0.875"),
        ("52", "1/4 yd", "1.5"),
        ("10", "1/4 yd", "0.5"),
    ],
)
def test_a_length_is_bought_in_steps_of_an_eighth_or_a_quarter_of_a_yard(inches, step, yards):
    """152 in are 4.222 yd (quiltingboard.com 6228687), 31 1/2 in 0.875 yd (harriger.com/inch2yard.htm); up to 1/8 is
    the usual step, up to 1/4 that of fourpinesquilting.blogspot.com 2011/11; the last two rows: arithmetic."""
    fabric = cloth(42, straightening=Fraction(0), buying_step=BUYING_STEPS[step])
    assert cloth_to_buy(Fraction(inches), fabric) == Fraction(yards) * YARD


def test_a_tenth_of_a_metre_is_exact():
    """1 yd = 0.9144 m (international yard and pound agreement, 1959): ten steps of 0.1 m are 1000 / 25.4 in."""
    assert BUYING_STEPS["0.1 m"] * 10 * Fraction("0.9144") == YARD
    assert BUYING_STEPS["0.25 m"] * 4 == BUYING_STEPS["0.1 m"] * 10


@pytest.mark.parametrize(("share", "left"), [("0.02", "39.69"), ("0.03", "39.285"), ("0.05", "38.475")])
def test_what_the_wash_leaves_is_enough_to_straighten_and_to_cut(share, left):
    """A yard needed and 1 in to straighten: 40 1/2 in are bought at 2 to 5 %, the range usually quoted (copies of weak
    pages; from memory 3 to 5 %), and 40.5 x (1 - p) are left."""
    fabric = cloth(42, shrinkage=Fraction(share))
    bought = cloth_to_buy(YARD, fabric)
    assert bought == Fraction("40.5")
    assert bought * (1 - fabric.shrinkage) == Fraction(left) >= YARD + 1
