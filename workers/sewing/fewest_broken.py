"""The fewest bonds that must be broken, proved: the fewest that cut every odd circle.

A choice of sides breaks a set of bonds that cuts every odd circle, and what is left after cutting them all can be
kept whole; so the least number of broken bonds is the least number that cut all odd circles. There are too many
circles to write down: the program begins with a few, its answer is held against the bonds, and an odd circle that it
leaves whole is added, until none is left. Every answer on the way is a lower bound (circles as cutting planes for
maximum cuts: F. Barahona, A. R. Mahjoub, "On the cut polytope", Mathematical Programming 36, 1986; from memory).
"""

from __future__ import annotations

from collections import Counter, defaultdict, deque
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from math import ceil

import highspy
import numpy as np

from workers.sewing.odd_circles import Link, OddCircleFinder

MOST_ROUNDS, MOST_BRANCHES = 60, 20
"""Programs solved for one part, and branches looked into in each. Both are counts: the clock decides nothing."""


@dataclass(frozen=True)
class Fewest:
    """Sides for all seams, as good as were found, and what the links weigh that any sides break at least."""

    sides: list[int]
    at_least: int


class CircleCover:
    """The fewest links that cut all circles named so far; HiGHS on one thread, the state of its answer seen to."""

    def __init__(self, weights: Sequence[int]) -> None:
        self._solver = highspy.Highs()  # type: ignore[no-untyped-call]
        # all instances in a process must have the same number of threads, or runs return nothing without an error
        options = {
            **{"output_flag": False, "threads": 1, "random_seed": 1, "mip_max_nodes": MOST_BRANCHES},
            **{"mip_rel_gap": 0.0, "mip_abs_gap": 0.999},
        }
        for name, value in options.items():
            self._solver.setOptionValue(name, value)
        count = len(weights)
        self._solver.addVars(count, np.zeros(count), np.ones(count))
        self._solver.changeColsCost(count, np.arange(count, dtype=np.int32), np.array(weights, np.float64))
        whole = np.array([highspy.HighsVarType.kInteger] * count)
        self._solver.changeColsIntegrality(count, np.arange(count, dtype=np.int32), whole)

    def add(self, circle: Iterable[int]) -> None:
        """One more circle that has to be cut."""
        numbers = np.array(sorted(circle), np.int32)
        self._solver.addRow(1.0, float(highspy.kHighsInf), len(numbers), numbers, np.ones(len(numbers)))

    def solve(self) -> tuple[set[int] | None, int]:
        """The links to cut, None where a limit struck, and a lower bound for their weight."""
        self._solver.run()
        info = self._solver.getInfo()
        least = ceil(info.mip_dual_bound - 1e-6) if abs(info.mip_dual_bound) < 1e9 else 0
        if self._solver.getModelStatus() != highspy.HighsModelStatus.kOptimal:
            return None, least
        chosen = {i for i, value in enumerate(self._solver.getSolution().col_value) if value > 0.5}
        return chosen, round(info.objective_function_value)


def find_fewest(
    links: Sequence[Link], sides: Sequence[int], *, at_least: int, weights: Sequence[int] = ()
) -> Fewest:
    """Sides that break the fewest links, begun from sides at hand; `at_least` is a lower bound known before.

    With `weights`, one a link, it is the weight of the broken links that is least.

    Where a limit strikes, the best sides met and the best bound proved.

    >>> triangle = [(0, 1, 1), (1, 2, 1), (2, 0, 1)]
    >>> find_fewest(triangle, [0, 0, 0], at_least=0)
    Fewest(sides=[0, 0, 1], at_least=1)
    """
    counts: Counter[Link] = Counter()
    for (a, b, odd), weight in zip(links, weights or [1] * len(links), strict=True):
        counts[min(a, b), max(a, b), odd] += weight
    always = sum(count for (a, b, odd), count in counts.items() if a == b and odd)
    merged = {link: count for link, count in counts.items() if link[0] != link[1]}
    search = _Search(list(merged), list(merged.values()), list(sides))
    search.run(at_least - always)
    return Fewest(search.best, max(search.least, 0) + always)


class _Search:
    """The rounds of one part; links are merged, each with the number of bonds it stands for."""

    def __init__(self, links: list[Link], weights: list[int], best: list[int]) -> None:
        self._links = links
        self._weights = weights
        self.best = best
        self._near: dict[int, list[tuple[int, int, int]]] = defaultdict(list)
        for (a, b, odd), weight in zip(links, weights, strict=True):
            self._near[a].append((b, odd, weight))
            self._near[b].append((a, odd, weight))
        self._fewest = self._broken(best)
        self.least = 0

    def run(self, at_least: int) -> None:
        """Until the bound meets the best sides, or a limit strikes."""
        self.least = at_least
        finder, cover = OddCircleFinder(self._links), CircleCover(self._weights)
        cut: set[int] = set()
        for _ in range(MOST_ROUNDS):
            for circle in self._whole_circles(finder, cut):
                cover.add(circle)
            chosen, bound = cover.solve()
            self.least = max(self.least, bound)
            if chosen is None:
                return
            cut = chosen
            self._keep(finder.colour(cut)[0])
            if self._fewest <= self.least:
                return

    def _whole_circles(self, finder: OddCircleFinder, cut: set[int]) -> list[frozenset[int]]:
        """Odd circles that are not cut, one through each link that cannot be kept; each once."""
        _, broken = finder.colour(cut)
        circles = (
            finder.shortest_through(self._links[number][end], cut) for number in broken for end in (0, 1)
        )
        return list(dict.fromkeys(circle for circle in circles if circle))

    def _keep(self, sides: dict[int, int]) -> None:
        """Take sides, changed seam by seam as long as that helps, if they break fewer links than the best before."""
        tried = list(self.best)
        for seam, side in sides.items():
            tried[seam] = side
        self._settle(tried)
        if self._broken(tried) < self._fewest:
            self.best, self._fewest = tried, self._broken(tried)

    def _settle(self, sides: list[int]) -> None:
        """Change single seams that have more links broken than kept; each change saves one at least, so it ends."""
        waiting = deque(self._near)
        while waiting:
            seam = waiting.popleft()
            near = self._near[seam]
            if (
                sum(weight if sides[seam] ^ sides[other] != odd else -weight for other, odd, weight in near)
                > 0
            ):
                sides[seam] ^= 1
                waiting.extend(other for other, _, _ in near)

    def _broken(self, sides: Sequence[int]) -> int:
        pairs = zip(self._links, self._weights, strict=True)
        return sum(weight for (a, b, odd), weight in pairs if sides[a] ^ sides[b] != odd)
