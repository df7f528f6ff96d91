"""Strips and pieces put together in whole numbers: which strips go where, so that least is bought.

Strips are chosen for a lying piece, and so are the places for strips in it, by their heights. That every strip finds a
place is one condition a height: no more strips of at least that height than places of at least that height.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import TypeVar

from workers.cutting.stock.columns import Columns
from workers.cutting.stock.filling import count_made
from workers.cutting.stock.patterns import Heights, list_full_strips
from workers.cutting.stock.problem import CutSheet, Sheet, StockProblem, list_ways
from workers.cutting.stock.program import Row, solve_whole
from workers.cutting.stock.worth import find_worth
from workers.cutting.strip_problem import Strip, Strips

Plan = tuple[tuple[CutSheet, ...], Strips]
"""Stock pieces with their strips, and strips from the roll."""


TIDY_LOOKS = 30
MOST_LEVELS = 400
"""Conditions on places; with more, no good plan is found in reasonable time."""


@dataclass
class Recombination:
    """The program: columns are strips from the roll, strips in each lying piece, and places in each."""

    problem: StockProblem
    roll: list[Strip]
    strips: list[tuple[Sheet, Strip]]
    places: list[tuple[Sheet, Heights]]
    levels: dict[tuple[Sheet, int], int] = field(init=False)

    def __post_init__(self) -> None:
        keys = dict.fromkeys((sheet, strip.height) for sheet, strip in self.strips)
        first = len(self.problem.sizes) + len(self.problem.stock)
        self.levels = {key: first + n for n, key in enumerate(keys)}

    def rows(self) -> list[Row]:
        """The pieces wanted, the stock there is, room for every strip."""
        rows = [Row(least=float(size.count)) for size in self.problem.sizes]
        for piece in self.problem.stock:
            rows.append(Row() if piece.count is None else Row(most=float(piece.count)))
        return rows + [Row(most=0.0)] * len(self.levels)

    def entries(self) -> list[Mapping[int, float]]:
        """The columns by row: roll, strips, places."""
        entries: list[Mapping[int, float]] = [_made(strip) for strip in self.roll]
        for sheet, strip in self.strips:
            entries.append(_made(strip) | {row: 1.0 for _, row in self._up_to(sheet, strip.height)})
        for sheet, heights in self.places:
            column = {len(self.problem.sizes) + sheet.stock: 1.0}
            for level, row in self._up_to(sheet, max(heights)):
                column[row] = -float(sum(height >= level for height in heights))
            entries.append(column)
        return entries

    def _up_to(self, sheet: Sheet, height: int) -> Iterator[tuple[int, int]]:
        return ((h, row) for (s, h), row in self.levels.items() if s == sheet and h <= height)

    def costs(self) -> list[float]:
        """What is bought: steps of the roll, and pieces."""
        bought = [float(self.problem.stock[sheet.stock].cost) for sheet, _ in self.places]
        return [float(strip.height) for strip in self.roll] + [0.0] * len(self.strips) + bought

    def trouble(self) -> list[float]:
        """What is cut into, as a share of all stock, and a little for every strip."""
        largest = max((s.width * s.height for s, _ in self.places), default=1)
        cut_into = [sheet.width * sheet.height / largest for sheet, _ in self.places]
        return [0.001] * (len(self.roll) + len(self.strips)) + cut_into

    def read(self, values: Sequence[int]) -> Plan:
        """The plan that a solution means."""
        cut, middle = len(self.roll), len(self.roll) + len(self.strips)
        roll = tuple(_times(zip(self.roll, values[:cut], strict=True)))
        copies = Counter[int]()
        sheets: list[CutSheet] = []
        for lying in dict.fromkeys(sheet for sheet, _ in self.places):
            strips = [
                (s, n) for (at, s), n in zip(self.strips, values[cut:middle], strict=True) if at == lying
            ]
            places = [(p, n) for (at, p), n in zip(self.places, values[middle:], strict=True) if at == lying]
            for held in _stand(list(_times(strips)), list(_times(places))):
                sheets.append(CutSheet(lying.stock, copies[lying.stock], lying.turned, held))
                copies[lying.stock] += 1
        return tuple(sheets), roll


def _made(strip: Strip) -> dict[int, float]:
    return {size: float(count) for size, count in count_made([strip]).items()}


Thing = TypeVar("Thing")


def _times(counted: Iterable[tuple[Thing, int]]) -> Iterator[Thing]:
    for thing, count in counted:
        yield from [thing] * count


def _stand(strips: list[Strip], pieces: list[Heights]) -> list[tuple[Strip, ...]]:
    """Strips in their places: the tallest strip in the tallest place; pieces that stay empty are left out."""
    held: list[list[Strip]] = [[] for _ in pieces]
    places = sorted((-height, piece) for piece, heights in enumerate(pieces) for height in heights)
    for strip, (_, piece) in zip(sorted(strips, key=lambda s: -s.height), places, strict=False):
        held[piece].append(strip)
    return [tuple(some) for some in held if some]


@dataclass(frozen=True)
class Recombined:
    """The plan found; `least` is what is bought at least, where that is proved, else None."""

    plan: Plan
    least: int | None


def recombine(columns: Columns, *, most: int, seconds: float, neat: bool = True) -> Recombined | None:
    """The plan that buys least, and where it is to be `neat`, of those the one that cuts into least.

    `most` is what a plan at hand costs, made of the columns: what can only cost more is not looked at. None where
    time was too short, or there is too much to put together.
    """
    program, complete = _set_up(columns, most)
    if len(program.levels) > MOST_LEVELS:
        return None
    rows, costs, entries = program.rows(), program.costs(), program.entries()
    gap = float(columns.cost_step) - 0.01
    least = solve_whole(rows, costs, entries, seconds=seconds, gap=gap, target=float(columns.bound))
    if least is None:
        return None
    bought = round(sum(cost * value for cost, value in zip(costs, least.values, strict=True)))
    values = _tidy(program, least.values, bought, seconds) if neat else least.values
    return Recombined(program.read(values), bought if least.best and complete else None)


def _tidy(program: Recombination, values: tuple[int, ...], bought: int, seconds: float) -> tuple[int, ...]:
    """Another plan that buys no more and cuts into less, if one is found with little trouble."""
    costs, rows = program.costs(), program.rows()
    capped = [dict(column) | {len(rows): cost} for column, cost in zip(program.entries(), costs, strict=True)]
    rows.append(Row(most=bought + 0.5))
    found = solve_whole(
        rows, program.trouble(), capped, start=values, seconds=seconds, gap=0.1, looks=TIDY_LOOKS
    )
    return found.values if found else values


def _set_up(columns: Columns, most: int) -> tuple[Recombination, bool]:
    """The program, and whether it has every strip and every way to stand strips that a plan so cheap can have."""
    problem, complete = columns.problem, True
    worth = find_worth(columns, most)
    roll = dict(columns.strips)
    if problem.roll:
        ways = list_ways(problem.sizes, problem.roll)
        every = list_full_strips(problem.roll, ways, problem.sizes, worth.prices, worth.of_roll)
        roll |= dict.fromkeys(every or ())
        complete = every is not None
    strips: dict[tuple[Sheet, Strip], None] = {}
    places: dict[tuple[Sheet, Heights], None] = {}
    for sheet, cut in columns.cut:
        strips |= {(sheet, strip): None for strip in cut}
        places[sheet, tuple(sorted((strip.height for strip in cut), reverse=True))] = None
    for sheet in columns.sheets:
        every, stands = worth.list_for(sheet, problem.sizes)
        strips |= {(sheet, strip): None for strip in every or ()}
        places |= {(sheet, heights): None for heights in stands or ()}
        complete = complete and every is not None and stands is not None
    return Recombination(problem, list(roll), list(strips), list(places)), complete
