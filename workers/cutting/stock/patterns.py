"""Every strip and every way to stand strips in a piece that a good plan could use, where they are few enough to list.

What wastes so much that no plan with it can be good is left out: a good plan's waste is known from the prices.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import islice

from workers.cutting.stock.filling import make_strip
from workers.cutting.stock.problem import Way
from workers.cutting.strip_problem import Size, Strip

MOST_STRIPS, MOST_HEIGHTS = 2000, 800
MOST_TRIES = 10_000
"""So many are looked at for one height; with more, the list is given up."""

Heights = tuple[int, ...]
"""The heights of the strips in one piece, the tallest first."""

Runs = tuple[tuple[Way, int], ...]
Need = Callable[[int], int]
"""By height: the least that a strip so high must be worth."""


def list_full_strips(
    width: int, ways: Sequence[Way], sizes: Sequence[Size], prices: Sequence[int], need: Need
) -> list[Strip] | None:
    """Every strip that is worth enough and into which nothing more fits that is no higher; None for too many."""
    found: dict[Strip, None] = {}
    for level in sorted({way.along for way in ways}):
        # the narrowest last: filled with it, a strip has room for nothing wider
        inside = sorted((way for way in ways if way.along <= level), key=lambda way: (-way.across, way))
        search = _Filling(tuple(inside), sizes, prices, need(level))
        tried = _list_some(search.fill(width, 0, (), 0))
        if tried is None:
            return None
        for runs in tried:
            if any(way.along == level for way, _ in runs) and not _has_room(width, runs, inside, sizes):
                found[make_strip(runs)] = None
        if len(found) > MOST_STRIPS:
            return None
    return list(found)


def _list_some(tried: Iterator[Runs | None]) -> list[Runs] | None:
    """What was found in not too many tries, else None."""
    some = list(islice(tried, MOST_TRIES + 1))
    return None if len(some) > MOST_TRIES else [runs for runs in some if runs]


@dataclass
class _Filling:
    """A search for strips worth at least `need`; None stands for a try that led nowhere."""

    ways: tuple[Way, ...]
    sizes: Sequence[Size]
    prices: Sequence[int]
    need: int

    def __post_init__(self) -> None:
        densities = [Fraction(self.prices[way.size], way.across) for way in self.ways]
        self.densest = _falling(densities)

    def fill(self, room: int, at: int, runs: Runs, value: int) -> Iterator[Runs | None]:
        """Every filling of the room with the ways from one on."""
        rest = self.densest[at] * room if at < len(self.ways) else Fraction(0)
        if value + rest < self.need:
            yield None
            return
        if at == len(self.ways):
            yield runs
            return
        way, last = self.ways[at], at + 1 == len(self.ways)
        taken = sum(count for other, count in runs if other.size == way.size)
        most = min(room // way.across, self.sizes[way.size].count - taken)
        for count in range(most, most - 1 if last else -1, -1):
            more = ((way, count),) if count else ()
            gain = count * self.prices[way.size]
            yield from self.fill(room - count * way.across, at + 1, runs + more, value + gain)


def _falling(values: Iterable[Fraction]) -> list[Fraction]:
    """The largest from each place on."""
    largest: list[Fraction] = []
    for value in reversed(list(values)):
        largest.append(max(value, largest[-1]) if largest else value)
    return largest[::-1]


def _has_room(width: int, runs: Runs, ways: Sequence[Way], sizes: Sequence[Size]) -> bool:
    room = width - sum(way.across * count for way, count in runs)
    taken = Counter[int]()
    for way, count in runs:
        taken[way.size] += count
    return any(way.across <= room and taken[way.size] < sizes[way.size].count for way in ways)


def list_full_heights(height: int, worth: dict[int, int], need: int) -> list[Heights] | None:
    """Every way to stand strips so that no further one fits, and all together are worth enough; None for too many.

    `worth` says what a strip of each height is worth at most.
    """
    levels = sorted(worth, reverse=True)
    densest = _falling(Fraction(worth[level], level) for level in levels)

    def stand(room: int, at: int, taken: Heights, value: int) -> Iterator[Heights | None]:
        if at == len(levels) or value + densest[at] * room < need:
            yield taken if value >= need else None
            return
        level, last = levels[at], at + 1 == len(levels)
        most = room // level
        for count in range(most, most - 1 if last else -1, -1):
            heights = taken + (level,) * count
            yield from stand(room - count * level, at + 1, heights, value + count * worth[level])

    some = list(islice(stand(height, 0, (), 0), MOST_TRIES + 1))
    found = [heights for heights in some if heights]
    return found if len(some) <= MOST_TRIES and len(found) <= MOST_HEIGHTS else None
