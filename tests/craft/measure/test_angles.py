"""Sines as fractions: held against the mathematics library, and against what holds for every angle."""

from __future__ import annotations

from fractions import Fraction
from math import cos, radians, sin, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.measure import cosine, sine, tangent
from service.craft.measure.angles import ERROR

angles = st.fractions(min_value=-800, max_value=800, max_denominator=120)


@given(angles)
def test_sine_and_cosine_are_those_of_the_mathematics_library(degrees):
    assert float(sine(degrees)) == pytest.approx(sin(radians(degrees)), abs=1e-13)
    assert float(cosine(degrees)) == pytest.approx(cos(radians(degrees)), abs=1e-13)


@given(angles)
def test_squares_of_sine_and_cosine_make_one_to_thirty_places(degrees):
    """Pythagoras: an error in either beyond the one stated would show."""
    assert abs(sine(degrees) ** 2 + cosine(degrees) ** 2 - 1) < 3 * ERROR


@given(angles, angles)
def test_sines_of_sums_come_out_to_thirty_places(one, other):
    """sin(a + b) = sin a cos b + cos a sin b: ties the angles to each other, so that π must be right as well."""
    sum_of_both = sine(one) * cosine(other) + cosine(one) * sine(other)
    assert abs(sine(one + other) - sum_of_both) < 5 * ERROR


@given(angles)
def test_opposite_angles_have_exactly_opposite_sines(degrees):
    assert sine(-degrees) == -sine(degrees)
    assert sine(180 - degrees) == sine(degrees)
    assert cosine(-degrees) == cosine(degrees)


@pytest.mark.parametrize(
    ("degrees", "doubled_square"),
    [(30, Fraction(1, 2)), (45, Fraction(1)), (60, Fraction(3, 2)), (90, Fraction(2))],
)
def test_angles_whose_sines_are_roots_come_out_to_thirty_places(degrees, doubled_square):
    """sin² of 30, 45, 60 and 90 degrees is 1/4, 1/2, 3/4 and 1."""
    assert abs(2 * sine(Fraction(degrees)) ** 2 - doubled_square) < 3 * ERROR


def test_a_tangent_is_that_of_the_mathematics_library():
    for half in (Fraction(9), Fraction(15), Fraction(180, 7), Fraction(36)):
        assert float(tangent(half)) == pytest.approx(tan(radians(half)), abs=1e-12)
