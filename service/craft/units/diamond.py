"""A diamond in a rectangle, its points in the middles of the sides, with a triangle in each corner.

In a square it is a square in a square and is cut as one; in any other rectangle every patch has its template.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any, ClassVar

from service.craft.planar.figures import grid_step, make_figure, to_grid
from service.craft.reading import at
from service.craft.units.base import Patch
from service.craft.units.polygon_cover import FINEST_GRID
from service.craft.units.polygons import Polygons, plan_cut
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"size", "fabric", "corners"})
CORNERS = 4


@dataclass(frozen=True, kw_only=True)
class Diamond(Polygons):
    """A diamond with four corner triangles; `size` is that of the rectangle."""

    kind: ClassVar[str] = "diamond"

    def own_patches(self) -> list[Patch]:
        """The diamond, then the triangles at nw, ne, se and sw."""
        return [replace(patch, pointer=self.pointer) for patch in super().own_patches()]


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> Diamond | None:
    """A diamond from the document; one cloth stands for all four corners."""
    reader = units.reader
    size = reader.size(raw, pointer)
    fabric = reader.fabric(raw, "fabric", pointer, "the diamond")
    corners = _read_corners(raw, pointer, units)
    if size is None or fabric is None or corners is None:
        return None
    middle = size[0] / 2, size[1] / 2
    per_inch = grid_step([size, middle], most=FINEST_GRID)
    if per_inch is None or per_inch * max(size) > FINEST_GRID:
        detail = "width and height lie on no common grid: they divide the inch in too many ways"
        reader.fault(
            at(pointer, "size"), detail, "fractions such as 1/8 or 1/3 of an inch, or tenths of a millimetre"
        )
        return None
    zero, (width, height) = Fraction(0), size
    north, east, south, west = (
        *((middle[0], zero), (width, middle[1])),
        *((middle[0], height), (zero, middle[1])),
    )
    triangles = [
        [west, (zero, zero), north],
        [north, (width, zero), east],
        [east, (width, height), south],
        [south, (zero, height), west],
    ]
    shapes = [([north, east, south, west], fabric), *zip(triangles, corners, strict=True)]
    straight = tuple(
        plan_cut(make_figure(to_grid(points, per_inch)), cloth, per_inch, units) for points, cloth in shapes
    )
    return Diamond(pointer=pointer, size=size, per_inch=per_inch, straight=straight)


def _read_corners(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> list[str] | None:
    """The cloths at nw, ne, se and sw."""
    reader, where = units.reader, at(pointer, "corners")
    if not isinstance(raw.get("corners"), list):
        cloth = reader.fabric(raw, "corners", pointer, "the corners of the diamond")
        return None if cloth is None else [cloth] * CORNERS
    listed = raw["corners"]
    if len(listed) != CORNERS:
        right = "one cloth for all corners, or four: top left, top right, bottom right, bottom left"
        reader.fault(where, f"these are {len(listed)} cloths for four corners", right)
        return None
    cloths = [reader.fabric_name(cloth, at(where, i), "a corner") for i, cloth in enumerate(listed)]
    named = [cloth for cloth in cloths if cloth is not None]
    return named if len(named) == CORNERS else None
