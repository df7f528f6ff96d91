"""The search for the least length: from below what cannot be, from above what can, until they meet."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from workers.cutting.least.columns import Relaxed, relax
from workers.cutting.least.field import Field
from workers.cutting.least.improve import Budget, Effort, dives, exchange, shorten
from workers.cutting.least.model import Limits, StripModel
from workers.cutting.least.plans import Plan, plan_length, trim
from workers.cutting.least.within import Offer, patterns_within

ROUNDS_OF_ROUNDING = 8
# So much more may be looked at from one length to the next: a step too far costs more than all before it.
GROWTH = 8


@dataclass(frozen=True)
class Climb:
    """How far a proof may go: patterns at once, and branches of the whole-number search."""

    patterns: int
    nodes: int


EASY = Climb(patterns=120, nodes=100)
MIDDLING = Climb(patterns=1200, nodes=300)
HARD = Climb(patterns=6000, nodes=20000)


class Search:
    """The best plan and the bound so far; each step makes one better or leaves both.

    Where the widths of `field` are rounded, `wide` is the same cloth with widths that hold everything that fits: the
    bound is its.
    """

    def __init__(self, field: Field, plan: Plan, seconds: float, wide: Field | None = None) -> None:
        self.field = field
        self.plan = plan
        self.relaxed: Relaxed = relax(field)
        self.exact = wide is None
        self.least = min((relax(wide) if wide else self.relaxed).least, self.length)
        self.budget = Budget(seconds)

    @property
    def length(self) -> int:
        """The length of the best plan."""
        return plan_length(self.plan)

    @property
    def over(self) -> bool:
        """Whether the plan is proved, or the time is spent."""
        return self.least >= self.length or self.budget.spent

    def run(self) -> None:
        """Proofs and better plans by turns, the cheap ones first; with rounded widths better plans alone."""
        for step in (self._prove(EASY), self._dive, self._prove(MIDDLING), self._improve, self._prove(HARD)):
            if not self.over:
                step()

    def _prove(self, climb: Climb) -> Callable[[], None]:
        return (lambda: self.climb(climb)) if self.exact else (lambda: None)

    def climb(self, climb: Climb) -> None:
        """Shows for one length after another that no plan is that short, or finds one."""
        start, seen = self.least, climb.patterns // GROWTH**2
        while not self.over:
            posed = self._pose(self.least + max(self.least - start, 1) - 1, seen, climb)
            if posed is None:
                return
            limits, offers = posed
            seen = len(offers)
            if not self._settle(limits, offers, climb):
                return

    def _pose(self, most: int, seen: int, climb: Climb) -> tuple[Limits, tuple[Offer, ...]] | None:
        """The next length to look at and its patterns: not many times what was seen before, None if too many."""
        most = min(most, self.length - 1)
        while True:
            limits = Limits(self.least, most, self.relaxed.prices, self.relaxed.bound)
            allowed = min(climb.patterns, GROWTH * max(seen, 12))
            offers = patterns_within(self.field, self.relaxed.prices, limits.loss, 4 * climb.patterns)
            self.budget.spend(2e-3 if offers is None else 2e-3 + 1e-5 * len(offers))
            if offers is not None and len(offers) <= allowed:
                return limits, offers
            if most == self.least:
                return (limits, offers) if offers is not None and len(offers) <= climb.patterns else None
            most = self.least + (most - self.least) // 2

    def _settle(self, limits: Limits, offers: tuple[Offer, ...], climb: Climb) -> bool:
        """Raises the bound above `limits`, or finds a plan within; False if neither came out."""
        model = StripModel(self.field, offers, limits, sums=True)
        least = model.tighten(ROUNDS_OF_ROUNDING, self.budget.seconds)
        plan, complete = None, True
        if least is not None:
            self.least = max(self.least, min(least, self.length))
            plan, complete = model.find(nodes=climb.nodes, seconds=self.budget.seconds - model.seconds)
        self.budget.spend(1.5 * model.seconds + 3e-5 * len(offers))
        if plan:
            self.take(plan)
        if complete:
            self.least = self.length if plan else limits.most + 1
        return complete

    def take(self, plan: Plan) -> None:
        """Keeps a plan if it is shorter."""
        if plan_length(plan) < self.length:
            self.plan = trim(self.field, plan)

    def _dive(self) -> None:
        for plan in dives(self.field, self.relaxed, self.budget):
            self.take(plan)

    def _improve(self) -> None:
        hard = self.budget.seconds
        for patterns, share in ((400, 0.25), (150, 0.1)):
            effort = Effort(patterns, nodes=1500, seconds=share * hard, sums=True)
            shorter = shorten(self.field, self.relaxed, self.length, effort, self.budget)
            if shorter:
                self.take(shorter)
        share_of_exchange = Budget(0.2 * hard)
        self.take(exchange(self.field, self.relaxed, self.plan, 40, share_of_exchange))
        self.budget.spend(0.2 * hard - share_of_exchange.seconds)
