"""The least to buy when pieces are at home, or cloth is sold in pieces: a plan, and what none can go below."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace

from workers.cutting.least import least_strips
from workers.cutting.stock.choose import choose
from workers.cutting.stock.columns import Columns
from workers.cutting.stock.filling import take
from workers.cutting.stock.first_fit import bound_by_area, cut_first_fit, is_fine
from workers.cutting.stock.greedy import cut_fullest, rank_stock, trim
from workers.cutting.stock.problem import CutSheet, StockProblem, ways_on
from workers.cutting.stock.recombine import Plan, recombine
from workers.cutting.strip_problem import Problem, Size, Strip, Strips, total_length
from workers.patience import Left, endless, share

ROLL_SECONDS, REST_SECONDS = 2.0, 2.0
"""A search for the roll alone, and for what the stock leaves of it, ends after about so long."""


@dataclass(frozen=True)
class LeastBought:
    """Stock pieces with their strips, strips from the roll, and what they cost: roll steps, or pieces bought.

    No plan costs less than `lower_bound`.
    """

    sheets: tuple[CutSheet, ...]
    roll: Strips
    cost: int
    lower_bound: int

    @property
    def proved(self) -> bool:
        """Whether nothing less can be bought."""
        return self.cost == self.lower_bound


def least_bought(problem: StockProblem, *, seconds: float = 30.0, left: Left = endless) -> LeastBought:
    """The plan that buys least of those found; a search that no other limit ends, ends after about `seconds`, or
    where nothing is `left`.

    Never more than the plan of the roll alone, nor than the plan by hand.
    """
    plans = []
    if problem.roll is not None:
        plans.append(_roll_alone(problem, problem.roll, share(left, 0.2)))
        if not problem.sheets:
            return plans[0]
    plans.append(_finish(problem, *_by_hand(problem, left), left))
    bound = max(bound_by_area(problem), _bound_of_large(problem, share(left, 0.2)))
    if left() > 0 and not is_fine(problem):
        found, proved = _search(problem, plans, bound, seconds, left)
        # first: of plans that cost the same it is the one that cuts into least
        plans, bound = [*found, *plans], max(bound, proved)
    best = min(plans, key=lambda plan: plan.cost)
    return replace(best, lower_bound=min(best.cost, bound))


def _search(
    problem: StockProblem, known: list[LeastBought], bound: int, seconds: float, left: Left
) -> tuple[list[LeastBought], int]:
    """The best plan of all columns, if one is found in time, and what no plan costs less than."""
    columns = Columns(problem)
    for plan in known:
        columns.collect(plan.sheets, plan.roll)
    columns.bound = bound
    columns.weigh_by_area()
    columns.generate(share(left, 0.4))
    most = min(plan.cost for plan in known)
    found = recombine(columns, most=most, seconds=_at_most(seconds, left))
    if found is None:
        chosen = choose(columns, seconds=_at_most(seconds, left))
        return [_finish(problem, *chosen, left)] if chosen else [], columns.bound
    return [_finish(problem, *found.plan, left)], max(columns.bound, found.least or 0)


def _at_most(seconds: float, left: Left) -> float:
    return max(min(seconds, left() / 2), 0.01)


def _roll_alone(problem: StockProblem, width: int, left: Left) -> LeastBought:
    """The plan that leaves the stock whole, and how little the roll alone could do with."""
    least = least_strips(Problem(width, problem.sizes), seconds=ROLL_SECONDS, left=left)
    return LeastBought((), least.strips, total_length(least.strips), least.lower_bound)


def _by_hand(problem: StockProblem, left: Left) -> Plan:
    if is_fine(problem):
        sheets, rest = cut_first_fit(problem, rank_stock(problem))
    else:
        sheets, rest = cut_fullest(problem)
    return sheets, _plan_roll(rest, problem.roll, left) if problem.roll else ()


def _finish(
    problem: StockProblem, sheets: tuple[CutSheet, ...], roll: Strips, left: Left = endless
) -> LeastBought:
    """The plan with nothing cut that nobody wants, and the roll's part planned anew where that is shorter."""
    rest = list(problem.sizes)
    kept: list[CutSheet] = []
    copies = Counter[int]()
    for sheet in sheets:
        strips = trim(sheet.strips, rest)
        rest = take(rest, strips)
        if strips:
            kept.append(CutSheet(sheet.stock, copies[sheet.stock], sheet.turned, strips))
            copies[sheet.stock] += 1
    cost = sum(problem.stock[sheet.stock].cost for sheet in kept)
    if problem.roll is None:
        return LeastBought(tuple(kept), (), cost, 0)
    strips = min(trim(roll, rest), _plan_roll(tuple(rest), problem.roll, left), key=total_length)
    return LeastBought(tuple(kept), strips, cost + total_length(strips), 0)


def _plan_roll(sizes: tuple[Size, ...], width: int, left: Left) -> Strips:
    """The least strips for the sizes still wanted, which keep their numbers."""
    numbers = [n for n, size in enumerate(sizes) if size.count]
    if not numbers:
        return ()
    wanted = Problem(width, tuple(sizes[n] for n in numbers))
    found = least_strips(wanted, seconds=REST_SECONDS, left=share(left, 0.25)).strips
    return tuple(
        Strip(strip.height, tuple(replace(run, size=numbers[run.size]) for run in strip.runs))
        for strip in found
    )


def _bound_of_large(problem: StockProblem, left: Left) -> int:
    """What the sizes take that fit no stock piece and can only come from the roll."""
    if problem.roll is None:
        return 0
    fitting = {way.size for s in problem.sheets for way in ways_on(s, problem.sizes)}
    large = tuple(size for n, size in enumerate(problem.sizes) if n not in fitting and size.count)
    if not large:
        return 0
    return least_strips(Problem(problem.roll, large), seconds=ROLL_SECONDS, left=left).lower_bound
