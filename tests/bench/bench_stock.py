"""What the search saves over cutting by hand: from a stash, from pieces as they are sold, and by stacking.

Run by hand: python tests/bench/bench_stock.py [cloths]. Prints, for invented cloths, what is bought by each way, how
far that is above the bound, and seconds; then the means.
"""

from __future__ import annotations

import sys
import time
from collections.abc import Callable
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from workers.cutting.least import least_strips
from workers.cutting.stacked.least_stacked import least_stacked
from workers.cutting.stock.greedy import cut_fullest
from workers.cutting.stock.least_bought import least_bought
from workers.cutting.stock.problem import Sheet, Stock, StockProblem, ways_on
from workers.cutting.strip_problem import Problem, Size, total_length

EIGHTHS = 8
QUARTER = (21 * EIGHTHS, 18 * EIGHTHS)
STASH = (
    Stock(*QUARTER, 3, may_turn=True),
    Stock(320, 44, 1, may_turn=True),
    Stock(100, 90, 4, may_turn=True),
)


def invent(seed: int) -> Problem:
    """A cloth 40 in wide with 3 to 8 sizes, 4 to 40 pieces of each, in eighths of an inch."""
    random = Random(seed)
    sizes = []
    for _ in range(random.randint(3, 8)):
        width, height = (random.randint(12, 120) for _ in range(2))
        sizes.append(Size(width, height, random.randint(4, 40), width != height))
    return Problem(40 * EIGHTHS, tuple(sizes))


def timed(way: Callable[[], tuple[int, int, int]]) -> tuple[int, int, int, float]:
    """By hand, found, bound; and seconds."""
    start = time.perf_counter()
    return (*way(), time.perf_counter() - start)


def from_stash(problem: Problem) -> tuple[int, int, int]:
    """Steps of the roll still to buy."""
    stock = StockProblem(problem.sizes, STASH, problem.width)
    _, rest = cut_fullest(stock)
    wanted = tuple(size for size in rest if size.count)
    hand = total_length(least_strips(Problem(problem.width, wanted)).strips) if wanted else 0
    found = least_bought(stock)
    return hand, found.cost, found.lower_bound


def in_quarters(problem: Problem) -> tuple[int, int, int]:
    """Fat quarters to buy."""
    sheet = Sheet(0, *QUARTER, False)
    sizes = tuple(size for size in problem.sizes if ways_on(sheet, [size]))
    stock = StockProblem(sizes, (Stock(*QUARTER, None, 1, may_turn=True),), None)
    found = least_bought(stock)
    return len(cut_fullest(stock)[0]), found.cost, found.lower_bound


def stacked(problem: Problem) -> tuple[int, int, int]:
    """Steps of the roll: the least without stacking, with stacking."""
    known = least_strips(problem).strips
    found = least_stacked(problem, known)
    return total_length(known), found.length, found.lower_bound


def main(cloths: int) -> None:
    """One line a cloth and way, then the means."""
    for way in (from_stash, in_quarters, stacked):
        rows = []
        for seed in range(cloths):
            hand, found, bound, seconds = timed(lambda way=way, seed=seed: way(invent(seed)))
            rows.append((1 - found / hand if hand else 0.0, found / bound - 1 if bound else 0.0, seconds))
            print(f"{way.__name__:12} {seed:3} {hand:6} -> {found:6} bound {bound:6} {seconds:6.1f} s")
        saved, above, seconds = (sum(column) / len(rows) for column in zip(*rows, strict=True))
        print(
            f"{way.__name__:12} saves {saved:.2%}, {above:.2%} above the bound, {seconds:.1f} s on average\n"
        )


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 20)
