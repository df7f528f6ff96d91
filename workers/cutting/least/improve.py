"""Shorter plans: follow the linear program down to whole strips, then solve a few strips at a time anew."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace

from workers.cutting.least.columns import Relaxed, relax
from workers.cutting.least.field import Field, Pattern
from workers.cutting.least.model import Limits, StripModel
from workers.cutting.least.plans import Plan, gather, plan_length, spread, trim
from workers.cutting.least.within import Offer, patterns_within
from workers.patience import Left, endless

# So few strips are left to whole-number search at the end of a dive.
END_OF_DIVE = 8
DOZEN = 12
# What solving the linear program of a part takes, in seconds a pattern.
RELAXING = 2.5e-4

Score = Callable[[float, Pattern], float]


@dataclass
class Budget:
    """Seconds that are left, by the solver's own clock and what the rest usually takes.

    `left` says what is left by the clock of who asked. There is none here: with it the same cloth may get another plan
    on another day.
    """

    seconds: float
    left: Left = endless

    @property
    def ready(self) -> float:
        """The seconds that may be used at once."""
        return min(self.seconds, self.left())

    @property
    def late(self) -> bool:
        """Whether who asked waits no longer."""
        return self.left() <= 0

    @property
    def spent(self) -> bool:
        """Whether nothing is left."""
        return self.ready <= 0

    def spend(self, seconds: float) -> None:
        """Takes so many away."""
        self.seconds -= seconds


def offers_near(field: Field, relaxed: Relaxed, loss: int, wanted: int) -> list[Offer]:
    """About `wanted` patterns that lose least, no more than `loss` each, with all that column generation found."""
    best: tuple[Offer, ...] = ()
    limit = max(loss >> 12, 1)
    while True:
        found = patterns_within(field, relaxed.prices, min(limit, loss), wanted * 20)
        if found is None:
            break
        best = found[:wanted]
        if len(found) >= wanted or limit >= loss:
            break
        limit *= 2
    known = {offer.pattern for offer in best}
    own = [Offer(relaxed.loss(field, p), p) for p in relaxed.patterns if p not in known]
    return [*best, *(offer for offer in own if offer.loss <= loss)]


@dataclass(frozen=True)
class Effort:
    """How hard one whole-number search tries: patterns offered, looks the solver takes up, seconds at most."""

    patterns: int
    looks: int
    seconds: float
    sums: bool = False


def shorten(field: Field, relaxed: Relaxed, length: int, effort: Effort, budget: Budget) -> Plan | None:
    """A plan shorter than `length` out of a few hundred good patterns, or None."""
    if relaxed.least >= length or budget.spent:
        return None
    limits = Limits(relaxed.least, length - 1, relaxed.prices, relaxed.bound)
    offers = offers_near(field, relaxed, limits.loss, effort.patterns)
    if not offers:
        return None
    model = StripModel(field, offers, limits, sums=effort.sums)
    plan, _ = model.find(looks=effort.looks, seconds=min(effort.seconds, budget.ready))
    budget.spend(model.seconds + 5e-5 * len(offers))
    return trim(field, plan) if plan else None


def dive(
    field: Field, relaxed: Relaxed, most: int, score: Score, ending: Effort | None, budget: Budget
) -> Plan | None:
    """Whole strips of the linear program are kept, and where it has none the one of the highest score; over and over.

    `most` is a length above any plan. The last few strips are searched for together if an `ending` is given. None where
    the budget is late before every piece is laid.
    """
    kept: list[Pattern] = []
    while not budget.late:
        if ending and sum(relaxed.shares) <= END_OF_DIVE:
            rest = shorten(field, relaxed, most, ending, budget)
            if rest:
                return gather(kept + spread(rest))
        taken = trim(field, _take(relaxed, score))
        kept += spread(taken)
        field = replace(field, demand=still_wanted(field, taken))
        if not any(field.demand):
            return gather(kept)
        relaxed = relax(field, budget.left)
        budget.spend(RELAXING * len(relaxed.patterns))
    return None


def _take(relaxed: Relaxed, score: Score) -> Plan:
    used = [(p, share) for p, share in zip(relaxed.patterns, relaxed.shares, strict=True) if share > 1e-6]
    whole = tuple((p, int(share + 1e-6)) for p, share in used if share > 1 - 1e-6)
    if whole:
        return whole
    best = max(used, key=lambda u: (score(u[1], u[0]), u[0].height, u[0].counts))
    return ((best[0], 1),)


def still_wanted(field: Field, plan: Plan) -> tuple[int, ...]:
    """What a plan leaves of each size."""
    left = list(field.demand)
    for pattern, count in plan:
        for size, made in field.made(pattern).items():
            left[size] -= made * count
    return tuple(left)


def dives(field: Field, relaxed: Relaxed, budget: Budget) -> Iterator[Plan | None]:
    """Plans from the linear program, one a way of choosing between its parts of strips."""
    most = sum(way.along * field.demand[way.size] for way in field.ways) + 1
    ending = Effort(patterns=200, looks=30, seconds=0.3)
    for last in (None, ending):
        for score in _scores(field, relaxed):
            if not budget.spent:
                yield dive(field, relaxed, most, score, last, budget)


def _scores(field: Field, relaxed: Relaxed) -> tuple[Score, Score]:
    """A pattern that is nearly whole and high, or one that loses little."""
    return (
        lambda share, pattern: share * pattern.height,
        lambda _, pattern: -relaxed.loss(field, pattern) / pattern.height,
    )


class Exchange:
    """Some strips at a time are taken out and their pieces laid anew; keeps what is shorter, or as short but other.

    Mostly by a dive over a fifth or more of the strips, now and then by a search over a dozen.
    """

    # Of each round in turn which share of the strips is taken out; None: a dozen, and searched.
    SHARES = (0.2, 0.6, 0.2, None)

    def __init__(self, field: Field, relaxed: Relaxed) -> None:
        self._field = field
        self._relaxed = relaxed
        self._dice = _dice()

    def run(self, plan: Plan, rounds: int, budget: Budget) -> Plan:
        """The plan after so many rounds, or when the budget is spent or nothing is left to gain."""
        strips = spread(plan)
        for number in range(rounds):
            if budget.spent or sum(strip.height for strip in strips) <= self._relaxed.least:
                break
            strips.sort(key=lambda strip: (-self._relaxed.loss(self._field, strip), strip.counts))
            share = self.SHARES[number % len(self.SHARES)]
            chosen = self._choose(len(strips), DOZEN if share is None else max(6, int(len(strips) * share)))
            out = [strip for place, strip in enumerate(strips) if place in chosen]
            anew = self._again(out, searched=share is None, last=number % 8 < 4, budget=budget)
            if anew:
                strips = [strip for place, strip in enumerate(strips) if place not in chosen] + spread(anew)
        return gather(strips)

    def _again(self, strips: list[Pattern], *, searched: bool, last: bool, budget: Budget) -> Plan | None:
        """The pieces of some strips in as much cloth or less, or None."""
        made = [0] * len(self._field.demand)
        for strip in strips:
            for size, count in self._field.made(strip).items():
                made[size] += count
        part = replace(self._field, demand=tuple(made))
        relaxed = relax(part, budget.left)
        budget.spend(RELAXING * len(relaxed.patterns))
        length = sum(strip.height for strip in strips)
        if relaxed.least >= length:
            return None
        if searched:
            return shorten(part, relaxed, length, Effort(patterns=200, looks=30, seconds=0.3), budget)
        anew = dive(part, relaxed, length, _scores(part, relaxed)[last], None, budget)
        return anew if anew and plan_length(anew) <= length else None

    def _choose(self, number: int, wanted: int) -> set[int]:
        """Places of strips: half of them from the most wasteful third if there is room, the rest from anywhere."""
        wasteful = max(1, number // 3)
        chosen: set[int] = set()
        while len(chosen) < min(wanted, number):
            narrow = wasteful > wanted and 2 * len(chosen) < wanted
            chosen.add(next(self._dice) % (wasteful if narrow else number))
        return chosen


def _dice() -> Iterator[int]:
    """The same numbers in every run: a linear congruential row (Knuth, Seminumerical Algorithms, 3.3.4)."""
    state = 1
    while True:
        state = (state * 6364136223846793005 + 1442695040888963407) % (1 << 64)
        yield state >> 33
