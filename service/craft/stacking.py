"""What lies above what: the order from the lowest piece up, and circles in it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping


def find_circle(above: Mapping[str, Iterable[str]]) -> list[str]:
    """Names that lie above each other in a circle, or an empty list. Linear time.

    >>> find_circle({"leaf": ["stalk"], "stalk": ["leaf"], "root": []})
    ['leaf', 'stalk']
    """
    order = list(stack(above))
    left = [name for name in above if name not in set(order)]
    if not left:
        return []
    path, name = [], left[0]
    while name not in path:
        path.append(name)
        name = next(o for o in above[name] if o in left)
    return path[path.index(name) :]


def stack(above: Mapping[str, Iterable[str]]) -> Iterable[str]:
    """The names from the lowest up, in the given order where that is free; names in a circle are left out.

    >>> list(stack({"leaf": ["stalk"], "stalk": [], "root": ["leaf"]}))
    ['stalk', 'leaf', 'root']
    """
    waits = {name: {o for o in others if o in above} for name, others in above.items()}
    done: set[str] = set()
    while ready := [n for n, w in waits.items() if n not in done and w <= done]:
        yield ready[0]
        done.add(ready[0])
