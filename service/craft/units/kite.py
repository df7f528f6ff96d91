"""A kite in a square: two lines from one corner to the two far sides leave a kite between two triangles.

The kite is its own mirror image over the diagonal of the square. It lies with its tail at the lower left and its
right angle at the upper right; `turned` lays it another way. All three patches are cut with templates.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, ClassVar

from service.craft.measure import format_length
from service.craft.planar.figures import grid_step, make_figure, to_grid
from service.craft.reading import at
from service.craft.units.base import Patch
from service.craft.units.polygon_cover import FINEST_GRID
from service.craft.units.polygons import Polygons, plan_cut
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"size", "kite", "background", "shoulder"})


@dataclass(frozen=True, kw_only=True)
class Kite(Polygons):
    """A kite in a square. `shoulder` is the finished length (inches) of each of the two short sides of the kite."""

    kind: ClassVar[str] = "kite"
    shoulder: Fraction

    def own_patches(self) -> list[Patch]:
        """The kite, then the triangle above it and the triangle below it."""
        return [replace(patch, pointer=self.pointer) for patch in super().own_patches()]


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> Kite | None:
    """A kite from the document; without a `shoulder` the lines run to the middles of the far sides."""
    reader = units.reader
    size = reader.size(raw, pointer)
    kite = reader.fabric(raw, "kite", pointer, "the kite")
    background = reader.fabric(raw, "background", pointer, "the background of the kite")
    half = Fraction(1) if size is None else size[0] / 2
    shoulder = reader.optional_length(raw, "shoulder", pointer, "the short side of the kite", half)
    if size is None or not _fits(size, shoulder, pointer, units) or kite is None or background is None:
        return None
    side = size[0]
    per_inch = grid_step([size, (shoulder, shoulder)], most=FINEST_GRID)
    if per_inch is None or per_inch * side > FINEST_GRID:
        detail = "the size and the short side lie on no common grid: they divide the inch in too many ways"
        reader.fault(
            at(pointer, "size"), detail, "fractions such as 1/8 or 1/3 of an inch, or tenths of a millimetre"
        )
        return None
    zero, bend = Fraction(0), side - shoulder
    tail, head, top, right = (zero, side), (side, zero), (bend, zero), (side, shoulder)
    shapes = [
        ([tail, top, head, right], kite),
        ([tail, (zero, zero), top], background),
        ([tail, right, (side, side)], background),
    ]
    figures = [(make_figure(to_grid(points, per_inch)), fabric) for points, fabric in shapes]
    straight = tuple(plan_cut(figure, fabric, per_inch, units) for figure, fabric in figures)
    return Kite(pointer=pointer, size=size, per_inch=per_inch, straight=straight, shoulder=shoulder)


def _fits(size: tuple[Fraction, Fraction], shoulder: Fraction, pointer: str, units: UnitReader) -> bool:
    """Whether the square is one and the lines end inside its sides; each fault gives the sizes."""
    shown = [format_length(side, units.reader.measure) for side in (*size, shoulder)]
    if size[0] != size[1]:
        detail = f"a kite stands in a square, this one is {shown[0]} by {shown[1]}"
        units.reader.fault(at(pointer, "size"), detail, "the same width and height")
    if shoulder >= size[0]:
        detail = f"the short side of the kite is {shown[2]}, the square {shown[0]}: nothing is left beside the kite"
        units.reader.fault(at(pointer, "shoulder"), detail, f"less than {shown[0]}, half of it for example")
    return size[0] == size[1] and shoulder < size[0]
