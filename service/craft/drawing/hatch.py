"""Hatch lines cut to shapes: parallel lines on one lattice, so that patches of one cloth join up."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence

from service.craft.drawing.sheet import Polygon
from service.craft.outlines.affine import Point

JOIN_TOLERANCE_MM = 0.01
"""Pieces of one hatch line that come this close are drawn as one."""


def hatch_lines(
    shapes: Iterable[Sequence[Polygon]], *, spacing_mm: float, degrees: float
) -> list[tuple[Point, Point]]:
    """The parts of parallel lines that lie inside shapes, each shape a list of rings (even-odd).

    `degrees` is the lines' direction, counted clockwise from x to the right. O(corners x lines crossed).

    >>> square = [(0, 0), (4, 0), (4, 4), (0, 4)]
    >>> hatch_lines([[square]], spacing_mm=2, degrees=0)
    [((0.0, 1.0), (4.0, 1.0)), ((0.0, 3.0), (4.0, 3.0))]
    >>> hatch_lines([], spacing_mm=2, degrees=0)
    []
    """
    turn = math.radians(degrees)
    cos, sin = math.cos(turn), math.sin(turn)
    spans: dict[int, list[tuple[float, float]]] = defaultdict(list)
    for rings in shapes:
        flat = [[(x * cos + y * sin, -x * sin + y * cos) for x, y in ring] for ring in rings]
        for row, span in _find_spans(flat, spacing_mm):
            spans[row].append(span)
    return [
        tuple((u * cos - v * sin, u * sin + v * cos) for u in span)  # type: ignore[misc]  # two ends of a span
        for row in sorted(spans)
        for v in ((row + 0.5) * spacing_mm,)
        for span in _join(spans[row])
    ]


def _find_spans(rings: Iterable[Polygon], spacing: float) -> Iterator[tuple[int, tuple[float, float]]]:
    crossings: dict[int, list[float]] = defaultdict(list)
    for ring in rings:
        for (x0, y0), (x1, y1) in zip(ring, [*ring[1:], ring[0]], strict=True):
            # half-open in y, so that a corner on a line counts once
            low, high = sorted((y0, y1))
            for row in range(math.ceil(low / spacing - 0.5), math.ceil(high / spacing - 0.5)):
                crossings[row].append(x0 + ((row + 0.5) * spacing - y0) * (x1 - x0) / (y1 - y0))
    for row, places in crossings.items():
        places.sort()
        yield from ((row, pair) for pair in zip(places[::2], places[1::2], strict=False))


def _join(spans: list[tuple[float, float]]) -> Iterator[tuple[float, float]]:
    spans.sort()
    start, end = spans[0]
    for left, right in spans[1:]:
        if left > end + JOIN_TOLERANCE_MM:
            yield start, end
            start, end = left, right
        else:
            end = max(end, right)
    yield start, end
