"""The least cloth, held against trying everything, against classical problems, and against itself in other words."""

from __future__ import annotations

import json
import random
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from tests.cutting.least.exact import least_length
from workers.cutting.least import least_strips, simple_strips
from workers.cutting.least.at_hand import rounded_down
from workers.cutting.least.columns import relax
from workers.cutting.least.field import coarseness, lay_out
from workers.cutting.least.plans import plan_length, strips_of
from workers.cutting.strip_bound import area_bound
from workers.cutting.strip_check import check_strips
from workers.cutting.strip_problem import Problem, Size, total_length

CLASSICAL = json.loads(Path(__file__).with_name("classical.json").read_text())["cloths"]

tiny_sizes = st.builds(Size, st.integers(1, 12), st.integers(1, 12), st.integers(1, 3), st.booleans())
tiny = st.builds(Problem, st.integers(12, 20), st.lists(tiny_sizes, min_size=1, max_size=3).map(tuple))
small_sizes = st.builds(Size, st.integers(1, 60), st.integers(1, 60), st.integers(1, 40), st.booleans())
small = st.builds(Problem, st.integers(60, 120), st.lists(small_sizes, min_size=1, max_size=5).map(tuple))


def assert_stands(problem, least):
    """All its plans can be cut, none is below the bound, and the rules of thumb are no better."""
    for strips in (least.strips, least.by_size, least.by_fit):
        assert check_strips(problem, strips) == []
    length = total_length(least.strips)
    assert area_bound(problem) <= least.lower_bound <= length
    assert length <= min(total_length(least.by_size), total_length(least.by_fit))
    assert least.proved == (length == least.lower_bound)


