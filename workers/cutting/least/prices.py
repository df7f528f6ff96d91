"""The best strip of every height at once, for given prices of the pieces: one table over the width of the cloth.

A strip of a height may hold every way that is no higher. With the ways in rising order of height, the bounded
knapsack over the first few of them is the knapsack of that height (Gilmore and Gomory, "Multistage cutting stock
problems of two and more dimensions", Operations Research 13 (1965) 94-120). Prices are whole numbers, `SCALE` to a
unit of length, so that what is compared is exact.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

import numpy as np
import numpy.typing as npt

from workers.cutting.least.field import Field, Pattern

SCALE = 1 << 20
Prices = tuple[int, ...]
Table = npt.NDArray[np.int64]


@dataclass(frozen=True)
class Worth:
    """The most that a strip of each height can be worth, and the patterns worth more than their height."""

    best: dict[int, int]
    patterns: tuple[Pattern, ...]


def price_strips(field: Field, prices: Prices) -> Worth:
    """The most a strip of each height is worth at these prices, and one best pattern of each that is worth more."""
    lots = _lots(field, prices)
    table = _table(field, prices, lots)
    ends: dict[int, int] = {}
    for row, (way, _) in enumerate(lots, start=1):
        ends[field.ways[way].along] = row
    best, patterns = {}, []
    for height, row in ends.items():
        best[height] = int(table[row, field.width])
        if best[height] > height * SCALE:
            patterns.append(_trace(field, lots, table, row))
    return Worth(best, tuple(patterns))


def _lots(field: Field, prices: Prices) -> list[tuple[int, int]]:
    """Each way in lots of 1, 2, 4... pieces and a rest: any number up to the most can be put together."""
    lots = []
    for number, way in enumerate(field.ways):
        left, lot = field.most[number] if prices[way.size] else 0, 1
        while left:
            lot = min(lot, left)
            lots.append((number, lot))
            left -= lot
            lot *= 2
    return lots


def _table(field: Field, prices: Prices, lots: list[tuple[int, int]]) -> Table:
    table = np.zeros((len(lots) + 1, field.width + 1), dtype=np.int64)
    for row, (number, count) in enumerate(lots):
        way = field.ways[number]
        room, before, after = way.across * count, table[row], table[row + 1]
        after[:room] = before[:room]
        np.add(before[: before.size - room], prices[way.size] * count, out=after[room:])
        np.maximum(after[room:], before[room:], out=after[room:])
    return table


def _trace(field: Field, lots: list[tuple[int, int]], table: Table, row: int) -> Pattern:
    room, counts = field.width, dict[int, int]()
    while row:
        number, count = lots[row - 1]
        if table[row, room] != table[row - 1, room]:
            counts[number] = counts.get(number, 0) + count
            room -= count * field.ways[number].across
        row -= 1
    listed = tuple(sorted(counts.items()))
    return Pattern(max(field.ways[number].along for number, _ in listed), listed)


def worth_of_demand(field: Field, prices: Prices) -> int:
    """What all pieces wanted are worth together."""
    return sum(price * wanted for price, wanted in zip(prices, field.demand, strict=True))


def fair_prices(prices: Prices, worth: Worth) -> Prices:
    """The same prices, lowered until no strip is worth more than its height.

    Then what all the pieces are worth is a length that no plan can go below (Farley, "A note on bounding a class of
    linear programming problems", Operations Research 38 (1990) 922-923).
    """
    over = max((Fraction(value, height * SCALE) for height, value in worth.best.items()), default=Fraction(1))
    if over <= 1:
        return prices
    return tuple(price * over.denominator // over.numerator for price in prices)
