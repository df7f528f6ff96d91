"""Strips, pieces out of a yard, and what to buy, against published tables."""

from __future__ import annotations

from fractions import Fraction

import pytest

from service.craft.measure import round_up
from workers.cutting.buying import length_to_buy
from workers.cutting.cuts import Cut
from workers.cutting.plan import pose
from workers.cutting.strip_problem import total_length
from workers.cutting.strip_rules import per_size_rule

YARD = {
    (63, 9.5, 9.5, 42): (4, 16, 152, 4.25),
    (100, 3.5, 3.5, 44): (12, 9, 31.5, 0.875),
    (112, 3.875, 7.75, 42): (5, 23, 89.125, 2.5),
    (56, 3.5, 14, 42): (3, 19, 66.5, 1.875),
    (8, 5, 5, 42): (8, 1, 5, 0.25),
    (12, 5, 5, 42): (8, 2, 10, 0.375),
    (36, 4, 4, 42): (10, 4, 16, 0.5),
    (48, 6.5, 6.5, 40): (6, 8, 52, 1.5),
    (30, 12.5, 12.5, 42): (3, 10, 125, 3.5),
    (14, 18.25, 18.25, 42): (2, 7, 127.75, 3.625),
}
"""(pieces, strip width, piece length, usable width): (per strip, strips, inches, yards up to 1/8).

Row 1: quiltingboard.com 6228687 (published to 4.222 yd); 2: harriger.com/inch2yard.htm (to 9 strips); 3 and 4:
quilterscache.com StartQuiltingPages two (pieces in a width); 5 and 6: "The Math of Quilting, lesson 4", guild
lesson of June 2016, slideblast.com (strips and inches); the rest of each row and rows 7 to 10: arithmetic.
"""


def one_size(pieces, height, width, usable):
    cut = Cut(
        fabric="leaf",
        width=Fraction(width),
        height=Fraction(height),
        count=pieces,
        makes=pieces,
        wanted=pieces,
        shape="",
    )
    problem, step, _ = pose(Fraction(usable), {0: cut})
    return per_size_rule(problem), step


@pytest.mark.parametrize(("case", "expected"), YARD.items())
def test_the_strip_rule(case, expected):
    pieces, height, width, usable = case
    per_strip, count, inches, yards = expected
    strips, step = one_size(pieces, height, width, usable)
    assert len(strips) == count
    assert strips[0].runs[0].count == min(per_strip, pieces)
    assert total_length(strips) * step == inches
    assert length_to_buy(total_length(strips) * step, Fraction(0), "in") == yards * 36


@pytest.mark.parametrize(("usable", "side", "per_strip"), [(42, 3.5, 12), (44, 5.5, 8), (36, 4.5, 8)])
def test_a_division_without_rest_keeps_its_last_piece(usable, side, per_strip):
    """floor(42 / 3.5) = 12 and its like: arithmetic, where floating point is apt to lose one."""
    strips, _ = one_size(per_strip, side, side, usable)
    assert len(strips) == 1


PER_YARD_44 = {
    1: 1584, 1.5: 696, 1.875: 437, 2: 396, 2.5: 238, 2.875: 180, 3: 168, 3.5: 120, 3.875: 99, 4: 99, 4.5: 72,
    4.875: 63, 5: 56, 5.5: 48, 6: 42, 6.5: 30, 7: 30, 7.5: 20, 8: 20, 8.5: 20, 9: 16, 9.5: 12, 10: 12, 11: 12,
    11.5: 9, 12: 9, 12.5: 6,
}  # fmt: skip


@pytest.mark.parametrize(("side", "pieces"), PER_YARD_44.items())
def test_pieces_out_of_a_yard_of_44_in_cloth(side, pieces):
    """M. Hohn, math charts, 2002, quilterscache.com: squares per yard. Its 7 in row prints 35, a misprint for 30."""
    strips, step = one_size(pieces, side, side, 44)
    assert total_length(strips) * step <= 36
    more, step = one_size(pieces + 1, side, side, 44)
    assert total_length(more) * step > 36


@pytest.mark.parametrize(("shrinkage", "inches"), [("0.03", 37.113), ("0.05", 37.895)])
def test_shrinkage_divides(shrinkage, inches):
    """purchase = need / (1 - p); 36 in at 3 % and 5 %: arithmetic. Shops cut in eighths of a yard."""
    share = Fraction(shrinkage)
    assert float(36 / (1 - share)) == pytest.approx(inches, abs=5e-4)
    assert length_to_buy(Fraction(36), share, "in") == round_up(Fraction(inches), Fraction(9, 2))


def test_shrinkage_is_a_share_of_what_is_bought_not_of_what_is_needed():
    """42.8 in at 5 %: 42.8 / 0.95 = 45.05, over 1 1/4 yd; 42.8 x 1.05 = 44.94 would not be (arithmetic)."""
    assert length_to_buy(Fraction("42.8"), Fraction("0.05"), "in") == Fraction("1.375") * 36
