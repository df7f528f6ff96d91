"""The least cloth: strips across the roll that take no more of it than they must, and how sure that is."""

from __future__ import annotations

from dataclasses import dataclass

from workers.cutting.strip_bound import area_bound
from workers.cutting.strip_problem import Problem, Strips, total_length
from workers.cutting.strip_rules import fit_rule, per_size_rule


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


def least_strips(problem: Problem, *, seconds: float = 5.0) -> LeastStrips:
    """Strips for every piece in the least cloth found in about `seconds`, with a bound on the least there is."""
    by_size, by_fit = per_size_rule(problem), fit_rule(problem)
    best = by_size if total_length(by_size) <= total_length(by_fit) else by_fit
    bound = area_bound(problem)
    return LeastStrips(best, bound, by_size, by_fit, total_length(best) == bound)


def simple_strips(problem: Problem, tight: LeastStrips, *, most_length: int, seconds: float = 2.0) -> Strips:
    """Strips no longer than `most_length` steps that are simple to cut: few strips, few of them mixed."""
    plans = [tight.strips, tight.by_size, tight.by_fit]
    within = [plan for plan in plans if total_length(plan) <= most_length] or [tight.strips]
    return min(within, key=lambda plan: (len(plan), sum(len(strip.runs) - 1 for strip in plan)))
