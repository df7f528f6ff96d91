"""Which pieces lie on which, as they are placed: said by `above`, or where nothing is said, by the document's order."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

import numpy as np
import shapely
from shapely import Polygon, STRtree

from service.craft.outlines.underlap import SHORTEST_MM, TOUCH_MM
from service.craft.pieces import Piece
from service.craft.stacking import stack

LEAST_OVERLAP_MM2 = 1.0
"""Less than a square millimetre in common is a meeting of edges."""


@dataclass(frozen=True)
class Overlap:
    """One piece on another. `stated` says that `above` has it so, if need be by way of others.

    `hidden` says that nothing of the lower piece shows.
    """

    lower: str
    upper: str
    stated: bool
    hidden: bool = False


@dataclass(frozen=True)
class Overlaps:
    """Every pair that lies on each other, lowest first; and the pairs (upper, lower) that `above` names in vain."""

    pairs: tuple[Overlap, ...]
    apart: tuple[tuple[str, str], ...]


def find_overlaps(pieces: Iterable[Piece], shapes: Mapping[str, Polygon]) -> Overlaps:
    """The pairs of pieces that overlap on the top, or meet along an edge with `above` saying which is on top.

    Nothing in `above` goes in a circle. Two that overlap without a word lie in the order of the stack: from the
    document's first piece up, but for what `above` says of others.
    """
    above = {piece.name: piece.above for piece in pieces}
    order = {name: i for i, name in enumerate(stack(above)) if name in shapes}
    names = list(order)
    polygons = np.array([shapes[name] for name in names], dtype=object)
    tree = STRtree(polygons)
    first, second = tree.query(polygons, predicate="dwithin", distance=TOUCH_MM)
    closure: dict[str, set[str]] = {}
    pairs, meeting = [], set()
    for i, j in sorted(zip(first.tolist(), second.tolist(), strict=True)):
        if i >= j:
            continue
        lower, upper = names[i], names[j]
        below = closure.setdefault(upper, _all_below(upper, above))
        if _overlap(polygons[i], polygons[j]):
            hidden = bool(polygons[j].buffer(TOUCH_MM).covers(polygons[i]))
            pairs.append(Overlap(lower, upper, lower in below, hidden))
        elif not (lower in below and _share_edge(polygons[i], polygons[j])):
            continue
        else:
            pairs.append(Overlap(lower, upper, stated=True))
        meeting.add((upper, lower))
    apart = [
        (name, other)
        for name in names
        for other in above[name]
        if other in order and (name, other) not in meeting
    ]
    return Overlaps(tuple(pairs), tuple(apart))


def _all_below(name: str, above: Mapping[str, Iterable[str]]) -> set[str]:
    """Every piece that `above` puts below one, if need be by way of others."""
    found: set[str] = set()
    waiting = [name]
    while waiting:
        for other in above.get(waiting.pop(), ()):
            if other not in found:
                found.add(other)
                waiting.append(other)
    return found


def _overlap(a: Polygon, b: Polygon) -> bool:
    return bool(shapely.area(shapely.intersection(a, b)) > LEAST_OVERLAP_MM2)


def _share_edge(a: Polygon, b: Polygon) -> bool:
    return bool(a.boundary.intersection(b.buffer(TOUCH_MM)).length >= SHORTEST_MM)
