"""The search for the least length: from below what cannot be, from above what can, until they meet."""

from __future__ import annotations

from dataclasses import dataclass

from workers.cutting.least.at_hand import rounded_down
from workers.cutting.least.columns import Relaxed, relax
from workers.cutting.least.field import Field
from workers.cutting.least.improve import Budget, Effort, Exchange, dives, shorten
from workers.cutting.least.model import Limits, StripModel
from workers.cutting.least.plans import Plan, plan_length, trim
from workers.cutting.least.within import Offer, patterns_within
from workers.patience import Left, endless

ROUNDS_OF_ROUNDING = 8
# So much more may be looked at from one length to the next: a step too far costs more than all before it.
GROWTH = 8


@dataclass(frozen=True)
class Climb:
    """How far a proof may go: patterns at once, looks up in a whole-number search, its share of the time left."""

    patterns: int
    looks: int
    share: float


EASY = Climb(patterns=120, looks=100, share=0.3)


class Pace:
    """How much is done in the seconds asked for: mostly less than they hold, so that the clock stops few searches."""

    def __init__(self, seconds: float) -> None:
        self.middling = Climb(patterns=1200, looks=1 + int(40 * seconds), share=0.35)
        self.hard = Climb(
            patterns=1200 + min(4800, int(960 * seconds)), looks=1 + int(60 * seconds), share=1.0
        )
        self.searches = ((400, 1 + int(16 * seconds)), (150, 1 + int(10 * seconds)))
        self.rounds_at_first = int(8 * seconds)
        self.rounds_at_last = int(16 * seconds)


class Search:
    """The best plan and the bound so far; each step makes one better or leaves both.

    Where the widths of `field` are rounded, `wide` is the same cloth with widths that hold everything that fits: the
    bound is its.
    """

    def __init__(
        self, field: Field, plan: Plan, seconds: float, wide: Field | None = None, left: Left = endless
    ) -> None:
        self.field = field
        self.plan = plan
        self.relaxed: Relaxed = relax(field, left)
        self.exact = wide is None
        self.least = min((relax(wide, left) if wide else self.relaxed).least, self.length)
        self.budget = Budget(seconds, left)
        self._pace = Pace(seconds)
        self._exchange = Exchange(field, self.relaxed)

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
        self._prove(EASY)
        self._dive()
        self._prove(self._pace.middling)
        self._improve()
        self._prove(self._pace.hard)
        self._take_out(self._pace.rounds_at_last, self.budget.seconds)
        if self.budget.late:
            self.take(rounded_down(self.field, self.relaxed))

    def _prove(self, climb: Climb) -> None:
        """Climbs, and leaves the rest of the time to what comes after."""
        if self.exact and not self.over:
            kept = (1 - climb.share) * self.budget.seconds
            self.budget.spend(kept)
            self.climb(climb)
            self.budget.spend(-kept)

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
        if not offers:  # an empty program has no answer, though there is one: no strip, no plan
            self.least = limits.most + 1
            return True
        model = StripModel(self.field, offers, limits, sums=True)
        least = model.tighten(ROUNDS_OF_ROUNDING, self.budget.ready / 2)
        self.budget.spend(1.5 * model.seconds + 3e-5 * len(offers))
        if least is None:
            self.least = limits.most + 1
            return True
        self.least = max(self.least, min(least, self.length))
        before = model.seconds
        plan, complete = model.find(looks=climb.looks, seconds=self.budget.ready)
        self.budget.spend(model.seconds - before)
        self.take(plan)
        if complete:
            self.least = self.length if plan else limits.most + 1
        return complete

    def take(self, plan: Plan | None) -> None:
        """Keeps a plan if there is one and it is shorter."""
        if plan and plan_length(plan) < self.length:
            self.plan = trim(self.field, plan)

    def _dive(self) -> None:
        if self.over:
            return
        for plan in dives(self.field, self.relaxed, self.budget):
            self.take(plan)

    def _improve(self) -> None:
        hard = self.budget.seconds
        for patterns, looks in self._pace.searches:
            if not self.over:
                effort = Effort(patterns, looks, seconds=0.3 * hard, sums=True)
                self.take(shorten(self.field, self.relaxed, self.length, effort, self.budget))
        self._take_out(self._pace.rounds_at_first, 0.2 * hard)

    def _take_out(self, rounds: int, seconds: float) -> None:
        if not self.over:
            share = Budget(seconds, self.budget.left)
            self.take(self._exchange.run(self.plan, rounds, share))
            self.budget.spend(seconds - share.seconds)
