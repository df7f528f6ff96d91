"""What the patches of straight-seam blocks are put together from: squares, triangles, geese, cut corners, on a grid."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

Shape = tuple[list[tuple[Any, Any]], str]
Block = tuple[int, list[Shape]]

BASE, MAIN, DARK = "frost", "leaf", "soil"


def box(x: Any, y: Any, w: Any, h: Any, cloth: str) -> list[Shape]:
    return [([(x, y), (x + w, y), (x + w, y + h), (x, y + h)], cloth)]


def half(x: int, y: int, s: int, corner: str, cloth: str, other: str) -> list[Shape]:
    """A square of two triangles; `cloth` fills the named corner."""
    nw, ne, se, sw = (x, y), (x + s, y), (x + s, y + s), (x, y + s)
    first = {"nw": [sw, nw, ne], "ne": [nw, ne, se], "se": [ne, se, sw], "sw": [se, sw, nw]}
    opposite = {"nw": "se", "se": "nw", "ne": "sw", "sw": "ne"}[corner]
    return [(first[corner], cloth), (first[opposite], other)]


def quarters(x: int, y: int, s: int, *cloths: str) -> list[Shape]:
    """A square of four triangles: north, east, south, west."""
    corners = [(x, y), (x + s, y), (x + s, y + s), (x, y + s)]
    middle = (x + Fraction(s, 2), y + Fraction(s, 2))
    return [([corners[i], corners[(i + 1) % 4], middle], cloth) for i, cloth in enumerate(cloths)]


def goose(x: int, y: int, s: int, way: str, cloth: str, sky: str) -> list[Shape]:
    """A goose 2s long and s high that flies north, east, south or west; (x, y) is the corner of its box."""
    a, b = (2 * s, s) if way in "ns" else (s, 2 * s)
    nw, ne, se, sw = (x, y), (x + a, y), (x + a, y + b), (x, y + b)
    tips = {"n": (x + s, y), "s": (x + s, y + s), "e": (x + s, y + s), "w": (x, y + s)}
    tip = tips[way]
    back = {"n": (sw, se), "s": (nw, ne), "e": (nw, sw), "w": (ne, se)}[way]
    front = {"n": (nw, ne), "s": (sw, se), "e": (ne, se), "w": (nw, sw)}[way]
    return [([*back, tip], cloth), ([back[0], front[0], tip], sky), ([back[1], front[1], tip], sky)]


def corners_cut(n: int, leg: int, cloth: str, corner: str) -> list[Shape]:
    """A square of n with its four corners cut off."""
    ring = [(leg, 0), (n - leg, 0), (n, leg), (n, n - leg), (n - leg, n), (leg, n), (0, n - leg), (0, leg)]
    tips = [(0, 0), (n, 0), (n, n), (0, n)]
    ends = [(ring[7], ring[0]), (ring[1], ring[2]), (ring[3], ring[4]), (ring[5], ring[6])]
    return [(ring, cloth), *(([a, tip, b], corner) for tip, (a, b) in zip(tips, ends, strict=True))]


def turned(shapes: list[Shape], n: int) -> list[Shape]:
    """The same a quarter turn clockwise in a block of n."""
    return [([(n - y, x) for x, y in points], cloth) for points, cloth in shapes]


def four_turns(shapes: list[Shape], n: int) -> list[Shape]:
    """A quarter of a block, turned into all four."""
    found = list(shapes)
    for _ in range(3):
        shapes = turned(shapes, n)
        found += shapes
    return found