def cloth(number, sizes, width=340):
    """A cloth of as many sizes as asked for, the same for the same number."""
    dice = random.Random(number)
    return Problem(
        width,
        tuple(
            Size(dice.randint(8, width // 3), dice.randint(8, 90), dice.randint(1, 60), dice.random() < 0.6)
            for _ in range(sizes)
        ),
    )


@settings(max_examples=150, deadline=None)
@given(tiny)
@example(
    Problem(width=14, sizes=(Size(width=3, height=5, count=3, may_turn=True),))
)  # no strip is as low as the bound
def test_nothing_is_shorter_than_what_trying_everything_finds(problem):
    least = least_strips(problem, seconds=2)
    assert_stands(problem, least)
    assert least.proved
    assert total_length(least.strips) == least_length(problem)


@pytest.mark.parametrize("number", range(60))
def test_nine_pieces_of_five_sizes_take_what_trying_everything_finds(number):
    dice = random.Random(number)
    problem = Problem(
        30,
        tuple(
            Size(dice.randint(4, 20), dice.randint(3, 25), dice.choice((1, 2, 2)), dice.random() < 0.4)
            for _ in range(5)
        ),
    )
    least = least_strips(problem, seconds=2)
    assert least.proved
    assert total_length(least.strips) == least_length(problem)


@pytest.mark.parametrize("name", sorted(CLASSICAL))
def test_classical_problems_come_to_their_least_level_heights(name):
    """The problems: J. E. Beasley, Journal of the Operational Research Society 36 (1985) 297-306; see the file."""
    raw = CLASSICAL[name]
    problem = Problem(raw["width"], tuple(Size(w, h, n) for w, h, n in raw["items"]))
    least = least_strips(problem)
    assert_stands(problem, least)
    assert least.proved
    assert total_length(least.strips) == raw["least"]


@settings(max_examples=60, deadline=None)
@given(small)
def test_any_cloth_gets_plans_that_can_be_cut_and_a_bound_below_them(problem):
    assert_stands(problem, least_strips(problem, seconds=0.2))


def test_the_stored_cloth_takes_less_than_either_rule_and_no_less_is_possible():
    """Generated data; that 2,911 is least was also found by another program, written before this one."""
    raw = json.loads(Path(__file__).parents[1].joinpath("cloth.json").read_text())
    sizes = tuple(Size(i["w"], i["h"], i["demand"], i["turn"]) for i in raw["items"])
    least = least_strips(Problem(raw["usable_width"], sizes))
    assert (total_length(least.strips), least.proved) == (2911, True)
    assert total_length(least.by_size) > total_length(least.by_fit) > 2911


def test_the_same_cloth_gets_the_same_plan():
    problem = cloth(3, 6)
    assert least_strips(problem) == least_strips(problem)


def test_the_order_of_the_sizes_changes_nothing_but_their_numbers():
    problem = cloth(4, 6)
    order = [3, 0, 5, 1, 4, 2]
    turned = Problem(problem.width, tuple(problem.sizes[n] for n in order))
    here, there = least_strips(problem), least_strips(turned)
    renamed = tuple(
        replace(strip, runs=tuple(replace(run, size=order[run.size]) for run in strip.runs))
        for strip in there.strips
    )
    assert (renamed, there.lower_bound) == (here.strips, here.lower_bound)


def test_lengths_in_finer_steps_change_nothing_but_the_steps():
    """An eighth of an inch or a 64th: the plan is the same, eight times as many steps long."""
    problem = cloth(5, 5)
    finer = Problem(
        problem.width * 8,
        tuple(replace(size, width=size.width * 8, height=size.height * 8) for size in problem.sizes),
    )
    here, there = least_strips(problem), least_strips(finer)
    assert total_length(there.strips) == 8 * total_length(here.strips)
    assert there.lower_bound == 8 * here.lower_bound


def test_without_any_time_the_better_rule_stands_with_an_honest_bound():
    problem = cloth(6, 12)
    least = least_strips(problem, seconds=0)
    assert_stands(problem, least)
    assert total_length(least.strips) == min(total_length(least.by_size), total_length(least.by_fit))
    assert least.lower_bound > area_bound(problem)


class Clock:
    """Seconds that run out with the looks at them: none is left from the `looks`-th on."""

    def __init__(self, looks):
        self.left, self.late = looks, 0

    def __call__(self):
        self.left -= 1
        self.late += self.left <= 0
        return float(self.left > 0)


@pytest.mark.parametrize("looks", [1, 2, 5, 20, 60])
def test_who_waits_no_longer_gets_what_there_is_by_then(looks):
    """Once the clock is out the work ends after a few more looks at it, however many seconds it was given."""
    problem, clock = cloth(7, 40, width=2000), Clock(looks)
    least = least_strips(problem, seconds=1000, left=clock)
    assert_stands(problem, least)
    assert 0 < clock.late < 40


@pytest.mark.parametrize("looks", [1, 4, 10**6])
@pytest.mark.parametrize("number", range(4))
def test_the_plan_at_hand_holds_every_piece_and_little_more_than_the_linear_program(number, looks):
    """Rounding down leaves less than a strip a pattern used, and of those there is one a size at most."""
    problem = cloth(number, 25, width=900)
    field = lay_out(problem)
    relaxed = relax(field, Clock(looks))
    plan = rounded_down(field, relaxed)
    assert check_strips(problem, strips_of(field, problem, plan)) == []
    whole = sum(p.height * share for p, share in zip(relaxed.patterns, relaxed.shares, strict=True))
    tallest = max(way.along for way in field.ways)
    assert relaxed.least <= plan_length(plan) <= whole + 2 * tallest * len(field.demand)


def test_who_waits_no_longer_gets_a_simple_plan_that_is_known_already():
    problem = cloth(7, 12)
    least = least_strips(problem, seconds=0)
    most = 2 * total_length(least.strips)
    known = simple_strips(problem, least, most_length=most, seconds=0)
    assert simple_strips(problem, least, most_length=most, left=Clock(1)) == known
    assert check_strips(problem, simple_strips(problem, least, most_length=most, left=Clock(2))) == []


def test_a_short_time_still_gives_a_plan_and_its_gap():
    """Forty sizes and a moment: less than by rule, not proved."""
    problem = cloth(7, 40, width=2000)
    least = least_strips(problem, seconds=0.3)
    assert_stands(problem, least)
    assert total_length(least.strips) < total_length(least.by_fit)


def test_a_bound_is_never_above_the_plan_of_a_longer_search():
    problem = cloth(8, 7)
    long = least_strips(problem, seconds=1)
    for seconds in (0, 0.05, 0.2):
        assert least_strips(problem, seconds=seconds).lower_bound <= total_length(long.strips)


@pytest.mark.parametrize(
    ("size", "length"),
    [
        (Size(100, 7, 3), 21),  # as wide as the cloth
        (Size(100, 7, 3, True), 21),  # turned they would stand 100 high
        (Size(33, 10, 10), 40),  # three a strip
        (Size(10, 33, 3, True), 10),  # three lying flat beside each other are 99 wide and 10 high
        (Size(120, 9, 2, True), 120),  # wider than the cloth: both stand in one strip
        (Size(1, 1, 1), 1),
    ],
)
def test_one_size_alone(size, length):
    """Arithmetic, on a cloth 100 wide."""
    least = least_strips(Problem(100, (size,)))
    assert (total_length(least.strips), least.proved) == (length, True)


def test_a_cloth_without_pieces_takes_nothing():
    least = least_strips(Problem(10, ()))
    assert (least.strips, least.lower_bound, least.proved) == ((), 0, True)
    assert simple_strips(Problem(10, ()), least, most_length=5) == ()


def test_two_sizes_that_are_one_are_cut_as_one():
    """Six of 4 by 5 in two lots, three beside each other: two strips, however they are written."""
    twice = Problem(12, (Size(4, 5, 2), Size(4, 5, 4)))
    least = least_strips(twice)
    assert check_strips(twice, least.strips) == []
    assert total_length(least.strips) == 10


def test_widths_in_very_fine_steps_are_rounded_and_still_give_plans_that_can_be_cut():
    """A cloth in 1/1,016 in, the common step of eighths and centimetres, with pieces as wide as it."""
    dice = random.Random(9)
    sizes = [
        Size(dice.randint(1500, 15001), dice.randint(900, 9000), dice.randint(20, 90), True)
        for _ in range(40)
    ]
    problem = Problem(44703, (*sizes, Size(44703, 2540, 6)))
    assert coarseness(problem) > 1
    least = least_strips(problem, seconds=0.5)
    assert_stands(problem, least)
    assert total_length(least.strips) < total_length(least.by_size)
