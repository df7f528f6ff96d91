"""Which side every seam is pressed to: the least number of bonds broken, then the least cost.

Nothing here knows about sewing. A seam has two sides (0 and 1), each with a cost; a bond between two seams asks for
the same side or for different ones. A union-find with parity finds in linear time which parts can keep all their
bonds; a part that cannot is searched whole where it is small. Where it is large, a search by single changes is held
against a lower bound (`odd_circles`): every circle of bonds that cannot all be kept loses one, and circles without a
bond in common lose one each. Where that leaves a gap, the fewest bonds that cut every such circle are found with a
whole-number program (`fewest_broken`).
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from typing import Generic, TypeVar

import numpy as np

from workers.sewing.fewest_broken import find_fewest
from workers.sewing.odd_circles import Link, count_circles_apart

K = TypeVar("K", bound=Hashable)

SMALL_PART = 14
"""Seams in a part up to which every way is looked at."""

MOST_ROUNDS = 60
"""Rounds of single changes in a large part; each goes over all of its seams."""


@dataclass(frozen=True)
class Bond(Generic[K]):
    """Two seams that want the same side (`alike`) or different sides; `weight` is how much is lost where it breaks."""

    first: K
    second: K
    alike: bool
    weight: int = 1


@dataclass(frozen=True)
class Pressing(Generic[K]):
    """A side for every seam, the numbers of the bonds that are broken, what their weights come to, and at least."""

    sides: dict[K, int]
    broken: tuple[int, ...]
    at_least: int
    lost: int = 0

    @property
    def least_proved(self) -> bool:
        """Whether it is proved that no other way breaks less."""
        return self.lost == self.at_least


def solve_pressing(costs: Mapping[K, tuple[float, float]], bonds: Sequence[Bond[K]]) -> Pressing[K]:
    """Choose a side for every seam in `costs`.

    >>> solved = solve_pressing({"a": (0, 1), "b": (0, 1)}, [Bond("a", "b", False)])
    >>> solved.sides, solved.broken
    ({'a': 1, 'b': 0}, ())
    """
    numbers = {seam: i for i, seam in enumerate(costs)}
    links = [(numbers[b.first], numbers[b.second], 0 if b.alike else 1) for b in bonds]
    price = list(costs.values())
    parts = _find_parts(len(price), links)
    inside: dict[int, list[int]] = defaultdict(list)
    for i, (first, _, _) in enumerate(links):
        inside[parts.root(first)[0]].append(i)
    sides, least = [0] * len(price), 0
    for root, seams in parts.members().items():
        here = inside[root]
        part = _Part(seams, [links[i] for i in here], [bonds[i].weight for i in here], price)
        least += part.solve(sides, parts)
    broken = tuple(i for i, (a, b, odd) in enumerate(links) if sides[a] ^ sides[b] != odd)
    lost = sum(bonds[i].weight for i in broken)
    return Pressing({seam: sides[i] for seam, i in numbers.items()}, broken, least, lost)


class Parity:
    """Union-find over numbers that also knows whether a seam lies on the same side as its root (0) or not (1)."""

    def __init__(self, size: int) -> None:
        self._parent = list(range(size))
        self._odd = [0] * size

    def root(self, seam: int) -> tuple[int, int]:
        """The seam's root, and the parity against it; paths are shortened on the way."""
        path = []
        while self._parent[seam] != seam:
            path.append(seam)
            seam = self._parent[seam]
        odd = 0
        for step in reversed(path):
            odd ^= self._odd[step]
            self._parent[step], self._odd[step] = seam, odd
        return seam, odd

    def join(self, first: int, second: int, odd: int) -> None:
        """Bind two seams; a bond that contradicts earlier ones changes nothing."""
        (a, odd_a), (b, odd_b) = self.root(first), self.root(second)
        if a != b:
            low, high = min(a, b), max(a, b)
            self._parent[high], self._odd[high] = low, odd_a ^ odd_b ^ odd

    def members(self) -> dict[int, list[int]]:
        """The seams of every part by their root."""
        found: dict[int, list[int]] = defaultdict(list)
        for seam in range(len(self._parent)):
            found[self.root(seam)[0]].append(seam)
        return found


def _find_parts(size: int, links: Sequence[Link]) -> Parity:
    parts = Parity(size)
    for first, second, odd in links:
        parts.join(first, second, odd)
    return parts


class _Part:
    """Seams that hang together by bonds."""

    def __init__(
        self, seams: list[int], links: list[Link], weights: list[int], price: Sequence[tuple[float, float]]
    ) -> None:
        self._seams = seams
        self._links = links
        self._weights = weights
        self._price = price

    def solve(self, sides: list[int], parity: Parity) -> int:
        """Set the sides of this part; gives what the broken bonds weigh at least."""
        for seam in self._seams:
            sides[seam] = parity.root(seam)[1]
        if not self._broken(sides):
            self._choose_turn(sides)
            return 0
        if len(self._seams) <= SMALL_PART:
            return self._try_all(sides)
        self._improve(sides)
        least = count_circles_apart(self._links, sides)
        if least < self._broken(sides):
            fewest = find_fewest(self._links, sides, at_least=least, weights=self._weights)
            sides[:] = fewest.sides
            least = fewest.at_least
            self._improve(sides)
        self._choose_turn(sides)
        return least

    def _broken(self, sides: Sequence[int]) -> int:
        pairs = zip(self._links, self._weights, strict=True)
        return sum(weight for (a, b, odd), weight in pairs if sides[a] ^ sides[b] != odd)

    def _choose_turn(self, sides: list[int]) -> None:
        """Of a way and its opposite the cheaper one; where both cost the same, the first seam takes side 1."""
        here = sum(self._price[s][sides[s]] for s in self._seams)
        there = sum(self._price[s][1 - sides[s]] for s in self._seams)
        if there < here or (there == here and not sides[self._seams[0]]):
            for seam in self._seams:
                sides[seam] = 1 - sides[seam]

    def _try_all(self, sides: list[int]) -> int:
        """Every way of a small part: fewest broken, then cheapest, then the first seam on side 1."""
        place = {seam: i for i, seam in enumerate(self._seams)}
        ways = (np.arange(2 ** len(self._seams))[:, None] >> np.arange(len(self._seams))) & 1
        broken = np.zeros(len(ways))
        for (a, b, odd), weight in zip(self._links, self._weights, strict=True):
            broken += weight * ((ways[:, place[a]] ^ ways[:, place[b]]) != odd)
        cost = ways @ np.array([self._price[s][1] - self._price[s][0] for s in self._seams])
        best = np.lexsort((1 - ways[:, 0], cost, broken))[0]
        for seam, i in place.items():
            sides[seam] = int(ways[best, i])
        return int(broken[best])

    def _improve(self, sides: list[int]) -> None:
        """Change single seams as long as that breaks fewer bonds, or as many at less cost."""
        near: dict[int, list[tuple[int, int, int]]] = defaultdict(list)
        for (a, b, odd), weight in zip(self._links, self._weights, strict=True):
            if a != b:
                near[a].append((b, odd, weight))
                near[b].append((a, odd, weight))
        for _ in range(MOST_ROUNDS):
            changed = False
            for seam in self._seams:
                gain = sum(
                    weight if sides[seam] ^ sides[other] != odd else -weight
                    for other, odd, weight in near[seam]
                )
                dearer = self._price[seam][1 - sides[seam]] - self._price[seam][sides[seam]]
                if gain > 0 or (gain == 0 and dearer < 0):
                    sides[seam] = 1 - sides[seam]
                    changed = True
            if not changed:
                return
