"""Strips: the two rules, the bound and the check, on random cloths."""

from __future__ import annotations

import json
from collections import Counter
from dataclasses import replace
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from workers.cutting.strip_bound import area_bound
from workers.cutting.strip_problem import Problem, Run, Size, Strip, total_length
from workers.cutting.strip_rules import fit_rule, per_size_rule

sizes = st.builds(Size, st.integers(1, 60), st.integers(1, 60), st.integers(1, 40), st.booleans())
problems = st.builds(Problem, st.integers(60, 120), st.lists(sizes, min_size=1, max_size=6).map(tuple))


def assert_sound(problem, strips):
    """Every piece once, nothing over the edge, no strip taller than its tallest piece."""
    found = Counter()
    for strip in strips:
        lying = []
        for run in strip.runs:
            size = problem.sizes[run.size]
            assert size.may_turn or not run.turned
            w, h = (size.height, size.width) if run.turned else (size.width, size.height)
            lying += [(w, h)] * run.count
            found[run.size] += run.count
        assert sum(w for w, _ in lying) <= problem.width
        assert max(h for _, h in lying) == strip.height
    assert [found[i] for i in range(len(problem.sizes))] == [s.count for s in problem.sizes]


@given(problems)
def test_both_rules_give_plans_that_can_be_cut(problem):
    for rule in (per_size_rule, fit_rule):
        assert_sound(problem, rule(problem))


@given(sizes, st.integers(60, 120), st.integers(0, 40), st.integers(0, 40))
def test_wider_cloth_never_takes_more_strips_and_more_pieces_never_less_cloth(size, width, wider, more):
    """Of one size, laid one way, by the rule of strips of its own."""
    one_way = replace(size, may_turn=False)
    strips = per_size_rule(Problem(width, (one_way,)))
    assert len(per_size_rule(Problem(width + wider, (one_way,)))) <= len(strips)
    added = replace(one_way, count=one_way.count + more)
    assert total_length(per_size_rule(Problem(width, (added,)))) >= total_length(strips)


@given(problems)
def test_no_plan_is_shorter_than_the_bound(problem):
    assert area_bound(problem) <= min(total_length(per_size_rule(problem)), total_length(fit_rule(problem)))


@given(problems)
def test_the_fit_rule_is_never_longer_than_first_fit_piece_by_piece(problem):
    """Held against first-fit decreasing height laid one piece at a time, as the books tell it."""
    strips: list[list[int]] = []
    pieces = [(s.height, s.width) for s in problem.sizes for _ in range(s.count)]
    for height, width in sorted(pieces, reverse=True):
        room = next((s for s in strips if s[1] >= width), None)
        if room is None:
            strips.append(room := [height, problem.width])
        room[1] -= width
    assert total_length(fit_rule(problem)) <= sum(s[0] for s in strips)


def test_best_fit_chooses_the_fullest_strip_with_room():
    """10 wide: 6 and 7 open strips; 3 goes beside the 7 (room 3), so that the 4 still fits beside the 6."""
    problem = Problem(10, (Size(6, 5, 1), Size(7, 4, 1), Size(3, 3, 1), Size(4, 2, 1)))
    assert fit_rule(problem) == (
        Strip(5, (Run(0, 1, False), Run(3, 1, False))),
        Strip(4, (Run(1, 1, False), Run(2, 1, False))),
    )


def test_pieces_that_may_turn_lie_the_way_that_takes_less():
    """Six of 5 by 4 from 20 wide: flat 4 a strip, 2 strips, 8; tall 5 a strip, 2 strips, 10."""
    assert total_length(per_size_rule(Problem(20, (Size(5, 4, 6, True),)))) == 8
    # five of them stand in one strip of 5 instead of two of 4
    [strip] = per_size_rule(Problem(20, (Size(5, 4, 5, True),)))
    assert strip == Strip(5, (Run(0, 5, True),))


def test_a_piece_wider_than_the_cloth_is_turned():
    assert per_size_rule(Problem(10, (Size(12, 3, 2, True),))) == (Strip(12, (Run(0, 2, True),)),)


def test_the_bound_is_at_least_the_tallest_piece_and_a_sum_of_heights_can_reach_it():
    assert area_bound(Problem(100, (Size(1, 30, 1), Size(1, 9, 1)))) == 30
    # area 100 over 30 is 3 1/3; heights of 2 come to 4
    assert area_bound(Problem(30, (Size(10, 2, 5),))) == 4


def test_a_cloth_without_pieces_takes_nothing():
    assert (fit_rule(Problem(10, ())), area_bound(Problem(10, ()))) == ((), 0)


@given(problems)
def test_an_exact_search_finds_nothing_below_the_bound(problem):
    """Where all pieces are equally high it is bin packing: ceil(area / width) strips at least."""
    flat = Problem(problem.width, tuple(Size(s.width, 7, s.count) for s in problem.sizes))
    strips = fit_rule(flat)
    assert area_bound(flat) == 7 * -(-sum(s.width * s.count for s in flat.sizes) // flat.width)
    assert len(strips) * 7 >= area_bound(flat)


@pytest.mark.parametrize(
    ("pieces", "piece", "width", "strips"),
    [
        (13, "3 1/2", 42, 2),
        (12, "3 1/2", 42, 1),
        (8, "5 1/2", 44, 1),
        (8, "4 1/2", 36, 1),
        (10, "3.3", 33, 1),
    ],
)
def test_a_division_without_rest_loses_no_piece(pieces, piece, width, strips):
    """floor(33 / 3.3) is 10: in floats 33 // 3.3 is 9. Arithmetic."""
    side = sum(Fraction(part) for part in piece.split())
    step = Fraction(1, 40)
    problem = Problem(int(width / step), (Size(int(side / step), int(side / step), pieces),))
    assert len(per_size_rule(problem)) == strips


def test_stored_cloths_are_laid_no_worse_than_by_hand(tmp_path):
    """A generated cloth of ten sizes: the fit rule saves against strips size by size, and both are sound."""
    raw = json.loads(Path(__file__).with_name("cloth.json").read_text())
    problem = Problem(
        raw["usable_width"], tuple(Size(i["w"], i["h"], i["demand"], i["turn"]) for i in raw["items"])
    )
    by_size, by_fit = per_size_rule(problem), fit_rule(problem)
    assert_sound(problem, by_size)
    assert_sound(problem, by_fit)
    assert area_bound(problem) <= total_length(by_fit) < total_length(by_size)
