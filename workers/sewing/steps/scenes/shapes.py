"""What the scenes are put together from: rectangles, lines, the iron, the ruler, a piece to lay on."""

from __future__ import annotations

from service.craft.drawing.scenes import Line, Piece
from service.craft.outlines.affine import Point

NO_CLOTH = ""
"""The key of what is no cloth of the project: paper, card, a ruler, an iron."""

HOOP = (
    (3.0, 0.5),
    (17.0, 0.5),
    (18.5, 2.0),
    (18.5, 10.0),
    (17.0, 11.5),
    (3.0, 11.5),
    (1.5, 10.0),
    (1.5, 2.0),
)
"""The inner edge of a hoop."""


def rect(
    x: float, y: float, width: float, height: float, cloth: str = NO_CLOTH, *, back: bool = False
) -> Piece:
    """An upright rectangle by its upper left corner."""
    return Piece(((x, y), (x + width, y), (x + width, y + height), (x, y + height)), cloth, back)


def ring(kind: str, points: tuple[Point, ...], at: Point = (0.0, 0.0)) -> tuple[tuple[str, Line], ...]:
    """A line all the way round a shape."""
    moved = [(x + at[0], y + at[1]) for x, y in points]
    return tuple((kind, (a, b)) for a, b in zip(moved, [*moved[1:], moved[0]], strict=True))


def iron(x: float, y: float, size: float = 5.0) -> Piece:
    """An iron from above, its tip to the left."""
    sole = ((0.0, 0.5), (0.35, 0.15), (0.7, 0.05), (1.0, 0.0), (1.0, 1.0), (0.7, 0.95), (0.35, 0.85))
    return Piece(tuple((x + a * size, y + b * size * 0.55) for a, b in sole), NO_CLOTH)


def ruler(x: float, y: float, width: float, height: float) -> tuple[Piece, tuple[tuple[str, Line], ...]]:
    """A ruler with its marks along the longer side."""
    along = height > width
    steps = [i * max(width, height) / 8 for i in range(1, 8)]
    marks = (
        [((x, y + at), (x + width * 0.4, y + at)) for at in steps]
        if along
        else [((x + at, y), (x + at, y + height * 0.4)) for at in steps]
    )
    return rect(x, y, width, height), tuple(("drawn", mark) for mark in marks)


def frame(kind: str, x: float, y: float, width: float, height: float) -> tuple[tuple[str, Line], ...]:
    """A rectangle of lines."""
    return ring(kind, ((x, y), (x + width, y), (x + width, y + height), (x, y + height)))


def seam(y: float, x0: float = 0.0, x1: float = 20.0) -> tuple[str, Line]:
    """A seam to sew across, at one height."""
    return "sew", ((x0, y), (x1, y))
