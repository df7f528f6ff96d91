"""Stacked strips worth cutting, found by their prices, and the bound that the prices prove.

Column generation, the bound scaled as Farley does ("A note on bounding a class of linear programming problems",
Operations Research 38, 1990; from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
from math import ceil, floor, gcd

from workers.cutting.stacked.stacks import (
    StackedStrip,
    StackedTable,
    count_stacked,
    fill_columns,
    fill_stacked,
    list_heights,
)
from workers.cutting.stock.problem import Way, list_ways
from workers.cutting.stock.program import Row, add_column, begin_program, find_prices
from workers.cutting.strip_problem import Problem, Size

SCALE = 10**7
SLACK = SCALE // 1000

MOST_ROUNDS = 200
MOST_WORK = 400_000_000
"""Steps of the knapsacks in all rounds. Counted, not timed, so that two runs give the same plan."""

MOST_CELLS = 4_000_000
"""A table of every width and height is no larger."""

NEW_STRIPS = 12
"""So many of the best strips are taken up in a round."""


@dataclass
class Stacks:
    """The strips found so far, each once, and the best bound; no strip is higher than `highest` steps."""

    problem: Problem
    highest: int
    strips: dict[StackedStrip, None] = field(default_factory=dict)
    bound: int = 0
    work: int = 0
    ways: list[Way] = field(init=False)

    def __post_init__(self) -> None:
        fitting = list_ways(self.problem.sizes, self.problem.width)
        self.ways = [way for way in fitting if way.along <= self.highest]

    @cached_property
    def heights(self) -> list[int]:
        """Every height a strip can have."""
        return list_heights(self.ways, self.highest)

    @property
    def fine(self) -> bool:
        """Whether the steps are too fine for tables of every width and height."""
        return self.problem.width * self.highest > MOST_CELLS

    def generate(self, sizes: Sequence[Size]) -> list[tuple[StackedStrip, float]]:
        """Adds strips until no price speaks for another; how often each is cut, in fractions.

        `sizes` are those of the problem with what is wanted of them now; a bound is kept for the whole problem only.
        """
        master = begin_program([Row(least=float(size.count)) for size in sizes])
        known = list(self.strips)
        for strip in known:
            add_column(master, float(strip.height), _made(strip))
        for _ in range(MOST_ROUNDS):
            duals = find_prices(master)
            if duals is None or self.work > MOST_WORK:
                break
            prices = [max(0, floor(dual * SCALE)) for dual in duals]
            table = self.price(sizes, prices)
            if tuple(sizes) == self.problem.sizes:
                self.bound = max(self.bound, self.bound_of(table, prices))
            fresh = self._take_up(table)
            if not fresh:
                break
            for strip in fresh:
                add_column(master, float(strip.height), _made(strip))
            known += fresh
        shares = master.solve().values
        return [] if shares is None else [(strip, float(x)) for strip, x in zip(known, shares, strict=True)]

    def price(self, sizes: Sequence[Size], prices: Sequence[int]) -> StackedTable:
        """The best strip of every height at some prices."""
        columns = fill_columns(self.highest, self.ways, sizes, prices)
        self.work += self.problem.width * len(self.heights) * max(1, len(columns.best))
        return fill_stacked(self.problem.width, self.heights, columns)

    def _take_up(self, table: StackedTable) -> list[StackedStrip]:
        """The strips that pay best for their height, as far as they are new."""
        best = table.values[-1]
        paying = [i for i, height in enumerate(self.heights) if best[i] > height * SCALE + SLACK]
        paying.sort(key=lambda i: (-Fraction(int(best[i]), self.heights[i]), i))
        fresh = [strip for strip in map(table.strip, paying[:NEW_STRIPS]) if strip not in self.strips]
        self.strips |= dict.fromkeys(fresh)
        return fresh

    def bound_of(self, table: StackedTable, prices: Sequence[int]) -> int:
        """What no plan in strips of these heights is shorter than: the worth of all pieces over the best of a step."""
        best = [int(value) for value in table.values[-1]]
        rate = max((Fraction(v, h) for v, h in zip(best, self.heights, strict=True)), default=Fraction(0))
        if not rate:
            return 0
        worth = sum(price * size.count for price, size in zip(prices, self.problem.sizes, strict=True))
        step = gcd(*(way.along for way in self.ways))
        return ceil(Fraction(worth) / rate / step) * step

    def bound_by_area(self) -> int:
        """The bound with each size worth its area."""
        areas = [size.width * size.height for size in self.problem.sizes]
        return self.bound_of(self.price(self.problem.sizes, areas), areas)


def _made(strip: StackedStrip) -> dict[int, float]:
    return {size: float(count) for size, count in count_stacked([strip]).items()}
