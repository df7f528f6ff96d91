"""Near sizes at which nothing is rounded are found by exact arithmetic, and none between is overlooked."""

from __future__ import annotations

from fractions import Fraction
from math import lcm

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from service.craft.scaling import nearest_sizes, scale_document
from service.craft.scaling.progressions import Progression
from tests.craft.units.conftest import document

small = st.fractions(Fraction(1, 12), 4, max_denominator=12).filter(lambda f: f > 0)


@given(small, small, small, small)
def test_what_two_rows_have_in_common_lies_in_both_and_nothing_is_missed(a, m, b, n):
    """Against counting through: every common number within one common step."""
    first, second = Progression.through(a, m), Progression.through(b, n)
    both = first.meet(second)
    whole = lcm(a.denominator, m.denominator, b.denominator, n.denominator)
    period = Fraction(lcm(int(m * whole), int(n * whole)), whole)
    members = []
    number = first.start
    while number < first.start + period:
        members += [number] if (number - b) % n == 0 else []
        number += m
    if both is None:
        assert members == []
    else:
        assert both.step == period
        assert [both.start] == [number % period for number in members]


@given(small, small, st.fractions(-3, 3, max_denominator=30))
def test_the_neighbours_in_a_row_lie_one_step_apart_around_a_number(start, step, number):
    row = Progression.through(start, step)
    below, above = row.below(number), row.above(number)
    assert below in row and above in row and below < number < above
    assert above - below == (2 * step if number in row else step)


def row_of(*sizes: str, **more):
    patches = [{"unit": "patch", "size": [size, "3"], "fabric": "leaf"} for size in sizes]
    return document({"unit": "grid", "rows": [patches]}, **more)


def test_a_row_of_patches_lands_where_every_patch_does():
    """4 1/2, 3 1/2 and 3 in on eighths: steps of 1/36, 1/28 and 1/24 have every quarter in common."""
    found = nearest_sizes(row_of("4 1/2", "3 1/2"), Fraction(4, 5))
    assert [(near.factor, near.width, near.height) for near in found] == [
        (Fraction(3, 4), 6, Fraction(9, 4)),
        (Fraction(1), 8, 3),
    ]


def test_a_size_that_lands_is_offered_between_its_neighbours():
    found = nearest_sizes(row_of("3"), Fraction(1, 2))
    assert [near.factor for near in found] == [Fraction(11, 24), Fraction(1, 2), Fraction(13, 24)]


sides = st.integers(4, 64).map(lambda n: Fraction(n, 8))


@settings(deadline=None, max_examples=60)
@given(st.lists(sides, min_size=1, max_size=4), st.fractions(Fraction(1, 4), 4, max_denominator=60))
def test_at_a_size_that_is_offered_no_cut_is_rounded_and_between_there_is_none(widths, factor):
    """Against counting through every factor at which the first patch alone lands."""
    found = [near.factor for near in nearest_sizes(row_of(*map(str, widths)), factor)]
    grid, sizes = Fraction(1, 8), {*widths, Fraction(3)}

    def lands(f: Fraction) -> bool:
        return all((f * size / grid).denominator == 1 for size in sizes)

    step = grid / 3
    numbers = [step * k for k in range(1, int(100 / step) + 1)]
    landing = [f for f in numbers if lands(f)]
    nearest = [max((f for f in landing if f < factor), default=None), factor if lands(factor) else None]
    nearest.append(min((f for f in landing if f > factor), default=None))
    assert found == [f for f in nearest if f is not None and f >= Fraction(1, 100)]


def test_allowances_off_the_grid_are_reckoned_with():
    """With a 3/16 in seam on quarters a patch is f·L + 3/8: it lands where f·L is 1/8 more than quarters."""
    found = nearest_sizes(row_of("3", seam_allowance="3/16", round_to="1/4"), Fraction(1))
    assert found
    for near in found:
        assert (near.factor * 3 + Fraction(3, 8)) % Fraction(1, 4) == 0


def test_cuts_that_never_land_together_are_said_by_an_empty_list():
    """On quarters a plain patch wants quarters of finished size, a half-square triangle (+ 7/8) an eighth beside."""
    triangle = {"unit": "half-square triangle", "size": ["3", "3"], "fabrics": ["leaf", "soil"]}
    plain = {"unit": "patch", "size": ["3", "3"], "fabric": "leaf"}
    raw = document({"unit": "grid", "rows": [[triangle, plain]]}, round_to="1/4")
    assert nearest_sizes(raw, Fraction(1)) == []


@pytest.mark.parametrize("measure", ["in", "mm", "cm"])
def test_scaling_to_an_offered_size_gives_that_size(measure):
    raw = row_of("4", "6", measure=measure)
    for near in nearest_sizes(raw, Fraction(9, 8)):
        again = nearest_sizes(scale_document(raw, near.factor).document, Fraction(1))
        assert Fraction(1) in [n.factor for n in again]


def test_cuts_along_a_diagonal_do_not_hinder_the_search():
    """The setting triangles of a block on point lie on no ruler in any size; the block does."""
    block = {"unit": "patch", "size": ["4", "4"], "fabric": "leaf"}
    top = {"unit": "on point", "rows": [[block]], "side": "soil", "corner": "soil"}
    found = nearest_sizes(document(top), Fraction(1))
    assert [near.factor for near in found] == [Fraction(31, 32), Fraction(1), Fraction(33, 32)]
    assert found[0].width * found[0].width == 2 * (4 * Fraction(31, 32)) ** 2
