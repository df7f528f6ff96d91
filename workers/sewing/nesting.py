"""Which seams are spun, which copies are pressed in turn, and which side every seam is pressed to.

The fewest crossings of the top that do not nest come first. Of ways with as many, seams are spun where a spin serves,
and copies are pressed alike.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable
from dataclasses import dataclass
from functools import cached_property
from itertools import product

from workers.sewing.alternating import GROUPS, Group, Turned, alternate, find_turned
from workers.sewing.crossings import Crossing, CrossingFinder, Meetings, SeamKey, Spin, seam_key
from workers.sewing.ordering import count_copies, order_works
from workers.sewing.pressing import Bond, Pressing, solve_pressing
from workers.sewing.works import Laid, SeamLine, Work

Weigh = Callable[[SeamLine, tuple[int, int]], tuple[float, float]]
"""The cost of pressing a seam to the left and to the right, by what ends on it from either side."""

MOST_LEFT_OUT = 10
"""How many works of which some copies are pressed another way are tried alike again."""


@dataclass(frozen=True)
class Nested:
    """One way of pressing a top: its works in order, what meets in them, and the side of every seam."""

    top: Work
    works: list[Work]
    meetings: dict[Work, Meetings]
    pressing: Pressing[SeamKey]
    never_spun: frozenset[SeamKey] = frozenset()

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

    @cached_property
    def spun(self) -> frozenset[SeamKey]:
        """The seams that are spun, by their stage."""
        stages = {work.id: work.stage for work in self.works}
        return frozenset((stages[work], number) for work, number in self.spins)

    @cached_property
    def lost_spins(self) -> frozenset[SeamKey]:
        """The spun seams, by their stage, with a crossing that fails: a spin needs seams that nest."""
        stages = {work.id: work.stage for work in self.works}
        failing = {(crossing.work, crossing.across) for crossing in self.failing}
        return frozenset((stages[work], number) for work, number in failing & self.spins.keys())

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
    def twins_pressed_apart(self) -> set[str]:
        """The stages of works whose twin is pressed another way."""
        sides: dict[str, set[tuple[int | None, ...]]] = defaultdict(set)
        for work in self.works:
            keys = (seam_key(work, number) for number in range(len(work.seams)))
            sides[work.stage].add(tuple(self.pressing.sides.get(key) for key in keys))
        return {stage for stage, ways in sides.items() if len(ways) > 1}

    @cached_property
    def served_by_none(self) -> frozenset[SeamKey]:
        """Seams that meet nothing but copies of themselves the wrong way round, whatever side they take."""
        kept = {key for c in self.crossings for key in (c.first, c.second) if c.first != c.second or c.alike}
        shared = {(w.id, s.same_as) for w in self.works for s in w.seams if s.same_as is not None}
        spun = {spin.by for spin in self.spins.values()}
        return frozenset({c.first for c in self.failing} - kept - shared - spun)


def find_nesting(top: Laid, weigh: Weigh) -> Nested:
    """The best way found of pressing a top. Copies are pressed in two ways only where that leaves fewer crossings."""
    assert isinstance(top.piece, Work), "the top is always a work"  # noqa: S101
    whole = top.piece
    alike = best = press_with_spins(whole, weigh)
    if not alike.failing:
        return alike
    every = _press(whole, weigh, frozenset())
    without = _press(whole, weigh, every.spun)
    bases = {base.never_spun: base for base in (every, _press(whole, weigh, alike.never_spun), without)}
    for group, base in product(GROUPS, bases.values()):
        turned = find_turned(base.works, base.crossings, group)
        in_turn = press_with_spins(alternate(whole, turned, group), weigh, base.never_spun)
        if in_turn.failing_in_top < best.failing_in_top:
            best = _leave_out(base, turned, group, in_turn, weigh)
        if not best.failing:
            break
    return best


def _rank(nested: Nested) -> tuple[int, int]:
    """Fewest crossings that fail, then fewest works pressed in two ways."""
    return nested.failing_in_top, len(nested.twins_pressed_apart)


def _leave_out(base: Nested, turned: Turned, group: Group, best: Nested, weigh: Weigh) -> Nested:
    """Press alike again what need not be pressed in two ways: large things first, since many seams hang on them."""
    pieces = {(work.id, i): item.piece for work in base.works for i, item in enumerate(work.items)}
    order = [work for work in reversed(base.works) if any(pieces[slot] is work for slot, _ in turned)]
    for left_out in order[:MOST_LEFT_OUT]:
        fewer = frozenset(place for place in turned if pieces[place[0]] is not left_out)
        tried = press_with_spins(alternate(base.top, fewer, group), weigh, base.never_spun)
        if _rank(tried) <= _rank(best):
            best, turned = tried, fewer
    return best


def press_with_spins(top: Work, weigh: Weigh, never_spun: frozenset[SeamKey] = frozenset()) -> Nested:
    """The top as it is laid, copies of one work pressed alike.

    Spin every seam that can be, but for those whose crossing then fails; none where that leaves fewer failing.
    """
    spun = first = _press(top, weigh, never_spun)
    while lost := spun.lost_spins:
        spun = _press(top, weigh, spun.never_spun | lost)
    if not spun.failing or not first.spins:
        return spun
    plain = _press(top, weigh, never_spun | first.spun)
    return plain if plain.failing_in_top < spun.failing_in_top else spun


def _press(top: Work, weigh: Weigh, never_spun: frozenset[SeamKey]) -> Nested:
    works = order_works(top)
    finder = CrossingFinder(never_spun)
    meetings = {work: finder.meet(work) for work in works}
    costs = {
        seam_key(work, number): weigh(seam, bulk)
        for work in works
        for number, (seam, bulk) in enumerate(zip(work.seams, meetings[work].bulk, strict=True))
        if not seam.fixed and seam.same_as is None
    }
    crossings = [crossing for work in works for crossing in meetings[work].crossings]
    bonds = [Bond(crossing.first, crossing.second, crossing.alike) for crossing in crossings]
    return Nested(top, works, meetings, solve_pressing(costs, bonds), never_spun)
