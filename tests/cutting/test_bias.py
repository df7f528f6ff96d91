"""Bias out of squares and rectangles: enough, out of the cloth there is, and never more than geometry allows."""

from __future__ import annotations

from fractions import Fraction
from math import sqrt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.finish import BIAS, CONTINUOUS, STRAIGHT, Binding
from service.craft.units import CuttingRules
from workers.cutting.bias import (
    TooNarrow,
    continuous_squares,
    continuous_total,
    joined_strips,
    piece_for_strips,
    strip_lengths,
)
from workers.cutting.binding import plan_binding

SEAM = Fraction(1, 4)
RULES = CuttingRules(SEAM, Fraction(1, 8))
needs = st.integers(8, 8000).map(lambda n: Fraction(n, 8))
strips = st.integers(6, 24).map(lambda n: Fraction(n, 8))
cloths = st.integers(24, 480).map(lambda n: Fraction(n, 4))


@given(needed=needs, strip=strips, usable=cloths)
def test_continuous_squares_are_enough_and_fit_the_cloth(needed, strip, usable):
    try:
        pieces, side = continuous_squares(needed, strip, usable, SEAM)
    except TooNarrow:
        assert usable < 4 * strip + 2
        return
    assert side <= usable
    assert continuous_total(pieces, Fraction(side), strip, SEAM) >= needed
    assert pieces * side * side > needed * strip


@given(needed=needs, strip=strips, usable=cloths)
def test_a_piece_for_bias_strips_is_enough_and_fits_the_cloth(needed, strip, usable):
    try:
        side, length = piece_for_strips(needed, strip, usable, SEAM)
    except TooNarrow:
        assert (usable // 1) ** 2 * 2 < 9 * strip * strip
        return
    assert side <= min(usable, length)
    count, total = joined_strips(Fraction(side), Fraction(length), strip, SEAM)
    assert total >= needed
    assert total * strip < side * length
    assert length == side or side == usable // 1
    assert count > 1


@given(side=st.integers(6, 40), more=st.integers(0, 90), strip=strips)
def test_a_strip_is_as_long_as_a_slanting_line_through_its_middle(side, more, strip):
    """Told by the chord of a line at 45 degrees through a rectangle, which says nothing of triangles: geometry."""
    width, length = float(side), float(side + more)

    def chord(place):
        """The line x + y = place inside the rectangle."""
        return sqrt(2) * max(0.0, min(width, place) - max(0.0, place - length))

    step = float(strip) * sqrt(2)
    whole = int(more // (float(strip) * sqrt(2)))
    below = [chord(width - step * (i + 0.5)) for i in range(100) if chord(width - step * (i + 1)) > 0]
    expected = [width * sqrt(2)] * whole + [
        length for length in below if length >= 2 * float(strip) for _ in (0, 1)
    ]
    found = [float(value) for value in strip_lengths(Fraction(side), Fraction(side + more), strip)]
    assert found == pytest.approx(expected)


def test_cloth_no_wider_than_a_hand_makes_no_bias():
    for find in (continuous_squares, piece_for_strips):
        with pytest.raises(TooNarrow):
            find(Fraction(100), Fraction(2), Fraction(5), SEAM)


def test_a_long_binding_comes_from_a_piece_as_wide_as_the_cloth():
    """408 in of 2 1/2 in bias take more than a square of 20 in cloth."""
    side, length = piece_for_strips(Fraction(408), Fraction(5, 2), Fraction(20), SEAM)
    assert side == 20 < length
    fewer = joined_strips(Fraction(side), Fraction(length - 4), Fraction(5, 2), SEAM)[1]
    assert fewer < 408


@pytest.mark.parametrize("cut", [STRAIGHT, BIAS, CONTINUOUS])
@pytest.mark.parametrize("usable", ["22", "40", "42 7/16", "108"])
def test_every_binding_reaches_round(cut, usable):
    whole, _, part = usable.partition(" ")
    width = Fraction(whole) + Fraction(part or 0)
    for side in (20, 61, 97):
        plan = plan_binding(Binding("leaf", Fraction(9, 4), cut), side, side, usable_width=width, rules=RULES)
        assert plan.total >= plan.needed == 4 * side + 12
        assert plan.width <= width
        if plan.usual is not None:
            assert plan.usual.joined < plan.needed
