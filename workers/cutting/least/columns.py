"""Column generation: the linear program of strips over the patterns that matter, found as they are needed.

Gilmore and Gomory (1965) for the patterns, Farley (1990) for the bound: see `prices`.
"""

from __future__ import annotations

from dataclasses import dataclass

from workers.cutting.least.field import Field, Pattern
from workers.cutting.least.highs import INFINITY, Program
from workers.cutting.least.prices import (
    SCALE,
    Prices,
    fair_prices,
    price_strips,
    worth_of_demand,
)
from workers.patience import Left, endless

# So many rounds bring sixty sizes to their end; more than that is a cloth nobody cuts.
ROUNDS = 400


@dataclass(frozen=True)
class Relaxed:
    """Where column generation ended: patterns and how often each, in parts too; fair prices and what they say.

    `bound` is the worth of all pieces at the fair `prices`, times SCALE: no plan is shorter.
    """

    patterns: tuple[Pattern, ...]
    shares: tuple[float, ...]
    prices: Prices
    bound: int

    @property
    def least(self) -> int:
        """The length no plan goes below, in the field's units."""
        return -(-self.bound // SCALE)

    def loss(self, field: Field, pattern: Pattern) -> int:
        """What a strip's height exceeds its worth, times SCALE: never below nothing."""
        worth = sum(self.prices[field.ways[way].size] * count for way, count in pattern.counts)
        return pattern.height * SCALE - worth


def relax(field: Field, left: Left = endless) -> Relaxed:
    """The linear program of the field's strips, solved over all patterns, or those found until nothing is `left`."""
    program = Program()
    for wanted in field.demand:
        program.add_row(float(wanted), INFINITY)
    patterns: dict[Pattern, int] = {}
    for number, way in enumerate(field.ways):
        if field.most[number]:
            _add(field, program, patterns, Pattern(way.along, ((number, field.most[number]),)))
    best: tuple[int, Prices] = (-1, ())
    shares: tuple[float, ...] = ()
    for _ in range(ROUNDS):
        answer = program.solve()
        if answer.values is None:
            raise RuntimeError("the linear program of strips has no answer, though each size fits")
        shares = tuple(float(value) for value in answer.values)
        prices = tuple(max(0, int(price * SCALE)) for price in answer.row_prices)
        worth = price_strips(field, prices)
        fair = fair_prices(prices, worth)
        best = max(best, (worth_of_demand(field, fair), fair))
        if not [p for p in worth.patterns if _add(field, program, patterns, p)] or left() <= 0:
            break
    shares += (0.0,) * (len(patterns) - len(shares))
    return Relaxed(tuple(patterns), shares, best[1], best[0])


def _add(field: Field, program: Program, patterns: dict[Pattern, int], pattern: Pattern) -> bool:
    if pattern in patterns:
        return False
    terms = [(size, float(count)) for size, count in sorted(field.made(pattern).items())]
    patterns[pattern] = program.add_column(float(pattern.height), INFINITY, terms)
    return True
