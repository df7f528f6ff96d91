"""Which seams are spun, which copies are pressed in turn, and which side every seam is pressed to.

The fewest crossings of the top that do not nest come first. Of ways with as many, seams are spun where a spin serves,
and copies are pressed alike.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Collection
from dataclasses import dataclass
from functools import cached_property

from service.craft.units import StripSet
from workers.sewing.alternating import alternate
from workers.sewing.crossings import Crossing, CrossingFinder, Meetings, SeamKey, Spin
from workers.sewing.ordering import count_copies, order_works
from workers.sewing.pressing import Bond, Pressing, solve_pressing
from workers.sewing.works import Laid, SeamLine, Work

Weigh = Callable[[SeamLine, tuple[int, int]], tuple[float, float]]
"""The cost of pressing a seam to the left and to the right, by what ends on it from either side."""

MOST_WIDENINGS, MOST_LEFT_OUT = 4, 10
"""How often more works are pressed in turn, and how many of them are tried alike again."""


@dataclass(frozen=True)
class Nested:
    """One way of pressing a top: its works in order, what meets in them, and the side of every seam."""

    top: Work
    works: list[Work]
    meetings: dict[Work, Meetings]
    pressing: Pressing[SeamKey]
    in_turn: frozenset[str] = frozenset()

    @cached_property
    def crossings(self) -> tuple[Crossing, ...]:
        """Every crossing, looked at once a work."""
        return tuple(crossing for work in self.works for crossing in self.meetings[work].crossings)

    @cached_property
    def counts(self) -> dict[Work, int]:
        """How many copies of each work the top takes."""
        return count_copies(self.works)

    @cached_property
    def spins(self) -> dict[SeamKey, Spin]:
        """The seams that are spun."""
        found = (meeting.spin for meeting in self.meetings.values())
        return {spin.seam: spin for spin in found if spin is not None}

    @property
    def failing(self) -> list[Crossing]:
        """The crossings that do not nest."""
        return [self.crossings[i] for i in self.pressing.broken]

    @cached_property
    def failing_in_top(self) -> int:
        """How many crossings of the whole top do not nest: each as often as the work it lies in is made."""
        counts = {work.id: count for work, count in self.counts.items()}
        return sum(counts[crossing.work] for crossing in self.failing)

    @cached_property
    def served_by_none(self) -> frozenset[SeamKey]:
        """Seams that meet nothing but copies of themselves the wrong way round, whatever side they take."""
        kept = {key for c in self.crossings for key in (c.first, c.second) if c.first != c.second or c.alike}
        shared = {(w.id, s.same_as) for w in self.works for s in w.seams if s.same_as is not None}
        spun = {spin.by for spin in self.spins.values()}
        return frozenset({c.first for c in self.failing} - kept - shared - spun)


def find_nesting(top: Laid, weigh: Weigh) -> Nested:
    """The best way found of pressing a top. Copies are pressed in turn only where that leaves fewer crossings."""
    assert isinstance(top.piece, Work), "the top is always a work"  # noqa: S101
    whole = top.piece
    best = alike = _press_with_spins(whole, weigh)
    tried, works = alike, frozenset[str]()
    for _ in range(MOST_WIDENINGS):
        wider = works | _shared_by_failing(tried)
        if not tried.failing or wider == works:
            break
        works = wider
        tried = _press_with_spins(alternate(whole, works), weigh, works)
        best = min(best, tried, key=_rank)
    return best if best is alike else _leave_out(whole, best, weigh)


def _rank(nested: Nested) -> tuple[int, int]:
    return nested.failing_in_top, len(nested.in_turn)


def _leave_out(top: Work, best: Nested, weigh: Weigh) -> Nested:
    """Press alike again what need not be pressed in turn: large things first, since many seams hang on them."""
    order = [work.id for work in reversed(best.works) if work.id in best.in_turn]
    for left_out in order[:MOST_LEFT_OUT]:
        works = best.in_turn - {left_out}
        best = min(best, _press_with_spins(alternate(top, works), weigh, works), key=_rank)
    return best


def _shared_by_failing(nested: Nested) -> frozenset[str]:
    """Works that hold both seams of a failing crossing inside another work: copies of them may lie side by side."""
    if not nested.failing:
        return frozenset()
    inside: dict[Work, set[str]] = {}
    for work in nested.works:
        inside[work] = {work.stage}.union(*(inside[part] for part in work.works))
    by_id = {work.id: work for work in nested.works}
    holders: dict[str, set[str]] = defaultdict(set)
    for work, held in inside.items():
        for stage in held:
            holders[stage].add(work.stage)
    found: set[str] = set()
    for crossing in nested.failing:
        across = by_id[crossing.work]
        first, second = (by_id[own[0]].stage for own in crossing.met)
        found |= holders[first] & holders[second] & (inside[across] - {across.stage})
    # pieces of one strip set are pressed before they are cut apart, so all alike
    return frozenset(found - {work.stage for work in nested.works if work.kind == StripSet.kind})


def _press_with_spins(top: Work, weigh: Weigh, in_turn: frozenset[str] = frozenset()) -> Nested:
    """Spin every seam that can be, but for those whose crossing then fails; none where that leaves fewer failing."""
    never: set[SeamKey] = set()
    nested = _press(top, weigh, never, in_turn)
    spun = nested
    while lost := _lost_spins(spun):
        never |= lost
        spun = _press(top, weigh, never, in_turn)
    if not spun.failing or not nested.spins:
        return spun
    plain = _press(top, weigh, never | set(nested.spins), in_turn)
    return plain if plain.failing_in_top < spun.failing_in_top else spun


def _lost_spins(nested: Nested) -> set[SeamKey]:
    """The spun seams that a crossing which fails lies in: a spin needs seams that nest."""
    failing = {(crossing.work, crossing.across) for crossing in nested.failing}
    return failing & nested.spins.keys()


def _press(top: Work, weigh: Weigh, never_spun: Collection[SeamKey], in_turn: frozenset[str]) -> Nested:
    works = order_works(top)
    finder = CrossingFinder(never_spun)
    meetings = {work: finder.meet(work) for work in works}
    costs = {
        (work.id, number): weigh(seam, bulk)
        for work in works
        for number, (seam, bulk) in enumerate(zip(work.seams, meetings[work].bulk, strict=True))
        if not seam.fixed and seam.same_as is None
    }
    crossings = [crossing for work in works for crossing in meetings[work].crossings]
    bonds = [Bond(crossing.first, crossing.second, crossing.alike) for crossing in crossings]
    return Nested(top, works, meetings, solve_pressing(costs, bonds), in_turn)
