"""Affine maps of the plane: what a transform attribute, a view box and a placed piece have in common."""

from __future__ import annotations

import math
from dataclasses import dataclass

Point = tuple[float, float]

QUARTER_TURNS: dict[float, tuple[float, float]] = {
    0: (1.0, 0.0),
    90: (0.0, 1.0),
    180: (-1.0, 0.0),
    270: (0.0, -1.0),
}
"""Cosine and sine of the turns that must come out without rounding."""


@dataclass(frozen=True)
class Affine:
    """The map (x, y) -> (a x + c y + e, b x + d y + f), with the letters in the order of SVG's `matrix()`."""

    a: float = 1.0
    b: float = 0.0
    c: float = 0.0
    d: float = 1.0
    e: float = 0.0
    f: float = 0.0

    def apply(self, point: Point) -> Point:
        """Where a point goes.

        >>> Affine.turning(90).apply((1.0, 0.0))
        (0.0, 1.0)
        """
        x, y = point
        return self.a * x + self.c * y + self.e, self.b * x + self.d * y + self.f

    def __matmul__(self, inner: Affine) -> Affine:
        """The map that does `inner` first and `self` after it."""
        e, f = self.apply((inner.e, inner.f))
        return Affine(
            self.a * inner.a + self.c * inner.b,
            self.b * inner.a + self.d * inner.b,
            self.a * inner.c + self.c * inner.d,
            self.b * inner.c + self.d * inner.d,
            e,
            f,
        )

    @property
    def determinant(self) -> float:
        """How much areas grow; negative where the map mirrors."""
        return self.a * self.d - self.b * self.c

    @property
    def numbers(self) -> tuple[float, float, float, float, float, float]:
        """The six numbers in the order of SVG's `matrix()`."""
        return self.a, self.b, self.c, self.d, self.e, self.f

    @classmethod
    def moving(cls, x: float, y: float) -> Affine:
        """A shift."""
        return cls(e=x, f=y)

    @classmethod
    def scaling(cls, x: float, y: float) -> Affine:
        """A change of scale along both axes, the origin stays."""
        return cls(a=x, d=y)

    @classmethod
    def turning(cls, degrees: float) -> Affine:
        """A turn round the origin, clockwise as seen on a page whose y runs down."""
        exact = QUARTER_TURNS.get(degrees % 360)
        cos, sin = exact or (math.cos(math.radians(degrees)), math.sin(math.radians(degrees)))
        return cls(cos, sin, -sin, cos)
