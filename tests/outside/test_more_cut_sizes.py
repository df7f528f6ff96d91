"""More of the published patchwork tables: trimmed triangles, exact setting triangles, diagonals, and their misprints.

Grades as in `test_cut_sizes`: published = a page was found; derived = geometry or arithmetic.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from service.craft.measure import ROOT_2, round_nearest, round_up
from service.craft.units import CuttingRules, HalfSquareTriangle, OnPoint, PatchUnit, QuarterSquareTriangle

QUARTER, EIGHTH = Fraction(1, 4), Fraction(1, 8)
RULES = CuttingRules(QUARTER, EIGHTH)
UP_TO_A_QUARTER = CuttingRules(QUARTER, QUARTER)
ROOT_IN_PRINT = Fraction("1.414")


def half(side, method="two at a time"):
    return HalfSquareTriangle(side=Fraction(side), fabrics=("leaf", "frost"), method=method)


class TestTrimming:
    @pytest.mark.parametrize(("finished", "published"), {3: 4.125}.items())
    def test_a_half_square_to_trim_takes_a_quarter_more_than_seven_eighths(self, finished, published):
        """North Hampshire Quilters, hblk402b: 7/8 and a further 1/4 (3 -> 4 1/8). Ours to trim is f + 1, between."""
        exact_cut = half(finished).cut_square(RULES)
        assert exact_cut + QUARTER == published
        assert (
            exact_cut < replace(half(finished), trim="oversize").cut_square(RULES) == finished + 1 < published
        )

    @pytest.mark.parametrize(("finished", "published"), {3: 4.5}.items())
    def test_a_quarter_square_to_trim_takes_a_quarter_more_than_one_and_a_quarter(self, finished, published):
        """North Hampshire Quilters, hblk402b: 1 1/4 and a further 1/4 (3 -> 4 1/2)."""
        unit = QuarterSquareTriangle(
            side=Fraction(finished), fabrics=("leaf", "frost") * 2, method="two at a time"
        )
        assert {need.width + QUARTER for need in unit.needs(RULES)} == {published}

    @pytest.mark.parametrize("finished", [1, 2, 3, 6, 12])
    def test_two_at_a_time_come_out_two_hundredths_larger_than_they_should(self, finished):
        """Unfinished from square c: c - s√2 = c - 0.353553; f + 7/8 gives f + 0.5214 (geometry)."""
        unfinished = half(finished).cut_square(RULES) - QUARTER * ROOT_2
        assert float(QUARTER * ROOT_2) == pytest.approx(0.353553, abs=5e-7)
        assert float(unfinished - finished) == pytest.approx(0.5214, abs=5e-5)


EXACT_SETTING = {
    4: (6.9069, 3.7034), 5: (8.3211, 4.4105), 6: (9.7353, 5.1176), 7: (11.1495, 5.8247), 8: (12.5637, 6.5319),
    9: (13.9779, 7.2390), 10: (15.3921, 7.9461), 11: (16.8063, 8.6532), 12: (18.2206, 9.3603), 13: (19.6348, 10.0674),
    14: (21.0490, 10.7745), 15: (22.4632, 11.4816), 16: (23.8774, 12.1887), 17: (25.2916, 12.8958),
    18: (26.7058, 13.6029), 19: (28.1201, 14.3100), 20: (29.5343, 15.0171),
}  # fmt: skip
"""Block: exact side square b√2 + s(2 + 2√2) and exact corner square b/√2 + s(2 + √2), s = 1/4 (geometry)."""


def on_point(side):
    block = PatchUnit(size=(Fraction(side), Fraction(side)), fabric="leaf")
    return OnPoint(rows=((block, block),) * 2, alternate=block, side="frost", corner="frost")


def cut_setting(side, rules):
    return tuple(need.width for need in on_point(side).needs(rules))


def by_rule(side, root, step):
    """b·√2 + 1 1/4 and b/√2 + 7/8, up to the step, with √2 as given."""
    product, quotient = side * root, side / root
    return round_up(product + Fraction(5, 4), step), round_up(quotient + Fraction(7, 8), step)


class TestSettingTriangles:
    @pytest.mark.parametrize(("side", "exact"), EXACT_SETTING.items())
    @pytest.mark.parametrize("rules", [RULES, UP_TO_A_QUARTER], ids=["eighths", "quarters"])
    def test_no_setting_square_is_smaller_than_exact_and_none_a_step_and_a_bit_larger(
        self, side, exact, rules
    ):
        """The trade constants exceed the exact ones by 0.043 and 0.021 at most (derived)."""
        for cut, least in zip(cut_setting(side, rules), exact, strict=True):
            assert least <= cut < least + float(rules.round_to) + 0.043

    @pytest.mark.parametrize(("side", "published"), {9: (14, 7.5), 15: (22.5, 11.75)}.items())
    def test_two_published_corners_are_a_step_larger_than_their_own_rule(self, side, published):
        """phoebemoon.com/tutorials/on-point.htm, 9 and 15: b/1.414 + 7/8 up to 1/4 is 7 1/4 and 11 1/2."""
        assert cut_setting(side, UP_TO_A_QUARTER) == (published[0], published[1] - 0.25)

    @pytest.mark.parametrize(("side", "corner"), {14: 11, 17: 13, 20: 15.25}.items())
    def test_where_a_published_side_is_short_its_corner_is_right(self, side, corner):
        """phoebemoon.com/tutorials/on-point.htm: the corners of the three rows whose sides are under the exact size."""
        assert cut_setting(side, UP_TO_A_QUARTER)[1] == corner

    def test_few_sizes_tell_root_two_from_1_414(self):
        """Of all blocks from 1/2 to 24 in by eighths: 12 3/8, 16, 19 5/8, 21 1/8 in their sides and 17 1/2, 22 5/8 in
        their corners (derived). Ours are those of √2.
        """
        sides, corners = [], []
        for eighths in range(4, 193):
            block = Fraction(eighths, 8)
            ours, printed = cut_setting(block, RULES), by_rule(block, ROOT_IN_PRINT, EIGHTH)
            assert ours == by_rule(block, ROOT_2, EIGHTH)
            sides += [float(block)] if ours[0] != printed[0] else []
            corners += [float(block)] if ours[1] != printed[1] else []
        assert (sides, corners) == ([12.375, 16, 19.625, 21.125], [17.5, 22.625])

    @pytest.mark.parametrize("eighths", range(4, 193, 7))
    def test_whether_the_constant_is_added_before_or_after_rounding_does_not_matter(self, eighths):
        """1 1/4 and 7/8 are whole eighths (derived)."""
        block = Fraction(eighths, 8)
        rounded_first = (
            round_up(block * ROOT_2, EIGHTH) + Fraction(5, 4),
            round_up(block / ROOT_2, EIGHTH) + Fraction(7, 8),
        )
        assert cut_setting(block, RULES) == rounded_first

    def test_a_guild_writes_it_step_by_step(self):
        """moonlightquilters.org/tip-on-point-settings: 6 x 1.41 = 8.46 -> 8.50, + 1.25 = 9.75; 8.50 / 2 = 4.25,
        + 0.875 = 5.125; the alternate square 6.5.
        """
        assert cut_setting(6, RULES) == (9.75, 5.125)
        assert on_point(6).alternate.needs(RULES)[0].width == 6.5


@pytest.mark.parametrize(
    ("side", "nearest", "up"), [(4, 5.625, 5.75), (7, 9.875, 10), (10, 14.125, 14.25), (14, 19.75, 19.875)]
)
def test_four_printed_diagonals_would_be_too_small_to_cut_by(side, nearest, up):
    """M. Hohn, math charts, 2002, quilterscache.com prints the nearest eighth; the next one up differs (derived)."""
    assert round_nearest(side * ROOT_2, EIGHTH) == nearest < side * ROOT_2
    assert round_up(side * ROOT_2, EIGHTH) == up


def test_on_a_grid_of_millimetres_setting_triangles_are_rounded_once():
    """Geometry, blocks of 200 mm, seams of 6 mm: 200/√2 + 6(2 + √2) = 161.91; 200√2 + 6(2 + 2√2) = 311.81."""
    millimetre = Fraction(5, 127)
    rules = CuttingRules(seam_allowance=6 * millimetre, round_to=millimetre)
    side = 200 * millimetre
    assert rules.half_square(side * ROOT_2 / 2) == 162 * millimetre
    assert rules.quarter_square(side * ROOT_2) == 312 * millimetre
