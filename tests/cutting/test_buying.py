"""What is bought is enough, is sold in the shop's steps, and is never a step too much."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.cutting_choices import BUYING_STEPS
from service.craft.fabric import Fabric
from workers.cutting.buying import cloth_to_buy, longest_for_the_same

LEAF = Fabric("leaf", "leek green", "#5f8f4e", Fraction(40))

lengths = st.integers(1, 4000).map(lambda n: Fraction(n, 8))
cloths = st.builds(
    Fabric,
    key=st.just("leaf"),
    name=st.just("leek green"),
    colour=st.just("#5f8f4e"),
    usable_width=st.just(Fraction(40)),
    shrinkage=st.integers(0, 50).map(lambda n: Fraction(n, 100)),
    straightening=st.integers(0, 16).map(lambda n: Fraction(n, 8)),
    buying_step=st.sampled_from(sorted(BUYING_STEPS.values())),
)


@given(lengths, cloths)
def test_what_is_bought_is_never_short_and_a_step_less_would_be(length, cloth):
    """Wash it and cut it straight: what is left is the length, or more by less than a step."""
    bought = cloth_to_buy(length, cloth)
    assert (bought / cloth.buying_step).denominator == 1
    assert bought - bought * cloth.shrinkage - cloth.straightening >= length
    less = bought - cloth.buying_step
    assert less - less * cloth.shrinkage - cloth.straightening < length


@given(lengths, cloths)
def test_the_longest_for_the_same_money_costs_the_same_and_a_hair_more_does_not(length, cloth):
    longest = longest_for_the_same(length, cloth)
    assert longest >= length
    assert cloth_to_buy(longest, cloth) == cloth_to_buy(length, cloth)
    assert cloth_to_buy(longest + Fraction(1, 1000), cloth) > cloth_to_buy(length, cloth)


@pytest.mark.parametrize(
    ("step", "inches"), [("1/8 yd", "40.5"), ("1/4 yd", "45"), ("0.1 m", "5000/127"), ("0.25 m", "5000/127")]
)
def test_an_inch_of_straightening_comes_on_top_before_the_step(step, inches):
    """36 in and 1 in: 37 in are over a yard, and under a metre (1000 / 25.4 = 39.37 in). Arithmetic."""
    cloth = Fabric("leaf", "leek green", "#5f8f4e", Fraction(40), buying_step=BUYING_STEPS[step])
    assert cloth_to_buy(Fraction(36), cloth) == Fraction(inches)


def test_nothing_is_bought_for_nothing():
    assert cloth_to_buy(Fraction(0), LEAF) == longest_for_the_same(Fraction(0), LEAF) == 0
