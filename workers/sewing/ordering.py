"""The order of work: what must be done first comes first, small units before all else, copies together."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from service.craft.units import (
    CornerSquares,
    Diamond,
    EightPointedStar,
    FanBladeRing,
    FlyingGeese,
    HalfSquareTriangle,
    Hexagons,
    QuarterSquareTriangle,
    SquareInASquare,
    StripSet,
)
from workers.sewing.panels import PANELS
from workers.sewing.works import Work


def order_works(top: Work) -> list[Work]:
    """Every work once, each after all it is sewn of; small units first, the top last."""
    found = list(_deepest_first(top))
    return sorted(found, key=lambda work: work.kind not in FIRST or bool(work.works))


FIRST = (
    PANELS,
    HalfSquareTriangle.kind,
    QuarterSquareTriangle.kind,
    FlyingGeese.kind,
    CornerSquares.kind,
    SquareInASquare.kind,
    Diamond.kind,
    StripSet.kind,
    EightPointedStar.kind,
    Hexagons.kind,
    FanBladeRing.kind,
)


def _deepest_first(top: Work) -> Iterator[Work]:
    seen: set[Work] = set()

    def visit(work: Work) -> Iterator[Work]:
        if work in seen:
            return
        seen.add(work)
        for inner in work.needed:
            yield from visit(inner)
        yield work

    yield from visit(top)


def count_copies(ordered: list[Work]) -> dict[Work, int]:
    """How many copies of each work the top takes. `ordered` as `order_works` gives it."""
    counts = Counter({ordered[-1]: 1})
    for work in reversed(ordered):
        for inner in work.needed:
            counts[inner] += counts[work]
    return counts
