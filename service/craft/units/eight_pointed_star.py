"""An eight-pointed star: eight diamonds round the middle, four squares in the corners, four triangles at the edges.

Every short edge of its patches has one length, the side of a diamond; the whole is 2 + √2 of them wide.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from service.craft.measure import ROOT_2, Exact, exact, format_length
from service.craft.reading import at
from service.craft.units.base import DIAMONDS, TWICE, ZERO, CuttingRules, Need, Patch, Point, Unit
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"size", "diamonds", "background"})

POINTS = 8
LONGEST_PIECE = Fraction(36)
"""Inches of strip from which diamonds are cut together, so that the piece fits across any cloth by the yard."""


@dataclass(frozen=True, kw_only=True)
class EightPointedStar(Unit):
    """A star of finished `side` inches. Clockwise from noon its diamonds take the two cloths in turn."""

    kind: ClassVar[str] = "eight-pointed star"
    side: Fraction
    diamonds: tuple[str, str]
    background: str

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return exact(self.side)

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return exact(self.side)

    @property
    def diamond_side(self) -> Exact:
        """Finished side of a diamond in inches: the block is 3.41 of them (K. Combs, Formulas for Quilters, 2002)."""
        return self.side / (2 + ROOT_2)

    def own_patches(self) -> list[Patch]:
        """The diamonds clockwise, then edge triangles north, east, south, west, then corner squares from north-east."""
        s, d, half = self.width, self.diamond_side, self.width / 2
        middle = (half, half)
        near, far = d / ROOT_2, s - d / ROOT_2
        hollows: list[Point] = [
            *((half, near), (s - d, d), (far, half), (s - d, s - d)),
            *((half, far), (d, s - d), (near, half), (d, d)),
        ]
        tips: list[Point] = [
            *((s - d, ZERO), (s, d), (s, s - d), (s - d, s)),
            *((d, s), (ZERO, s - d), (ZERO, d), (d, ZERO)),
        ]
        corners: list[Point] = [(s, ZERO), (s, s), (ZERO, s), (ZERO, ZERO)]
        diamonds = [
            Patch(
                (middle, hollows[i], tips[i], hollows[(i + 1) % POINTS]), self.diamonds[i % 2], self.pointer
            )
            for i in range(POINTS)
        ]
        around = [(tips[2 * i - 1], tips[2 * i], hollows[2 * i]) for i in range(4)]
        squares = [(tips[2 * i], corners[i], tips[2 * i + 1], hollows[2 * i + 1]) for i in range(4)]
        return diamonds + [Patch(points, self.background, self.pointer) for points in (*around, *squares)]

    def needs(self, rules: CuttingRules) -> list[Need]:
        """Diamonds from strips, edge triangles from a square cut twice, corner squares plain.

        A strip is as wide as a diamond is high, side/√2, and two allowances; slanting cuts as far apart as the strip
        is wide make diamonds of it (geometry).
        """
        square = rules.plain(self.diamond_side)
        triangle = rules.quarter_square(self.diamond_side * ROOT_2)
        return [
            *self._diamond_needs(rules),
            Need(self.background, triangle, triangle, pieces=4, makes=4, then=TWICE),
            Need(self.background, square, square, pieces=4),
        ]

    def _diamond_needs(self, rules: CuttingRules) -> list[Need]:
        strip = rules.plain(self.diamond_side / ROOT_2)
        # along the strip a diamond takes strip·√2; the slanting end of the first one takes another strip width
        makes = next((n for n in (4, 2) if strip * (n * ROOT_2 + 1) <= LONGEST_PIECE), 1)
        length = rules.round(strip * (makes * ROOT_2 + 1))
        return [
            Need(fabric, length, strip, pieces=POINTS // 2 * times, makes=makes, then=DIAMONDS)
            for fabric, times in Counter(self.diamonds).items()
        ]


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> EightPointedStar | None:
    """An eight-pointed star from the document."""
    reader = units.reader
    size = reader.size(raw, pointer)
    diamonds = _read_diamonds(raw, pointer, units)
    background = reader.fabric(raw, "background", pointer, "the background of the star")
    if size is not None and size[0] != size[1]:
        shown = " by ".join(format_length(side, reader.measure) for side in size)
        reader.fault(
            at(pointer, "size"),
            f"an eight-pointed star is square, this one is {shown}",
            "the same width and height",
        )
        return None
    if size is None or diamonds is None or background is None:
        return None
    return EightPointedStar(pointer=pointer, side=size[0], diamonds=diamonds, background=background)


def _read_diamonds(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> tuple[str, str] | None:
    """The two cloths in turn; one cloth alone stands for both."""
    reader, where = units.reader, at(pointer, "diamonds")
    listed = reader.sequence(
        raw.get("diamonds"), where if "diamonds" in raw else pointer, 'the list "diamonds"', least=1
    )
    if listed is None:
        return None
    if len(listed) > 2:
        reader.fault(where, f"these are {len(listed)} cloths", "two cloths in turn, or one for all diamonds")
        return None
    cloths = [reader.fabric_name(cloth, at(where, i), "a diamond") for i, cloth in enumerate(listed)]
    first, second = cloths[0], cloths[-1]
    return None if first is None or second is None else (first, second)
