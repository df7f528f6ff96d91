"""The least cloth with stacked pieces, held against every way there is on tiny cases, and against no stacking."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from random import Random

import pytest

from workers.cutting.stacked.least_stacked import least_stacked
from workers.cutting.strip_problem import Problem, Size, total_length
from workers.cutting.strip_rules import fit_rule


@dataclass
class Search:
    """Every piece in turn goes on every column begun, begins one in every strip, or begins a strip.

    A strip is a list of columns, a column [its width, its height].
    """

    problem: Problem
    highest: int
    strips: list[list[list[int]]] = field(default_factory=list)
    best: int | None = None

    def least(self) -> int | None:
        self.place([n for n, size in enumerate(self.problem.sizes) for _ in range(size.count)])
        return self.best

    def length(self) -> int:
        return sum(max(column[1] for column in strip) for strip in self.strips)

    def place(self, pieces: list[int]) -> None:
        if self.best is not None and self.length() >= self.best:
            return
        if not pieces:
            self.best = self.length()
            return
        size = self.problem.sizes[pieces[0]]
        for across, along in {(size.width, size.height), *([(size.height, size.width)] * size.may_turn)}:
            if across > self.problem.width or along > self.highest:
                continue
            for strip in list(self.strips):
                for column in list(strip):
                    self.on_column(strip, column, across, along, pieces)
                strip.append([across, along])
                if sum(c[0] for c in strip) <= self.problem.width:
                    self.place(pieces[1:])
                strip.pop()
            self.strips.append([[across, along]])
            self.place(pieces[1:])
            self.strips.pop()

    def on_column(self, strip, column, across, along, pieces) -> None:
        before = list(column)
        column[:] = [max(column[0], across), column[1] + along]
        if sum(c[0] for c in strip) <= self.problem.width and column[1] <= self.highest:
            self.place(pieces[1:])
        column[:] = before


def check(problem, plan):
    """Every piece once, columns side by side in their strip, pieces above each other in their column."""
    made = Counter()
    for strip in plan.strips:
        assert sum(column.width for column in strip.columns) <= problem.width
        for column in strip.columns:
            height = 0
            for run in column.runs:
                size = problem.sizes[run.size]
                assert size.may_turn or not run.turned
                across, along = (size.height, size.width) if run.turned else (size.width, size.height)
                assert across <= column.width
                height += along * run.count
                made[run.size] += run.count
            assert height <= strip.height
    assert made == Counter({n: size.count for n, size in enumerate(problem.sizes)})
    assert plan.length == sum(strip.height for strip in plan.strips)


def tiny(seed):
    """At most six pieces of up to three sizes, one of them tall enough for others to be stacked beside it."""
    random = Random(seed)
    sizes = [Size(random.randint(1, 4), random.randint(5, 7), 1)]
    for _ in range(2):
        width, height = random.randint(1, 5), random.randint(1, 4)
        sizes.append(Size(width, height, random.randint(1, 3), random.random() < 0.5 and width != height))
    return Problem(random.randint(5, 8), tuple(sizes))


@pytest.mark.parametrize("seed", range(50))
def test_least_is_what_trying_every_way_finds(seed):
    problem = tiny(seed)
    known = fit_rule(problem)
    plan = least_stacked(problem, known)
    check(problem, plan)
    assert plan.length == Search(problem, max(strip.height for strip in known)).least()
    assert plan.lower_bound <= plan.length


def cloth(seed):
    random = Random(seed)
    sizes = []
    for _ in range(random.randint(3, 7)):
        width, height = random.randint(12, 120), random.randint(12, 100)
        sizes.append(Size(width, height, random.randint(1, 25), random.random() < 0.5 and width != height))
    return Problem(320, tuple(sizes))


@pytest.mark.parametrize("thorough", [False, True])
@pytest.mark.parametrize("seed", range(4))
def test_stacking_never_takes_more_cloth_than_none(seed, thorough):
    problem = cloth(seed)
    known = fit_rule(problem)
    plan = least_stacked(problem, known, thorough=thorough)
    check(problem, plan)
    assert plan.lower_bound <= plan.length <= total_length(known)
    area = sum(size.width * size.height * size.count for size in problem.sizes)
    assert plan.lower_bound * problem.width >= area - problem.width
    assert max(strip.height for strip in plan.strips) <= max(strip.height for strip in known)


def test_two_low_pieces_stand_above_each_other_beside_a_tall_one():
    """A strip of 8 in with a square of 8 in has room for two rows of squares of 4 in: no second strip."""
    problem = Problem(40, (Size(8, 8, 1), Size(4, 4, 16)))
    plan = least_stacked(problem, fit_rule(problem))
    check(problem, plan)
    assert (plan.length, plan.lower_bound) == (8, 8)
    assert total_length(fit_rule(problem)) == 12


def test_the_same_problem_gives_the_same_plan():
    problem = cloth(2)
    assert least_stacked(problem, fit_rule(problem)) == least_stacked(problem, fit_rule(problem))


def test_steps_too_fine_for_tables_still_give_a_plan():
    problem = Problem(40 * 10**9, (Size(8 * 10**9, 8 * 10**9, 1), Size(4 * 10**9, 4 * 10**9, 16)))
    plan = least_stacked(problem, fit_rule(problem))
    check(problem, plan)
    assert (plan.length, plan.lower_bound) == (8 * 10**9, 8 * 10**9)
