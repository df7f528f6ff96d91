"""Is there a plan within a given length? Patterns in whole numbers, and how many strips of each height they come to.

The numbers of strips of each height, and of at least each height, are columns of their own. Each is a whole number,
so the least and the most that the linear program allows are rounded inwards; that often shows, without any branching,
that no plan is that short. It is the tightening of bounds known from global optimisation, done for sums of columns.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor

from workers.cutting.least.field import Field
from workers.cutting.least.highs import INFINITY, Answer, End, Program
from workers.cutting.least.plans import Plan
from workers.cutting.least.prices import SCALE, Prices
from workers.cutting.least.within import Offer

# What a linear program's answer may be off by when it is rounded to whole strips.
SLACK = 1e-5


@dataclass(frozen=True)
class Limits:
    """Between which lengths a plan is looked for, and what its pieces are worth at fair prices."""

    least: int
    most: int
    prices: Prices
    bound: int

    @property
    def loss(self) -> int:
        """What all strips of such a plan together lose at most, times SCALE."""
        return self.most * SCALE - self.bound


@dataclass
class _Count:
    """Strips of one height or of several, by their columns, and the numbers that sum can still have."""

    columns: tuple[int, ...]
    row: int
    low: int
    high: int


class StripModel:
    """The program of plans between two lengths over given patterns.

    `sums`: it also counts the strips of at least each height, which proves more and takes longer to search.
    """

    def __init__(self, field: Field, offers: Sequence[Offer], limits: Limits, *, sums: bool) -> None:
        self._limits = limits
        self._patterns = [offer.pattern for offer in offers]
        self._program = Program()
        self._highest = [_most_strips(field, offer, limits) for offer in offers]
        self._cover(field)
        heights = sorted({pattern.height for pattern in self._patterns})
        rows = {height: self._program.add_row(0.0, 0.0) for height in heights}
        for pattern, highest in zip(self._patterns, self._highest, strict=True):
            terms = [(size, float(count)) for size, count in sorted(field.made(pattern).items())]
            terms.append((rows[pattern.height], 1.0))
            self._program.add_column(0.0, float(highest), terms, whole=True)
        self._costs = {
            self._program.add_column(float(height), INFINITY, [(row, -1.0)], whole=True): float(height)
            for height, row in rows.items()
        }
        self._program.add_row(
            float(limits.least) if sums else 0.0, float(limits.most), list(self._costs.items())
        )
        self._counts = self._count(sums)

    def _cover(self, field: Field) -> None:
        for wanted, price in zip(field.demand, self._limits.prices, strict=True):
            over = self._limits.loss // price if price else None
            self._program.add_row(float(wanted), INFINITY if over is None else float(wanted + over))

    def _count(self, sums: bool) -> list[_Count]:
        """Strips of each height, and of at least each height."""
        columns = list(self._costs)
        groups: list[tuple[int, ...]] = [(column,) for column in columns]
        if sums:
            groups += [tuple(columns[place:]) for place in range(len(columns) - 1)]
        counts = []
        for group in groups:
            highest = int(self._limits.most // self._costs[group[0]])
            row = self._program.add_row(0.0, float(highest), [(column, 1.0) for column in group])
            counts.append(_Count(group, row, 0, highest))
        return counts

    @property
    def seconds(self) -> float:
        """How long the solver took so far."""
        return self._program.seconds

    def tighten(self, rounds: int, seconds: float) -> int | None:
        """The least length that can still be, after rounding counts of strips inwards; None if no plan is within."""
        answer = self._program.solve()
        for _ in range(rounds):
            if answer.end is not End.BEST:
                break
            before = sum(count.high - count.low for count in self._counts)
            if not self._round_inwards(answer, seconds):
                return None
            answer = self._program.solve()
            self._drop(answer)
            if before == sum(c.high - c.low for c in self._counts) or self._program.seconds > seconds:
                break
        if answer.end is End.NOTHING:
            return None
        return ceil(answer.cost - SLACK) if answer.end is End.BEST else self._limits.least

    def _round_inwards(self, seen: Answer, seconds: float) -> bool:
        """Tightens every count while there is time; False if one has no number left."""
        met = [(_value(seen, count), _value(seen, count)) for count in self._counts]
        for column in self._costs:
            self._program.price(column, 0.0)
        for place, count in enumerate(self._counts):
            for sign in (1.0, -1.0):
                if self._program.seconds > seconds or _nothing_to_gain(count, sign, met[place]):
                    continue
                answer = self._extreme(count, sign)
                if answer.end is End.NOTHING or count.low > count.high:
                    return False
                values = [_value(answer, c) for c in self._counts]
                met = [(min(low, v), max(high, v)) for (low, high), v in zip(met, values, strict=True)]
        for column, cost in self._costs.items():
            self._program.price(column, cost)
        return True

    def _extreme(self, count: _Count, sign: float) -> Answer:
        """The least (`sign` 1) or the most (-1) of a count, rounded inwards and kept."""
        for column in count.columns:
            self._program.price(column, sign)
        answer = self._program.solve()
        for column in count.columns:
            self._program.price(column, 0.0)
        if answer.end is End.BEST:
            if sign > 0:
                count.low = max(count.low, ceil(answer.cost - SLACK))
            else:
                count.high = min(count.high, floor(-answer.cost + SLACK))
            if count.low <= count.high:
                self._program.bound_row(count.row, float(count.low), float(count.high))
        return answer

    def _drop(self, answer: Answer) -> None:
        """Lowers how often a pattern can be used to what its own loss leaves."""
        if answer.end is not End.BEST:
            return
        left = self._limits.most - answer.cost + SLACK
        for column, highest in enumerate(self._highest):
            loss = float(answer.column_prices[column])
            if (
                loss > SLACK
                and loss * highest > left
                and answer.values is not None
                and answer.values[column] < SLACK
            ):
                self._highest[column] = floor(left / loss + SLACK)
                self._program.bound_column(column, 0.0, float(self._highest[column]))

    def find(self, *, looks: int, seconds: float) -> tuple[Plan | None, bool]:
        """A shortest plan within the limits if one is found, and whether the search is complete."""
        answer = self._program.solve_whole(looks=looks, seconds=seconds, target=float(self._limits.least))
        if answer.values is None:
            return None, answer.end is End.NOTHING
        used = [round(float(value)) for value in answer.values[: len(self._patterns)]]
        plan = tuple((pattern, n) for pattern, n in zip(self._patterns, used, strict=True) if n)
        return plan, answer.end is End.BEST


def _value(answer: Answer, count: _Count) -> float:
    if answer.values is None:
        return float(count.low)
    return float(sum(answer.values[column] for column in count.columns))


def _nothing_to_gain(count: _Count, sign: float, met: tuple[float, float]) -> bool:
    """Whether numbers of strips already met show that rounding would move nothing."""
    if sign > 0:
        return ceil(met[0] - SLACK) <= count.low
    return floor(met[1] + SLACK) >= count.high


def _most_strips(field: Field, offer: Offer, limits: Limits) -> int:
    """How often a pattern can be in such a plan: its loss must fit, and each strip must give a piece still wanted."""
    wanted = max(-(-field.demand[size] // count) for size, count in field.made(offer.pattern).items())
    return min(wanted, limits.loss // offer.loss) if offer.loss > 0 else wanted
