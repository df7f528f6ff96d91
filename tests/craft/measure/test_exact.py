"""Exact numbers a + b√c, held against decimals of 60 places (Python's decimal module)."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal, localcontext
from fractions import Fraction
from math import ceil, floor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.measure import ROOT_2, Exact, exact, rational
from service.craft.measure.exact import MixedRoots

fractions = st.fractions(min_value=-1000, max_value=1000, max_denominator=254)
numbers = st.builds(Exact, fractions, fractions)
nonzero = numbers.filter(lambda x: x != 0)


def decimal(value: Exact) -> Decimal:
    with localcontext() as context:
        context.prec = 60
        a, b = (Decimal(v.numerator) / v.denominator for v in (value.a, value.b))
        return a + b * Decimal(value.c).sqrt()


@given(numbers, numbers)
def test_sums_and_products_are_those_of_decimals(x, y):
    with localcontext() as context:
        context.prec = 60
        for found, expected in (
            (x + y, decimal(x) + decimal(y)),
            (x - y, decimal(x) - decimal(y)),
            (x * y, decimal(x) * decimal(y)),
        ):
            assert abs(decimal(found) - expected) < Decimal("1e-48")


@given(numbers, nonzero)
def test_division_undoes_multiplication_exactly(x, y):
    assert x * y / y == x
    assert x / y * y == x


@given(fractions.filter(bool), nonzero)
def test_plain_numbers_mix_in_on_either_side(plain, x):
    assert plain + x == x + plain == exact(plain) + x
    assert plain - x == -(x - plain) == exact(plain) - x
    assert plain * x == x * plain == exact(plain) * x
    assert plain / x == exact(plain) / x
    assert (x / plain) * plain == x


@given(numbers, numbers)
def test_order_is_that_of_decimals(x, y):
    assert (x < y) == (decimal(x) < decimal(y))
    assert (x <= y) == (x < y or x == y)
    assert (x > y) == (y < x)
    assert (x >= y) == (y <= x)


@given(numbers)
def test_floor_and_ceiling_are_those_of_decimals(x):
    assert floor(x) == int(decimal(x).to_integral_value(ROUND_FLOOR))
    assert ceil(x) == int(decimal(x).to_integral_value(ROUND_CEILING))


@given(fractions)
def test_without_a_root_it_is_the_fraction_itself_in_value_and_hash(value):
    assert Exact(value) == value and hash(Exact(value)) == hash(value)
    assert rational(Exact(value)) == value
    assert floor(Exact(value)) == floor(value) and ceil(Exact(value)) == ceil(value)


@given(numbers)
def test_absolute_value_and_sign_agree(x):
    assert abs(x) == x * x.sign()
    assert abs(x) >= 0


def test_numbers_a_float_cannot_tell_apart_are_told_apart():
    """1 + √2 against its continued fraction: convergents of √2 close in from both sides (known since antiquity)."""
    p, q = 1, 1
    for _ in range(40):
        p, q = p + 2 * q, p + q
        difference = ROOT_2 - Fraction(p, q)
        # p² - 2q² alternates between -1 and 1
        assert difference.sign() == (1 if p * p < 2 * q * q else -1)
    assert float(Fraction(p, q)) == float(ROOT_2)


def test_floor_is_right_a_hair_from_a_whole_number():
    """(1 + √2)ⁿ lies within (√2 - 1)ⁿ of the whole number (1 + √2)ⁿ + (1 - √2)ⁿ."""
    power, conjugate = Exact(1), Exact(1)
    for n in range(1, 60):
        power, conjugate = power * (1 + ROOT_2), conjugate * (1 - ROOT_2)
        whole = rational(power + conjugate)
        assert floor(power) == (whole if n % 2 else whole - 1)


def test_roots_that_differ_do_not_mix():
    with pytest.raises(MixedRoots):
        Exact(0, 1, 2) + Exact(0, 1, 3)
    with pytest.raises(MixedRoots):
        Exact(0, 1, 2) * Exact(0, 1, 3)
    assert Exact(0, 1, 3) * Exact(0, 1, 3) == 3
    assert Exact(0, 1, 2) != Exact(0, 1, 3)
    assert Exact(5, 0, 2) + Exact(0, 1, 3) == Exact(5, 1, 3)


def test_nothing_divides_by_zero_in_silence():
    with pytest.raises(ZeroDivisionError):
        Exact(1) / Exact(0)
    with pytest.raises(ZeroDivisionError):
        ROOT_2 / 0


def test_an_irrational_number_has_no_fraction_and_equals_no_text():
    assert rational(ROOT_2) is None
    assert ROOT_2 != "√2" and Exact(1) != 1.5
    assert repr(Exact(Fraction(1, 2), 3)) == "Exact(1/2, 3, 2)"
