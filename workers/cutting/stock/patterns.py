"""Every strip and every way to stand strips in a piece, where there are few enough to look at all of them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from itertools import islice

from workers.cutting.stock.filling import make_strip
from workers.cutting.stock.problem import Way
from workers.cutting.strip_problem import Size, Strip

MOST_STRIPS = 1500
MOST_HEIGHTS = 800

Heights = tuple[int, ...]
"""The heights of the strips in one piece, the tallest first."""


def list_full_strips(width: int, ways: Sequence[Way], sizes: Sequence[Size]) -> list[Strip] | None:
    """Every strip into which nothing more fits that is no higher than it; None where there are too many."""
    found: dict[Strip, None] = {}
    for level in sorted({way.along for way in ways}):
        # the narrowest last: filled with it, a strip has room for nothing wider
        inside = sorted((way for way in ways if way.along <= level), key=lambda way: (-way.across, way))
        tried = list(islice(_fill_strips(width, inside, sizes, ()), MOST_STRIPS + 1))
        for runs in tried:
            if any(way.along == level for way, _ in runs) and not _has_room(width, runs, inside, sizes):
                found[make_strip(runs)] = None
        if len(tried) > MOST_STRIPS or len(found) > MOST_STRIPS:
            return None
    return list(found)


Runs = tuple[tuple[Way, int], ...]


def _fill_strips(room: int, ways: Sequence[Way], sizes: Sequence[Size], runs: Runs) -> Iterator[Runs]:
    if not ways:
        yield runs
        return
    way, others = ways[0], ways[1:]
    taken = sum(count for other, count in runs if other.size == way.size)
    most = min(room // way.across, sizes[way.size].count - taken)
    for count in range(most, -1 if others else most - 1, -1):
        more = ((way, count),) if count else ()
        yield from _fill_strips(room - count * way.across, others, sizes, runs + more)


def _has_room(width: int, runs: Runs, ways: Sequence[Way], sizes: Sequence[Size]) -> bool:
    room = width - sum(way.across * count for way, count in runs)
    taken = Counter[int]()
    for way, count in runs:
        taken[way.size] += count
    return any(way.across <= room and taken[way.size] < sizes[way.size].count for way in ways)


def list_full_heights(height: int, levels: Sequence[int]) -> list[Heights] | None:
    """Every way to stand strips of these heights so that no further one fits; None where there are too many."""
    ordered = sorted(set(levels), reverse=True)
    found = list(islice(_fill_heights(height, ordered, ()), MOST_HEIGHTS + 1))
    return found if len(found) <= MOST_HEIGHTS else None


def _fill_heights(room: int, levels: Sequence[int], taken: Heights) -> Iterator[Heights]:
    if len(levels) == 1:
        found = taken + (levels[0],) * (room // levels[0])
        if found:
            yield found
        return
    for count in range(room // levels[0], -1, -1):
        yield from _fill_heights(room - count * levels[0], levels[1:], taken + (levels[0],) * count)
