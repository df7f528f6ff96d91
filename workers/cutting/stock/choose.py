"""Whole pieces as they were found, chosen in whole numbers: smaller than to recombine them, where that is too much."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from workers.cutting.stock.columns import Columns
from workers.cutting.stock.filling import count_made
from workers.cutting.stock.problem import CutSheet
from workers.cutting.stock.program import Row, solve_whole
from workers.cutting.stock.recombine import Plan
from workers.cutting.strip_problem import Strip


def choose(columns: Columns, *, seconds: float) -> Plan | None:
    """The plan of the columns found that buys least; None where time was too short."""
    problem = columns.problem
    rows = [Row(least=float(size.count)) for size in problem.sizes]
    rows += [Row() if piece.count is None else Row(most=float(piece.count)) for piece in problem.stock]
    strips, cut = list(columns.strips), list(columns.cut)
    entries = [_made([strip]) for strip in strips]
    entries += [_made(inside) | {len(problem.sizes) + sheet.stock: 1.0} for sheet, inside in cut]
    costs = [float(strip.height) for strip in strips]
    # a little for every piece at home: those that save nothing stay whole
    costs += [max(float(problem.stock[sheet.stock].cost), AT_HOME) for sheet, _ in cut]
    found = solve_whole(rows, costs, entries, seconds=seconds, gap=float(columns.cost_step) / 2)
    if found is None:
        return None
    roll = [strip for strip, times in zip(strips, found.values, strict=False) for _ in range(times)]
    copies = Counter[int]()
    sheets = []
    for (sheet, inside), times in zip(cut, found.values[len(strips) :], strict=True):
        for _ in range(times):
            sheets.append(CutSheet(sheet.stock, copies[sheet.stock], sheet.turned, inside))
            copies[sheet.stock] += 1
    return tuple(sheets), tuple(roll)


AT_HOME = 0.001


def _made(strips: Iterable[Strip]) -> dict[int, float]:
    return {size: float(count) for size, count in count_made(strips).items()}
