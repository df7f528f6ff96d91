"""A plan by hand: the fullest piece first, as often as it is there, until nothing is left to cut."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from workers.cutting.stock.filling import count_made, fill_height, fill_width, make_strip, take
from workers.cutting.stock.problem import CutSheet, Sheet, StockProblem, Way, ways_on
from workers.cutting.strip_problem import Size, Strip


def cut_fullest(problem: StockProblem) -> tuple[tuple[CutSheet, ...], tuple[Size, ...]]:
    """Stock pieces cut one after the other, each way the one that uses most of its area; what is still wanted then.

    Pieces at home come first, the smallest first, so that large ones stay whole; then pieces to buy.
    """
    wanted = list(problem.sizes)
    cut: list[CutSheet] = []
    for number in rank_stock(problem):
        piece, copies = problem.stock[number], 0
        while any(size.count for size in wanted) and (piece.count is None or copies < piece.count):
            fullest = _fullest(replace(problem, sizes=tuple(wanted)), number)
            if fullest is None:
                break
            turned, strips = fullest
            times = _repeat(wanted, strips, None if piece.count is None else piece.count - copies)
            cut += [CutSheet(number, copies + again, turned, strips) for again in range(times)]
            wanted = take(wanted, strips * times)
            copies += times
    return tuple(cut), tuple(wanted)


def rank_stock(problem: StockProblem) -> list[int]:
    """Stock in the order it is cut by hand: what is at home, the smallest first, then what is bought."""
    stock = problem.stock
    return sorted(
        range(len(stock)), key=lambda n: (stock[n].count is None, stock[n].width * stock[n].height, n)
    )


def _repeat(wanted: Sequence[Size], strips: tuple[Strip, ...], most: int | None) -> int:
    """How often a piece can be cut in the same way until some size runs out."""
    made = count_made(strips)
    times = min(wanted[size].count // count for size, count in made.items())
    return times if most is None else min(times, most)


def _fullest(problem: StockProblem, stock: int) -> tuple[bool, tuple[Strip, ...]] | None:
    areas = [size.width * size.height for size in problem.sizes]
    found: list[tuple[int, Sheet, tuple[Strip, ...]]] = []
    for sheet in problem.sheets:
        if sheet.stock == stock:
            table = fill_width(sheet.width, ways_on(sheet, problem.sizes), problem.sizes, areas)
            strips = trim(fill_height(sheet.height, table)[1], problem.sizes)
            found.append((_area(strips, areas), sheet, strips))
    if not found:
        return None
    area, sheet, strips = max(found, key=lambda entry: (entry[0], not entry[1].turned))
    return (sheet.turned, strips) if area else None


def _area(strips: Iterable[Strip], areas: Sequence[int]) -> int:
    return sum(areas[run.size] * run.count for strip in strips for run in strip.runs)


def trim(strips: Iterable[Strip], wanted: Sequence[Size]) -> tuple[Strip, ...]:
    """The same strips without the pieces nobody wants, the tallest first; a strip with nothing in it falls away."""
    still = [size.count for size in wanted]
    trimmed = []
    for strip in sorted(strips, key=lambda s: -s.height):
        runs = []
        for run in strip.runs:
            count = min(run.count, still[run.size])
            still[run.size] -= count
            if count:
                runs.append((lay(wanted, run.size, turned=run.turned), count))
        if runs:
            trimmed.append(make_strip(runs))
    return tuple(trimmed)


def lay(sizes: Sequence[Size], number: int, *, turned: bool) -> Way:
    """How a size lies, turned or not."""
    size = sizes[number]
    along, across = (size.width, size.height) if turned else (size.height, size.width)
    return Way(along, across, number, turned)
