"""The least to buy, held against every way there is on tiny cases, and against what must be true of any."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from random import Random

import pytest

from workers.cutting.least import least_strips
from workers.cutting.stock.least_bought import least_bought
from workers.cutting.stock.problem import Stock, StockProblem
from workers.cutting.strip_problem import Problem, Size, total_length

from .tiny import Search


def tiny(seed, *, roll=True):
    """At most five pieces of up to three sizes, and up to two sizes of stock."""
    random = Random(seed)
    width = random.randint(6, 12)
    sizes = tuple(
        Size(random.randint(1, 6), random.randint(1, 6), random.randint(1, 2), random.random() < 0.5)
        for _ in range(random.randint(1, 3))
    )
    stock = tuple(
        Stock(random.randint(2, 9), random.randint(2, 9), random.randint(1, 2), 0, random.random() < 0.5)
        for _ in range(random.randint(0, 2))
    )
    if roll:
        return StockProblem(sizes, stock, width)
    return StockProblem(sizes, (*stock, Stock(7, 6, None, 1, True)), None)


def check(problem, plan):
    """Every piece once, in strips that hold it, in pieces that hold the strips and are there."""
    made = Counter()
    for sheet in plan.sheets:
        piece = problem.stock[sheet.stock]
        assert piece.may_turn or not sheet.turned
        width, height = (piece.height, piece.width) if sheet.turned else (piece.width, piece.height)
        assert sum(strip.height for strip in sheet.strips) <= height
        check_strips(problem, sheet.strips, width, made, along_cloth=sheet.turned)
    check_strips(problem, plan.roll, problem.roll, made, along_cloth=False)
    assert made == Counter({n: size.count for n, size in enumerate(problem.sizes) if size.count})
    used = Counter((sheet.stock, sheet.copy) for sheet in plan.sheets)
    assert all(times == 1 for times in used.values())
    for stock, copy in used:
        count = problem.stock[stock].count
        assert copy >= 0 and (count is None or copy < count)


def check_strips(problem, strips, width, made, *, along_cloth):
    for strip in strips:
        across = along = 0
        for run in strip.runs:
            size = problem.sizes[run.size]
            assert size.may_turn or size.width == size.height or run.turned == along_cloth
            w, h = (size.height, size.width) if run.turned else (size.width, size.height)
            across, along = across + w * run.count, max(along, h)
            made[run.size] += run.count
        assert across <= width and along == strip.height


@pytest.mark.parametrize("seed", [seed for seed in range(90) if tiny(seed).sheets])
def test_least_is_what_trying_every_way_finds(seed):
    problem = tiny(seed)
    plan = least_bought(problem)
    check(problem, plan)
    assert plan.cost == Search(problem).least()
    assert plan.lower_bound == plan.cost


@pytest.mark.parametrize("seed", range(60))
def test_as_few_pieces_are_bought_as_trying_every_way_finds(seed):
    problem = tiny(seed, roll=False)
    plan = least_bought(problem)
    check(problem, plan)
    assert plan.cost == Search(problem).least()
    assert plan.lower_bound == plan.cost


def cloth(seed):
    """A cloth of a dozen pieces or more, in eighths of an inch."""
    random = Random(seed)
    sizes = []
    for _ in range(random.randint(2, 5)):
        width, height = random.randint(12, 140), random.randint(12, 100)
        sizes.append(Size(width, height, random.randint(1, 30), width != height))
    return tuple(sizes)


QUARTER, END, OFFCUT = Stock(168, 144, 2, 0, True), Stock(320, 50, 1, 0, True), Stock(90, 60, 3, 0, True)


@pytest.mark.parametrize("seed", range(4))
def test_without_a_stash_everything_is_bought_as_for_the_roll_alone(seed):
    sizes = cloth(seed)
    plan = least_bought(StockProblem(sizes, (), 320))
    alone = least_strips(Problem(320, sizes))
    assert (plan.sheets, plan.roll) == ((), alone.strips)
    assert (plan.cost, plan.lower_bound) == (total_length(alone.strips), alone.lower_bound)


@pytest.mark.parametrize("seed", range(1, 7))
def test_a_further_piece_at_home_never_makes_more_to_buy(seed):
    sizes = cloth(seed)
    costs = []
    for stock in ((), (OFFCUT,), (OFFCUT, QUARTER), (OFFCUT, QUARTER, END)):
        problem = StockProblem(sizes, stock, 320)
        plan = least_bought(problem)
        check(problem, plan)
        assert plan.lower_bound <= plan.cost
        costs.append(plan.cost)
    assert costs == sorted(costs, reverse=True)
    assert costs[-1] < costs[0]


def test_the_same_problem_gives_the_same_plan():
    problem = StockProblem(cloth(3), (OFFCUT, QUARTER, END), 320)
    assert least_bought(problem) == least_bought(problem)


def test_more_than_enough_at_home_means_nothing_to_buy_and_the_rest_stays_whole():
    problem = StockProblem((Size(20, 20, 10),), (Stock(168, 144, 5), Stock(40, 100, 9)), 320)
    plan = least_bought(problem)
    assert (plan.cost, plan.lower_bound, plan.roll) == (0, 0, ())
    # ten squares: one small piece, 2 by 5, and not a fat quarter
    assert [sheet.stock for sheet in plan.sheets] == [1]


@pytest.mark.parametrize("missing", [["recombine"], ["recombine", "choose"]])
def test_a_simpler_plan_stands_in_where_there_is_no_time(monkeypatch, missing):
    for name in missing:
        monkeypatch.setattr(f"workers.cutting.stock.least_bought.{name}", lambda columns, **limits: None)
    problem = StockProblem(cloth(2), (OFFCUT, QUARTER, END), 320)
    plan = least_bought(problem)
    check(problem, plan)
    assert plan.lower_bound <= plan.cost <= least_bought(replace(problem, stock=())).cost


@pytest.mark.parametrize("roll", [True, False])
@pytest.mark.parametrize("seed", range(20))
def test_whole_pieces_chosen_as_they_were_found_hold_everything(monkeypatch, seed, roll):
    monkeypatch.setattr("workers.cutting.stock.recombine.MOST_LEVELS", 0)
    problem = tiny(seed, roll=roll)
    plan = least_bought(problem)
    check(problem, plan)
    assert plan.lower_bound <= Search(problem).least() <= plan.cost


def finer(problem, factor):
    """The same problem in steps so many times finer."""
    sizes = tuple(replace(s, width=s.width * factor, height=s.height * factor) for s in problem.sizes)
    stock = tuple(replace(s, width=s.width * factor, height=s.height * factor) for s in problem.stock)
    return StockProblem(sizes, stock, problem.roll and problem.roll * factor)


@pytest.mark.parametrize("roll", [True, False])
@pytest.mark.parametrize("seed", range(12))
def test_steps_too_fine_for_tables_still_give_a_plan_and_a_bound(seed, roll):
    problem = tiny(seed, roll=roll)
    plan = least_bought(finer(problem, 10**9))
    check(finer(problem, 10**9), plan)
    exact = Search(problem).least() * (10**9 if roll else 1)
    assert plan.lower_bound <= exact <= plan.cost
