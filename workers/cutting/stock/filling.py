"""The best strip of a width and the best piece of a height, at given prices: two knapsacks, in whole numbers.

Gilmore and Gomory, "Multistage cutting stock problems of two and more dimensions", Operations Research 13 (1965),
from memory. Whole numbers, so that a bound computed from these values is exact.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from workers.cutting.stock.problem import Way
from workers.cutting.strip_problem import Run, Size, Strip

Counts = NDArray[np.int32]


def fill(best: NDArray[np.int64], side: int, value: int, most: int) -> tuple[NDArray[np.int64], Counts]:
    """A knapsack with up to `most` more pieces of one kind in it; how many are taken at each room.

    `best[x]` is the best value in room for `x` steps. Takes len(best) * most operations.
    """
    better, taken = best.copy(), np.zeros(len(best), np.int32)
    for count in range(1, min((len(best) - 1) // side, most) + 1):
        more = best[: len(best) - count * side] + count * value
        gains = more > better[count * side :]
        better[count * side :][gains] = more[gains]
        taken[count * side :][gains] = count
    return better, taken


@dataclass(frozen=True)
class StripTable:
    """The best strips of one width: `levels` maps each height to its value and how many ways come before."""

    width: int
    levels: dict[int, tuple[int, int]]
    taken: tuple[tuple[Way, Counts], ...]

    def strip(self, height: int) -> Strip:
        """The best strip of a height among the levels; its own height is that of its tallest piece."""
        runs, room = [], self.width
        for way, taken in reversed(self.taken[: self.levels[height][1]]):
            count = int(taken[room])
            if count:
                runs.append((way, count))
                room -= count * way.across
        return make_strip(runs)


def make_strip(runs: Sequence[tuple[Way, int]]) -> Strip:
    """A strip as high as the tallest of its pieces, which come first."""
    ordered = sorted(runs, key=lambda run: (-run[0].along, -run[0].across, run[0].size, run[0].turned))
    height = ordered[0][0].along if ordered else 0
    return Strip(height, tuple(Run(way.size, count, way.turned) for way, count in ordered))


def count_made(strips: Iterable[Strip]) -> Counter[int]:
    """How many pieces of each size some strips give."""
    made = Counter[int]()
    for strip in strips:
        for run in strip.runs:
            made[run.size] += run.count
    return made


def take(wanted: Sequence[Size], strips: Iterable[Strip]) -> list[Size]:
    """What is still wanted of each size when these strips are cut; never less than nothing."""
    made = count_made(strips)
    return [replace(size, count=max(0, size.count - made[n])) for n, size in enumerate(wanted)]


def fill_width(width: int, ways: Sequence[Way], sizes: Sequence[Size], prices: Sequence[int]) -> StripTable:
    """The best strip of every height at once; `ways` come the lowest first."""
    best = np.zeros(width + 1, np.int64)
    levels: dict[int, tuple[int, int]] = {}
    taken = []
    for way in ways:
        if prices[way.size] > 0:
            best, counts = fill(best, way.across, prices[way.size], sizes[way.size].count)
            taken.append((way, counts))
            levels[way.along] = (int(best[width]), len(taken))
    return StripTable(width, levels, tuple(taken))


def stand_strips(height: int, table: StripTable) -> tuple[NDArray[np.int64], list[tuple[int, Counts]]]:
    """What strips of the table are worth in every height up to one, and how many of each height are taken."""
    best = np.zeros(height + 1, np.int64)
    taken = []
    for along, (value, _) in table.levels.items():
        best, counts = fill(best, along, value, height)
        taken.append((along, counts))
    return best, taken


def fill_height(height: int, table: StripTable) -> tuple[int, tuple[Strip, ...]]:
    """The best piece of a height cut in strips of the table: its value and its strips."""
    best, taken = stand_strips(height, table)
    strips: list[Strip] = []
    room = height
    for along, counts in reversed(taken):
        count = int(counts[room])
        strips += [table.strip(along)] * count
        room -= count * along
    return int(best[height]), tuple(strips)
