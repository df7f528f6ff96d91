"""Circles of bonds that cannot all be kept: going round one, the bonds contradict each other.

A link is a bond between two numbered seams: (first, second, 1 where they are to differ, else 0). A circle with an odd
number of links that ask to differ is an odd circle, and whatever the sides are, one of its links is broken.
"""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Collection, Mapping, Sequence

Link = tuple[int, int, int]


def count_circles_apart(links: Sequence[Link], sides: Sequence[int]) -> int:
    """Odd circles without a link in common, each through one link broken by `sides`: as many must be broken."""
    near: dict[int, dict[int, int]] = defaultdict(dict)
    for i, (a, b, odd) in enumerate(links):
        if sides[a] ^ sides[b] == odd:
            near[a][i] = b
            near[b][i] = a
    found = 0
    for a, b, odd in links:
        if sides[a] ^ sides[b] != odd:
            path = _shortest(near, a, b)
            found += path is not None
            for step in path or ():
                first, second, _ = links[step]
                near[first].pop(step, None)
                near[second].pop(step, None)
    return found


def _shortest(near: Mapping[int, Mapping[int, int]], start: int, end: int) -> list[int] | None:
    """The bonds on a shortest way over bonds that are kept and not yet used, or None."""
    came: dict[int, tuple[int, int]] = {start: (start, -1)}
    queue = deque([start])
    while queue and end not in came:
        here = queue.popleft()
        for link, there in near.get(here, {}).items():
            if there not in came:
                came[there] = (here, link)
                queue.append(there)
    if end not in came:
        return None
    path = []
    while end != start:
        end, link = came[end]
        path.append(link)
    return path


class OddCircleFinder:
    """Finds odd circles among links, some of them left out."""

    def __init__(self, links: Sequence[Link]) -> None:
        self._links = links
        self._near: dict[int, list[tuple[int, int, int]]] = defaultdict(list)
        for number, (a, b, odd) in enumerate(links):
            self._near[a].append((number, b, odd))
            self._near[b].append((number, a, odd))

    def colour(self, left_out: Collection[int]) -> tuple[dict[int, int], list[int]]:
        """Sides that keep a tree of links, and the links, none of them left out, that these sides break."""
        sides: dict[int, int] = {}
        for start in self._near:
            if start in sides:
                continue
            sides[start] = 0
            queue = deque([start])
            while queue:
                here = queue.popleft()
                for number, there, odd in self._near[here]:
                    if number not in left_out and there not in sides:
                        sides[there] = sides[here] ^ odd
                        queue.append(there)
        broken = [
            number
            for number, (a, b, odd) in enumerate(self._links)
            if number not in left_out and sides[a] ^ sides[b] != odd
        ]
        return sides, broken

    def shortest_through(self, seam: int, left_out: Collection[int]) -> frozenset[int] | None:
        """The links of a shortest odd walk from a seam back to itself; a link walked twice drops out, and what is left
        holds an odd circle. None where there is no such walk."""
        start, goal = (seam, 0), (seam, 1)
        came: dict[tuple[int, int], tuple[tuple[int, int], int]] = {start: (start, -1)}
        queue = deque([start])
        while queue and goal not in came:
            here = queue.popleft()
            for number, there, odd in self._near[here[0]]:
                step = there, here[1] ^ odd
                if number not in left_out and step not in came:
                    came[step] = here, number
                    queue.append(step)
        if goal not in came:
            return None
        walked: set[int] = set()
        while goal != start:
            goal, number = came[goal]
            walked ^= {number}
        return frozenset(walked)
