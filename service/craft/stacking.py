"""What lies above what: the order from the lowest piece up, and circles in it."""

from __future__ import annotations

import heapq
from collections.abc import Iterable, Iterator, Mapping


def find_circle(above: Mapping[str, Iterable[str]]) -> list[str]:
    """Names that lie above each other in a circle, or an empty list. About linear time.

    >>> find_circle({"leaf": ["stalk"], "stalk": ["leaf"], "root": []})
    ['leaf', 'stalk']
    """
    placed = set(stack(above))
    # whoever could not be placed waits for somebody who could not be placed either
    waits = {
        name: next(o for o in above[name] if o in above and o not in placed)
        for name in above
        if name not in placed
    }
    if not waits:
        return []
    path: dict[str, int] = {}
    name = next(iter(waits))
    while name not in path:
        path[name] = len(path)
        name = waits[name]
    return list(path)[path[name] :]


def stack(above: Mapping[str, Iterable[str]]) -> Iterator[str]:
    """The names from the lowest up, in the given order where that is free; names in a circle are left out.

    A name that is not a key is taken to lie lowest of all. Time n log n.

    >>> list(stack({"leaf": ["stalk"], "stalk": [], "root": ["leaf"]}))
    ['stalk', 'leaf', 'root']
    """
    names = list(above)
    number = {name: i for i, name in enumerate(names)}
    below = [{number[o] for o in above[name] if o in number} for name in names]
    over: list[list[int]] = [[] for _ in names]
    for i, others in enumerate(below):
        for other in others:
            over[other].append(i)
    missing = [len(others) for others in below]
    ready = [i for i, count in enumerate(missing) if not count]
    while ready:
        lowest = heapq.heappop(ready)
        yield names[lowest]
        for i in over[lowest]:
            missing[i] -= 1
            if not missing[i]:
                heapq.heappush(ready, i)
