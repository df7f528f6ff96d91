"""Which seams are spun, which copies are made alike, and which side every seam is pressed to.

The fewest crossings of the top that do not nest come first, over all ways of pressing each copy for itself. Of ways
with as many, the one in which the most copies are made alike; then seams are spun where a spin serves.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import combinations

from workers.sewing.copies import UnfoldedTop
from workers.sewing.crossings import Crossing, CrossingFinder, Meetings, SeamKey, Spin, seam_key
from workers.sewing.least_failing import FewestFailing, LeastFailing, join_all
from workers.sewing.ordering import count_copies, order_works
from workers.sewing.piles import Piles, PileSearch, lay_in_piles
from workers.sewing.pressing import Bond, Pressing, solve_pressing
from workers.sewing.works import Laid, SeamLine, Work

MOST_SPUN_APART = 3
"""Works that can be spun up to which every choice of them is tried."""

Weigh = Callable[[SeamLine, tuple[int, int]], tuple[float, float]]
"""The cost of pressing a seam to the left and to the right, by what ends on it from either side."""


@dataclass(frozen=True)
class Nested:
    """One way of pressing a top: its works in order, what meets in them, and the side of every seam.

    `at_least` is how many crossings of the top fail however each copy is pressed, `piles_at_least` how many piles of
    copies made alike any way takes in which the same fail.
    """

    top: Work
    works: list[Work]
    meetings: dict[Work, Meetings]
    pressing: Pressing[SeamKey]
    at_least: int
    piles_at_least: int

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
    def lost_spins(self) -> frozenset[str]:
        """The works with a spun seam and a crossing on it that fails: a spin needs seams that nest."""
        failing = {(crossing.work, crossing.across) for crossing in self.failing}
        return frozenset(work for work, _ in failing & self.spins.keys())

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
    """The best way of pressing a top: the fewest crossings that do not nest over all ways of pressing each copy, then
    the fewest piles of copies that are made alike, then as many spun seams as may be."""
    assert isinstance(top.piece, Work), "the top is always a work"  # noqa: S101
    whole = top.piece
    alike = press_with_spins(whole, weigh)
    if not alike.failing:
        return alike
    plain = _press(whole, weigh, None)
    unfolded = UnfoldedTop(whole, plain.meetings)
    least = LeastFailing(unfolded)
    fewest = least.search()
    if alike.failing_in_top <= fewest.at_least:
        return replace(alike, at_least=fewest.at_least)
    tried = [least.with_spun(spun) for spun in (*_spin_alike(unfolded), fewest.spun)]
    found = dict.fromkeys(way for way in tried if way and len(way.failing) == len(fewest.failing))
    search = _FewestPiles(unfolded, least)
    piles, way = min(((search.find(way), way) for way in found), key=lambda pair: pair[0].count)
    best = search.lay(search.find(way, piles), way, weigh)
    return replace(best, at_least=fewest.at_least)


def _spin_alike(unfolded: UnfoldedTop) -> Iterator[frozenset[int]]:
    """Choices of copies to spin in which copies of one work are spun alike: most spun first, none last."""
    copies: dict[Work, list[int]] = {}
    for could in unfolded.could_spin:
        copies.setdefault(unfolded.copies[could.copy].work, []).append(could.copy)
    each = list(copies.values())
    sizes = range(len(each), -1, -1) if len(each) <= MOST_SPUN_APART else (len(each), 0)
    for size in sizes:
        for chosen in combinations(each, size):
            yield frozenset(copy for listed in chosen for copy in listed)


class _FewestPiles:
    """The fewest piles of one unfolded top."""

    def __init__(self, unfolded: UnfoldedTop, least: LeastFailing) -> None:
        self._top, self._least = unfolded, least

    def find(self, way: FewestFailing, known: Piles | None = None) -> Piles:
        """With these crossings failing, and what is spun as it is there; with piles `known`, it is open."""
        return self._begin(way, known).search(known)

    def lay(self, piles: Piles, way: FewestFailing, weigh: Weigh) -> Nested:
        """The top in these piles."""
        search = self._begin(replace(way, spun=piles.spun), None)
        made = lay_in_piles(self._top, piles, search.find_ways(piles))
        could = {could.copy for could in self._top.could_spin}
        plain = frozenset(made[copy].id for copy in made if copy in could - piles.spun)
        nested = press_with_spins(made[len(self._top.copies) - 1], weigh, plain)
        return replace(nested, piles_at_least=piles.at_least)

    def _begin(self, way: FewestFailing, known: Piles | None) -> PileSearch:
        could = list(enumerate(self._top.could_spin))
        crossed_fail = {i for i, spin in could if not way.failing.isdisjoint(spin.crossed)}
        fixed = {i: spin.copy in way.spun for i, spin in could if known is None or i in crossed_fail}
        kept = [link for i, link in enumerate(self._top.links) if i not in way.failing]
        parity = join_all(self._top.size, [*self._least.bind(fixed), *kept])
        assert parity is not None, "what is kept contradicts nothing"  # noqa: S101
        return PileSearch(self._top, parity, [spin for i, spin in could if i not in fixed])


def press_with_spins(top: Work, weigh: Weigh, never_spun: frozenset[str] = frozenset()) -> Nested:
    """The top as it is laid, copies of one work pressed alike.

    Spin every seam that can be, but for those whose crossing then fails; none where that leaves fewer failing.
    """
    spun = first = _press(top, weigh, never_spun)
    while lost := spun.lost_spins:
        never_spun = never_spun | lost
        spun = _press(top, weigh, never_spun)
    if not spun.failing or not first.spins:
        return spun
    plain = _press(top, weigh, None)
    return plain if plain.failing_in_top < spun.failing_in_top else spun


def _press(top: Work, weigh: Weigh, never_spun: frozenset[str] | None) -> Nested:
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
    counts = {work.id: count for work, count in count_copies(works).items()}
    bonds = [
        Bond(crossing.first, crossing.second, crossing.alike, counts[crossing.work]) for crossing in crossings
    ]
    pressing = solve_pressing(costs, bonds)
    return Nested(top, works, meetings, pressing, pressing.at_least, len({work.stage for work in works}))
