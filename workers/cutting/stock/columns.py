"""Strips and pieces worth cutting, found by their prices, and the bound that the prices prove.

Column generation (Gilmore and Gomory 1961); the bound is that of Lagrange with prices scaled as Farley does ("A note
on bounding a class of linear programming problems", Operations Research 38, 1990), both from memory.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil, floor, gcd

from workers.cutting.least.highs import Program
from workers.cutting.stock.filling import StripTable, count_made, fill_height, fill_width
from workers.cutting.stock.first_fit import table_work
from workers.cutting.stock.problem import CutSheet, Sheet, StockProblem, list_ways, ways_on
from workers.cutting.stock.program import Row, add_column, begin_program, find_prices
from workers.cutting.strip_problem import Strip, Strips
from workers.patience import Left, endless

SCALE = 10**7
"""Prices are whole ten-millionths: rounded down, so that they stay prices a bound may be made of."""

MOST_ROUNDS = 400
MOST_WORK = 600_000_000
"""Steps of the knapsacks in all rounds. Counted, not timed, so that two runs give the same plan."""

SLACK = SCALE // 1000


@dataclass(frozen=True)
class Best:
    """What the best strips and the best pieces are worth at some prices."""

    strips: Strips
    strip_values: tuple[int, ...]
    cut: tuple[tuple[Strip, ...], ...]
    cut_values: tuple[int, ...]


@dataclass(frozen=True)
class Fair:
    """Prices of the sizes, and what a step of the roll, or of the cost of a piece bought, is worth by them at most.

    `due` is what all pieces are worth beyond what the pieces at home hold at best: so much is to be bought.
    """

    prices: tuple[int, ...]
    rate: Fraction
    due: int

    @property
    def bound(self) -> Fraction:
        """What no plan can cost less than."""
        return max(Fraction(0), self.due / self.rate) if self.rate else Fraction(0)


@dataclass
class Columns:
    """The columns found so far for a problem, each once, and the best bound so far."""

    problem: StockProblem
    sheets: list[Sheet] = field(init=False)
    strips: dict[Strip, None] = field(default_factory=dict)
    cut: dict[tuple[Sheet, tuple[Strip, ...]], None] = field(default_factory=dict)
    bound: int = 0
    fair: Fair | None = None

    def __post_init__(self) -> None:
        self.sheets = self.problem.sheets

    def collect(self, sheets: Iterable[CutSheet], roll: Strips) -> None:
        """What a plan at hand is made of."""
        for sheet in sheets:
            lying = self.problem.lay(sheet.stock, turned=sheet.turned)
            if lying:
                self.cut[lying, sheet.strips] = None
        self.strips |= dict.fromkeys(roll)

    def generate(self, left: Left = endless) -> None:
        """Adds columns until no price speaks for another one, the work allowed is done, or nothing is `left`."""
        rows = self._rows()
        master = begin_program(rows)
        stocked = dict(zip(self._limited(), range(len(self.problem.sizes), len(rows)), strict=True))
        for strip in self.strips:
            add_column(master, float(strip.height), _made([strip]))
        for sheet, strips in self.cut:
            self._add_cut(master, stocked, sheet, strips)
        for _ in range(min(MOST_ROUNDS, max(10, MOST_WORK // table_work(self.problem)))):
            duals = find_prices(master)
            if left() <= 0 or duals is None or not self._improve(master, stocked, duals):
                return

    def _rows(self) -> list[Row]:
        limits = [self.problem.stock[number].count for number in self._limited()]
        rows = [Row(least=float(size.count)) for size in self.problem.sizes]
        return rows + [Row(most=float(limit or 0)) for limit in limits]

    def _limited(self) -> list[int]:
        return [n for n, piece in enumerate(self.problem.stock) if piece.count is not None]

    def _add_cut(
        self, master: Program, stocked: dict[int, int], sheet: Sheet, strips: tuple[Strip, ...]
    ) -> None:
        entries = _made(strips)
        if sheet.stock in stocked:
            entries[stocked[sheet.stock]] = 1
        add_column(master, float(self.problem.stock[sheet.stock].cost), entries)

    def _improve(self, master: Program, stocked: dict[int, int], duals: Sequence[float]) -> bool:
        """Adds what pays at these prices; whether anything new was found."""
        prices = [max(0, floor(dual * SCALE)) for dual in duals[: len(self.problem.sizes)]]
        best = self._price(prices)
        self.keep_bound(self.weigh(prices, best))
        before = len(self.strips) + len(self.cut)
        for strip, value in zip(best.strips, best.strip_values, strict=True):
            if value > strip.height * SCALE + SLACK and strip not in self.strips:
                self.strips[strip] = None
                add_column(master, float(strip.height), _made([strip]))
        for sheet, strips, value in zip(self.sheets, best.cut, best.cut_values, strict=True):
            due = self.problem.stock[sheet.stock].cost * SCALE
            due += floor(-duals[stocked[sheet.stock]] * SCALE) if sheet.stock in stocked else 0
            if value > due + SLACK and (sheet, strips) not in self.cut:
                self.cut[sheet, strips] = None
                self._add_cut(master, stocked, sheet, strips)
        return len(self.strips) + len(self.cut) > before

    def _price(self, prices: Sequence[int]) -> Best:
        sizes = self.problem.sizes
        strips: list[Strip] = []
        values: list[int] = []
        if self.problem.roll:
            table = fill_width(self.problem.roll, list_ways(sizes, self.problem.roll), sizes, prices)
            strips = [table.strip(height) for height in table.levels]
            values = [value for value, _ in table.levels.values()]
        cut = [fill_height(sheet.height, self.table(sheet, prices)) for sheet in self.sheets]
        return Best(tuple(strips), tuple(values), tuple(s for _, s in cut), tuple(v for v, _ in cut))

    def table(self, sheet: Sheet, prices: Sequence[int]) -> StripTable:
        """The best strips of a piece as it lies, at some prices."""
        sizes = self.problem.sizes
        return fill_width(sheet.width, ways_on(sheet, sizes), sizes, prices)

    def weigh(self, prices: Sequence[int], best: Best) -> Fair:
        """What no plan can cost less than, by whole-number prices of the sizes.

        A strip is worth at most its height times `rate`, a bought piece its cost times `rate`, a piece at home at
        most its best value: what the wanted pieces are worth beyond the pieces at home must be bought.
        """
        rate, at_home = Fraction(0), Counter[int]()
        for strip, value in zip(best.strips, best.strip_values, strict=True):
            rate = max(rate, Fraction(value, strip.height)) if strip.height else rate
        for sheet, value in zip(self.sheets, best.cut_values, strict=True):
            piece = self.problem.stock[sheet.stock]
            if piece.count is None:
                rate = max(rate, Fraction(value, piece.cost))
            else:
                at_home[sheet.stock] = max(at_home[sheet.stock], value * piece.count)
        worth = sum(price * size.count for price, size in zip(prices, self.problem.sizes, strict=True))
        return Fair(tuple(prices), rate, worth - sum(at_home.values()))

    def keep_bound(self, fair: Fair) -> None:
        """The better of two bounds, with the prices that prove it."""
        self.bound = max(self.bound, self.round_up(fair.bound))
        if self.fair is None or fair.bound >= self.fair.bound:
            self.fair = fair

    @property
    def cost_step(self) -> int:
        """What every cost is a multiple of: strips are as high as pieces, bought pieces are whole."""
        if self.problem.roll is None:
            return 1
        return gcd(*(way.along for way in list_ways(self.problem.sizes, self.problem.roll))) or 1

    def round_up(self, cost: Fraction) -> int:
        """Up to the next cost there can be."""
        return ceil(cost / self.cost_step) * self.cost_step

    def weigh_by_area(self) -> None:
        """The bound with each size worth its area."""
        areas = [size.width * size.height for size in self.problem.sizes]
        self.keep_bound(self.weigh(areas, self._price(areas)))


def _made(strips: Iterable[Strip]) -> dict[int, float]:
    return {size: float(count) for size, count in count_made(strips).items()}
