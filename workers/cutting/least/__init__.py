"""The least cloth: strips across the roll that take no more of it than they must, and how sure that is.

In four steps:

1. The linear program of strips over patterns found as they are needed: Gilmore and Gomory, "Multistage cutting
   stock problems of two and more dimensions", Operations Research 13 (1965) 94-120. What its prices prove: Farley,
   "A note on bounding a class of linear programming problems", Operations Research 38 (1990) 922-923. (`prices`,
   `columns`)
2. For one length after another all patterns that a plan so short could use, and a whole-number program over them
   that says no or gives the plan; counts of strips are rounded inwards first, which mostly says no by itself.
   (`within`, `model`, `search`) The solver is HiGHS: Huangfu and Hall, "Parallelizing the dual revised simplex
   method", Mathematical Programming Computation 10 (2018) 119-142. (`highs`)
3. Where that takes too long, shorter plans by diving along the linear program and by exchanging strips (`improve`).
4. Of all plans short enough the one that is simplest to cut (`simple`).

The usual end is a count of branches and patterns, so that the same cloth gets the same plan; seconds are for what
is left. Who cannot wait longer on any machine hands in a clock: `left`, the seconds that are left. What is at hand by
then is the linear program rounded down (`at_hand`) or better.
"""

from __future__ import annotations

from dataclasses import dataclass

from workers.cutting.least.field import Rounding, coarseness, lay_out
from workers.cutting.least.improve import Budget
from workers.cutting.least.plans import plan_of, strips_of, trim
from workers.cutting.least.search import Search
from workers.cutting.least.simple import simplify
from workers.cutting.strip_bound import area_bound
from workers.cutting.strip_problem import Problem, Strips, total_length
from workers.cutting.strip_rules import fit_rule, per_size_rule
from workers.patience import Left, endless


@dataclass(frozen=True)
class LeastStrips:
    """The plan of one cloth that takes least, what no plan can go below, and what the rules of thumb take.

    `lower_bound` is in steps; it equals the length of `strips` where that is `proved` to be the least.
    """

    strips: Strips
    lower_bound: int
    by_size: Strips
    by_fit: Strips
    proved: bool


def least_strips(problem: Problem, *, seconds: float = 5.0, left: Left = endless) -> LeastStrips:
    """Strips for every piece in the least cloth found in about `seconds`, with a bound on the least there is.

    Where `left` comes to nothing the search ends earlier, with what it has.
    """
    by_size, by_fit = per_size_rule(problem), fit_rule(problem)
    best = by_size if total_length(by_size) <= total_length(by_fit) else by_fit
    bound = area_bound(problem)
    if total_length(best) > bound:
        coarser = coarseness(problem)
        field = lay_out(problem, coarser)
        wide = lay_out(problem, coarser, Rounding.NARROWER) if coarser > 1 else None
        search = Search(field, plan_of(field, problem, best), seconds, wide, left)
        search.run()
        bound = max(bound, search.least * field.step)
        if search.length * field.step < total_length(best):
            best = strips_of(field, problem, trim(field, search.plan))
    return LeastStrips(best, bound, by_size, by_fit, total_length(best) == bound)


def simple_strips(
    problem: Problem, tight: LeastStrips, *, most_length: int, seconds: float = 2.0, left: Left = endless
) -> Strips:
    """Strips no longer than `most_length` steps that are simple to cut: the fewest found, then the fewest sizes mixed.

    Where nothing is within `most_length` it is the tight plan.
    """
    within = [s for s in (tight.strips, tight.by_size, tight.by_fit) if total_length(s) <= most_length]
    if not problem.sizes or not within:
        return tight.strips
    field = lay_out(problem, coarseness(problem))
    plans = [plan_of(field, problem, strips) for strips in within]
    budget = Budget(seconds, left)
    return strips_of(field, problem, simplify(field, plans, most_length // field.step, budget))
