"""What can lie in a strip in columns, and the best of it at given prices: two knapsacks, up a column and across it.

In whole numbers, so that a bound computed from these values is exact.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from workers.cutting.stock.filling import Counts, fill
from workers.cutting.stock.problem import Way
from workers.cutting.strip_problem import Run, Size

Values = NDArray[np.int64]


@dataclass(frozen=True)
class Column:
    """A column `width` steps wide, as high as its strip; runs of pieces lie in it one above the other."""

    width: int
    runs: tuple[Run, ...]


@dataclass(frozen=True)
class StackedStrip:
    """One strip across the roll, cut in columns from left to right."""

    height: int
    columns: tuple[Column, ...]


def count_stacked(strips: Iterable[StackedStrip]) -> Counter[int]:
    """How many pieces of each size some strips give."""
    made = Counter[int]()
    for strip in strips:
        for column in strip.columns:
            for run in column.runs:
                made[run.size] += run.count
    return made


def list_heights(ways: Sequence[Way], highest: int) -> list[int]:
    """Every height up to the highest that pieces above each other come to: no strip need be any other height."""
    reached = np.zeros(highest + 1, bool)
    reached[0] = True
    for along in sorted({way.along for way in ways}):
        for height in range(along, highest + 1):
            reached[height] |= reached[height - along]
    return [int(height) for height in np.flatnonzero(reached)[1:]]


@dataclass(frozen=True)
class ColumnTable:
    """The best column of every width and height: `best[width]` by height, and how many ways are in it."""

    best: dict[int, tuple[Values, int]]
    taken: tuple[tuple[Way, Counts], ...]

    def column(self, width: int, height: int) -> Column:
        """The best column of a width and a height."""
        runs, room = [], height
        for way, taken in reversed(self.taken[: self.best[width][1]]):
            count = int(taken[room])
            if count:
                runs.append((way, count))
                room -= count * way.along
        runs.sort(key=lambda run: (-run[0].across, -run[0].along, run[0].size, run[0].turned))
        widest = max((way.across for way, _ in runs), default=width)
        return Column(widest, tuple(Run(way.size, count, way.turned) for way, count in runs))


def fill_columns(
    highest: int, ways: Sequence[Way], sizes: Sequence[Size], prices: Sequence[int]
) -> ColumnTable:
    """The best column of every width at once: the narrowest pieces first."""
    best = np.zeros(highest + 1, np.int64)
    table: dict[int, tuple[Values, int]] = {}
    taken = []
    for way in sorted(ways, key=lambda one: (one.across, one)):
        if prices[way.size] > 0 and way.along <= highest:
            best, counts = fill(best, way.along, prices[way.size], sizes[way.size].count)
            taken.append((way, counts))
            table[way.across] = (best, len(taken))
    return ColumnTable(table, tuple(taken))


@dataclass(frozen=True)
class StackedTable:
    """The best strips of some heights: `values[x, i]` in room for `x` steps and the i-th height."""

    width: int
    heights: tuple[int, ...]
    columns: ColumnTable
    values: Values

    def strip(self, index: int) -> StackedStrip:
        """The best strip of the height with this index."""
        height, room, columns = self.heights[index], self.width, []
        while room:
            here = self.values[room, index]
            for width, (best, _) in self.columns.best.items():
                if width <= room and best[height] and self.values[room - width, index] + best[height] == here:
                    columns.append(self.columns.column(width, height))
                    room -= width
                    break
            else:
                room -= 1
        columns.sort(key=lambda column: (-column.width, column.runs))
        return StackedStrip(height, tuple(columns))


def fill_stacked(width: int, heights: Sequence[int], columns: ColumnTable) -> StackedTable:
    """The best strip of every height at once, out of the best columns; any column as often as there is room."""
    values = np.zeros((width + 1, len(heights)), np.int64)
    at = np.array(heights, np.intp)
    worth = [(across, best[at]) for across, (best, _) in columns.best.items()]
    for room in range(1, width + 1):
        here = values[room]
        np.copyto(here, values[room - 1])
        for across, value in worth:
            if across <= room:
                np.maximum(here, values[room - across] + value, out=here)
    return StackedTable(width, tuple(heights), columns, values)
