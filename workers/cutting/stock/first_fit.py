"""Stock pieces cut without any table: what is left where steps are too fine for one, as they can be in odd measures."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from workers.cutting.stock.filling import make_strip, take
from workers.cutting.stock.problem import CutSheet, Sheet, StockProblem, Way, list_ways, ways_on
from workers.cutting.strip_problem import Size, Strip

FINEST = 20_000
"""So many steps along a side of a piece of cloth are too many for tables of every width."""

MOST_TABLE_WORK = 200_000_000


def is_fine(problem: StockProblem) -> bool:
    """Whether steps are too fine, or pieces of cloth too many, for tables."""
    sides = [problem.roll or 0, *(max(piece.width, piece.height) for piece in problem.stock)]
    return max(sides) > FINEST or table_work(problem) > MOST_TABLE_WORK


def table_work(problem: StockProblem) -> int:
    """About how many steps it takes to fill the tables of all pieces and the roll once."""
    work = 1
    if problem.roll:
        work += sum(problem.roll**2 // way.across for way in list_ways(problem.sizes, problem.roll))
    for sheet in problem.sheets:
        for way in ways_on(sheet, problem.sizes):
            work += sheet.width**2 // way.across + sheet.height**2 // way.along
    return work


@dataclass
class _Open:
    room: int
    runs: list[tuple[Way, int]] = field(default_factory=list)


def cut_first_fit(
    problem: StockProblem, order: Sequence[int]
) -> tuple[tuple[CutSheet, ...], tuple[Size, ...]]:
    """Stock pieces in this order, each filled from the tallest piece down; what is still wanted then."""
    wanted = list(problem.sizes)
    cut: list[CutSheet] = []
    for number in order:
        piece, copies = problem.stock[number], 0
        while piece.count is None or copies < piece.count:
            lying = [problem.lay(number, turned=turned) for turned in (False, True)]
            filled = [(sheet.turned, _fill(sheet, wanted)) for sheet in lying if sheet]
            turned, strips = max(filled, key=lambda one: (_area(one[1], wanted), not one[0]))
            if not strips:
                break
            cut.append(CutSheet(number, copies, turned, strips))
            wanted = take(wanted, strips)
            copies += 1
    return tuple(cut), tuple(wanted)


def _fill(sheet: Sheet, wanted: Sequence[Size]) -> tuple[Strip, ...]:
    """Strips of one piece: each size on the first strips with room, then on new ones."""
    left, height = [size.count for size in wanted], sheet.height
    strips: list[_Open] = []
    for way in reversed(ways_on(sheet, wanted)):
        while left[way.size]:
            strip = next((s for s in strips if s.room >= way.across), None)
            if strip is None:
                if way.along > height:
                    break
                strip = _Open(sheet.width)
                strips.append(strip)
                height -= way.along
            count = min(left[way.size], strip.room // way.across)
            strip.runs.append((way, count))
            strip.room -= count * way.across
            left[way.size] -= count
    return tuple(make_strip(strip.runs) for strip in strips)


def _area(strips: Sequence[Strip], sizes: Sequence[Size]) -> int:
    return sum(
        sizes[run.size].width * sizes[run.size].height * run.count for strip in strips for run in strip.runs
    )


def bound_by_area(problem: StockProblem) -> int:
    """What no plan can cost less than: the area of all pieces beyond the pieces at home, over what is bought.

    Of the roll so many steps of its width; of pieces, what the one of best value for its area costs.
    """
    area = sum(size.width * size.height * size.count for size in problem.sizes)
    area -= sum(s.width * s.height * s.count for s in problem.stock if s.count is not None)
    if area <= 0:
        return 0
    if problem.roll is not None:
        return -(-area // problem.roll)
    return min(-(-area * s.cost // (s.width * s.height)) for s in problem.stock if s.count is None)
