"""What strips must be worth to lie in a good plan, by the prices that prove the bound.

A plan pays for waste: what its strips and pieces are worth less than they could be is lost to it. A plan that costs no
more than one at hand can lose no more than lies between that and the bound.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil

import numpy as np
from numpy.typing import NDArray

from workers.cutting.stock.columns import Columns, Fair
from workers.cutting.stock.filling import StripTable, stand_strips
from workers.cutting.stock.patterns import Heights, list_full_heights, list_full_strips
from workers.cutting.stock.problem import Sheet, ways_on
from workers.cutting.strip_problem import Size, Strip


@dataclass(frozen=True)
class SheetWorth:
    """A piece as it lies: its best strips, what they are worth in every height, and the most it counts for."""

    table: StripTable
    by_height: NDArray[np.int64]
    top: Fraction


@dataclass(frozen=True)
class Worth:
    """Fair prices, what a good plan can lose by them, and what each piece is worth."""

    fair: Fair
    slack: Fraction
    sheets: Mapping[Sheet, SheetWorth]

    @property
    def prices(self) -> tuple[int, ...]:
        """The prices of the sizes."""
        return self.fair.prices

    def of_roll(self, height: int) -> int:
        """The least that a strip of the roll must be worth."""
        return ceil(height * self.fair.rate - self.slack)

    def list_for(
        self, sheet: Sheet, sizes: Sequence[Size]
    ) -> tuple[list[Strip] | None, list[Heights] | None]:
        """Every strip of a piece as it lies, and every way to stand them, that are worth enough."""
        known, ways = self.sheets[sheet], ways_on(sheet, sizes)

        def need(height: int) -> int:
            return ceil(known.top - int(known.by_height[sheet.height - height]) - self.slack)

        strips = list_full_strips(sheet.width, ways, sizes, self.prices, need)
        by_level, most = {}, 0
        for level in sorted({way.along for way in ways}):
            most = max(most, known.table.levels.get(level, (0, 0))[0])
            by_level[level] = most
        return strips, list_full_heights(sheet.height, by_level, ceil(known.top - self.slack))


def find_worth(columns: Columns, most: int) -> Worth:
    """For plans that cost `most` or less; `columns` have a bound with its prices."""
    fair = columns.fair
    if fair is None:
        raise ValueError("there are no prices yet")
    tables = {sheet: columns.table(sheet, fair.prices) for sheet in columns.sheets}
    by_height = {sheet: stand_strips(sheet.height, table)[0] for sheet, table in tables.items()}
    tops: dict[int, int] = {}
    for sheet, values in by_height.items():
        tops[sheet.stock] = max(tops.get(sheet.stock, 0), int(values[sheet.height]))

    def top(sheet: Sheet) -> Fraction:
        piece = columns.problem.stock[sheet.stock]
        return fair.rate * piece.cost if piece.count is None else Fraction(tops[sheet.stock])

    sheets = {sheet: SheetWorth(tables[sheet], values, top(sheet)) for sheet, values in by_height.items()}
    return Worth(fair, most * fair.rate - fair.due, sheets)
