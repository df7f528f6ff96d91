"""A quarter-square triangle: a square of four triangles that meet in its middle."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from service.craft.measure import Exact, exact, format_length
from service.craft.reading import at
from service.craft.units.base import TWICE, ZERO, CuttingRules, Need, Patch, Unit
from service.craft.units.half_square_triangle import read_fabrics
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"size", "fabrics", "method"})

TWO, TRIANGLES = METHODS = ("two at a time", "cut triangles")


@dataclass(frozen=True, kw_only=True)
class QuarterSquareTriangle(Unit):
    """A square of four triangles. `side` finished, in inches; `fabrics` are north, east, south and west."""

    kind: ClassVar[str] = "quarter-square triangle"
    side: Fraction
    fabrics: tuple[str, str, str, str]
    method: str = TRIANGLES

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return exact(self.side)

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return exact(self.side)

    def own_patches(self) -> list[Patch]:
        """The triangles north, east, south and west."""
        s, half = exact(self.side), exact(self.side / 2)
        corners = [(ZERO, ZERO), (s, ZERO), (s, s), (ZERO, s)]
        return [
            Patch((corners[i], corners[(i + 1) % 4], (half, half)), fabric, self.pointer)
            for i, fabric in enumerate(self.fabrics)
        ]

    def needs(self, rules: CuttingRules) -> list[Need]:
        """Squares f + 1 1/4 (for a 1/4 in seam), cut twice; or sewn in pairs, each pair two units of two cloths.

        Source: K. Combs, Formulas for Quilters, 2002; North Hampshire Quilters, hblk402b. So the straight grain
        lies on the outer edge.
        """
        cut = rules.quarter_square(self.side)
        if self.method == TRIANGLES:
            counts = Counter(self.fabrics)
            return [Need(f, cut, cut, pieces=n, makes=4, then=TWICE) for f, n in counts.items()]
        pair = self.fabrics[:2]
        pool = "/".join([self.kind, *sorted(pair)])
        return [
            Need(cloth, cut, cut, pieces=2, makes=4, pool=pool, method=TWO, partner=partner)
            for cloth, partner in (pair, pair[::-1])
        ]


def can_pair(fabrics: tuple[str, ...]) -> bool:
    """Whether units come two at a time: two cloths, each on opposite sides.

    With any other choice of cloths the second unit of a pair is the first one's mirror image.
    """
    north, east, south, west = fabrics
    return north == south and east == west and north != east


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> QuarterSquareTriangle | None:
    """A quarter-square triangle from the document; two at a time where that is possible and nothing else is said."""
    reader = units.reader
    size = reader.size(raw, pointer)
    fabrics = read_fabrics(raw, pointer, units, count=4)
    pairs = fabrics is not None and can_pair(fabrics)
    method = reader.choice(raw, "method", pointer, METHODS, TWO if pairs else TRIANGLES)
    if size is not None and size[0] != size[1]:
        shown = " by ".join(format_length(s, reader.measure) for s in size)
        detail = f"a quarter-square triangle is square, this one is {shown}"
        reader.fault(at(pointer, "size"), detail, "the same width and height")
        return None
    if fabrics is not None and method == TWO and not pairs:
        detail = "two at a time gives two cloths, each on opposite sides; these cloths lie otherwise"
        reader.fault(at(pointer, "method"), detail, f'"{TRIANGLES}"')
        return None
    if size is None or fabrics is None:
        return None
    north, east, south, west = fabrics
    return QuarterSquareTriangle(
        pointer=pointer, side=size[0], fabrics=(north, east, south, west), method=method
    )
