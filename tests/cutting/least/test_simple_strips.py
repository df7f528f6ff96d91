"""The simple plan: no longer than allowed, and no more strips or mixing than the tight one."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.cutting.least.test_least_strips import cloth, small
from workers.cutting.least import least_strips, simple_strips
from workers.cutting.strip_check import check_strips
from workers.cutting.strip_problem import Problem, Size, total_length


def simplicity(problem, strips):
    """How many strips, and how many measures lie in them beside another."""
    mixed = 0
    for strip in strips:
        sizes = [(problem.sizes[run.size], run.turned) for run in strip.runs]
        mixed += len({(size.height, size.width) if t else (size.width, size.height) for size, t in sizes}) - 1
    return len(strips), mixed


@settings(max_examples=25, deadline=None)
@given(small, st.integers(0, 20))
def test_it_can_be_cut_within_its_length_and_is_no_harder_than_the_tight_plan(problem, more):
    tight = least_strips(problem, seconds=0.2)
    most = total_length(tight.strips) * (100 + more) // 100
    simple = simple_strips(problem, tight, most_length=most, seconds=0.2)
    assert check_strips(problem, simple) == []
    assert total_length(simple) <= most
    assert simplicity(problem, simple) <= simplicity(problem, tight.strips)


def test_a_little_more_cloth_halves_the_mixing_on_the_stored_cloth():
    raw = json.loads(Path(__file__).parents[1].joinpath("cloth.json").read_text())
    sizes = tuple(Size(i["w"], i["h"], i["demand"], i["turn"]) for i in raw["items"])
    problem = Problem(raw["usable_width"], sizes)
    tight = least_strips(problem)
    length = total_length(tight.strips)
    same, longer = (simple_strips(problem, tight, most_length=length * n // 100) for n in (100, 102))
    assert total_length(same) == length
    assert 2 * simplicity(problem, longer)[1] <= simplicity(problem, tight.strips)[1]


def test_mixing_that_saves_nothing_is_left_out():
    """Six squares of 5 and six of 4 high as wide: two strips of each hold three apiece; nothing need be mixed."""
    problem = Problem(15, (Size(5, 5, 6), Size(5, 4, 6)))
    tight = least_strips(problem)
    simple = simple_strips(problem, tight, most_length=18)
    assert (len(simple), [len(strip.runs) for strip in simple]) == (4, [1, 1, 1, 1])


def test_fewer_strips_are_worth_the_cloth_that_is_allowed():
    """Four of 6 by 2 that may turn, 10 wide: flat one a strip, 4 strips, 8; standing 5 a strip, one strip, 6.
    A fifth size of 10 by 1 stays a strip of its own."""
    problem = Problem(10, (Size(6, 2, 4, True), Size(10, 1, 1)))
    simple = simple_strips(problem, least_strips(problem), most_length=10)
    assert len(simple) == 2


def test_where_nothing_is_short_enough_it_is_the_tight_plan():
    problem = cloth(3, 4)
    tight = least_strips(problem)
    assert simple_strips(problem, tight, most_length=1) == tight.strips


@pytest.mark.parametrize("more", [0, 2, 10])
def test_the_same_cloth_gets_the_same_simple_plan(more):
    problem = cloth(11, 4)
    tight = least_strips(problem)
    most = total_length(tight.strips) * (100 + more) // 100
    plans = [simple_strips(problem, tight, most_length=most) for _ in range(2)]
    assert plans[0] == plans[1]
