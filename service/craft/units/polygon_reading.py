"""Reads a block given by the corners of its patches: every slip by its place, and what each patch is cut as."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Any

from service.craft.measure import format_length
from service.craft.planar.clipped import ClippedRectangle, choose_clipped
from service.craft.planar.figures import Figure, NotAFigure, RationalPoint, grid_step, make_figure, to_grid
from service.craft.planar.shapes import Form, Shape
from service.craft.reading import at
from service.craft.units.polygon_cover import FINEST_GRID, check_cover
from service.craft.units.polygons import Polygons, StraightPatch, plan_cut
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"size", "patches"})
PATCH_FIELDS = frozenset({"points", "fabric"})

MOST_PATCHES, MOST_CORNERS, MOST_DIRECTIONS = 6000, 60, 120
"""Patches of a block, corners of a patch, directions of a block's seams: more than anybody sews, and quick to check."""


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> Polygons | None:
    """A block of straight seams from the document."""
    reader = units.reader
    size = reader.size(raw, pointer)
    where = at(pointer, "patches")
    listed = reader.sequence(
        raw.get("patches"), where if "patches" in raw else pointer, 'the list "patches"', least=1
    )
    if listed is not None and len(listed) > MOST_PATCHES:
        reader.fault(where, f"these are {len(listed)} patches", f"at most {MOST_PATCHES} in one block")
        return None
    read_patches = [_read_patch(entry, at(where, i), size, units) for i, entry in enumerate(listed or [])]
    patches = [patch for patch in read_patches if patch is not None]
    if size is None or not patches or len(patches) != len(read_patches):
        return None
    per_inch = grid_step([size, *(point for points, _ in patches for point in points)], most=FINEST_GRID)
    if per_inch is None or per_inch * max(size) > FINEST_GRID:
        detail = "the corners lie on no common grid: their lengths divide the inch in too many ways"
        reader.fault(where, detail, "fractions such as 1/8 or 1/3 of an inch, or tenths of a millimetre")
        return None
    figures = _make_figures([points for points, _ in patches], per_inch, where, units)
    if figures is None or not _are_seams(figures, where, units):
        return None
    if not check_cover(figures, size, per_inch, pointer, reader):
        return None
    fabrics = [fabric for _, fabric in patches if fabric is not None]
    if len(fabrics) != len(patches):
        return None
    straight = _plan_cuts(figures, fabrics, per_inch, units)
    return Polygons(pointer=pointer, size=size, per_inch=per_inch, straight=straight)


def _read_patch(
    raw: Any, pointer: str, size: tuple[Fraction, Fraction] | None, units: UnitReader
) -> tuple[list[RationalPoint], str | None] | None:
    """Its corners, and its cloth where that is one: a slip in the cloth hides none in the corners."""
    reader = units.reader
    fields = reader.mapping(
        raw, pointer, "a patch", like='{"points": [["0", "0"], ["3", "0"], ["0", "3"]], "fabric": "frost"}'
    )
    if fields is None:
        return None
    reader.known_fields(fields, pointer, PATCH_FIELDS)
    fabric = reader.fabric(fields, "fabric", pointer, "the patch")
    where = at(pointer, "points")
    listed = reader.sequence(
        fields.get("points"), where if "points" in fields else pointer, 'the list "points"', least=3
    )
    if listed is not None and len(listed) > MOST_CORNERS:
        reader.fault(where, f"these are {len(listed)} corners", f"at most {MOST_CORNERS} round one patch")
        return None
    points = [_read_point(entry, at(where, i), size, units) for i, entry in enumerate(listed or [])]
    whole = [point for point in points if point is not None]
    return None if not whole or len(whole) != len(points) else (whole, fabric)


def _read_point(
    raw: Any, pointer: str, size: tuple[Fraction, Fraction] | None, units: UnitReader
) -> RationalPoint | None:
    """A corner inside the block."""
    reader = units.reader
    if not isinstance(raw, list) or len(raw) != 2:
        reader.fault(pointer, "a corner is not a pair of lengths", '[x, y], for example ["1 1/2", "3"]')
        return None
    x = reader.length(raw[0], at(pointer, 0), "the way from the left edge", zero=True)
    y = reader.length(raw[1], at(pointer, 1), "the way from the upper edge", zero=True)
    if x is None or y is None or size is None:
        return None
    for axis, (value, side, name) in enumerate(zip((x, y), size, ("wide", "high"), strict=True)):
        if value > side:
            far, most = (format_length(v, reader.measure) for v in (value, side))
            reader.fault(
                at(pointer, axis), f"the corner lies at {far}; the block is {most} {name}", f"at most {most}"
            )
            return None
    return x, y


def _make_figures(
    patches: list[list[RationalPoint]], per_inch: int, where: str, units: UnitReader
) -> list[Figure] | None:
    figures = []
    for i, points in enumerate(patches):
        try:
            figures.append(make_figure(to_grid(points, per_inch)))
        except NotAFigure as why:
            units.reader.fault(
                at(where, i, "points"),
                f"this is no patch: {why}",
                "three corners or more, in order round the patch",
            )
    return figures if len(figures) == len(patches) else None


def _are_seams(figures: list[Figure], where: str, units: UnitReader) -> bool:
    """Whether the edges run in as few directions as seams do."""
    directions = len(frozenset().union(*(figure.directions for figure in figures)))
    if directions > MOST_DIRECTIONS:
        right = f"at most {MOST_DIRECTIONS}; check whether neighbours share their corners"
        units.reader.fault(where, f"the edges run in {directions} directions", right)
    return directions <= MOST_DIRECTIONS


def _plan_cuts(
    figures: list[Figure], fabrics: list[str], per_inch: int, units: UnitReader
) -> tuple[StraightPatch, ...]:
    """How every patch is cut: bases with their corner squares first, then each of the others by itself."""
    shapes: dict[int, Shape] = {}
    for clipped in choose_clipped(figures):
        shapes[clipped.base] = _shape_of_base(clipped)
        shapes |= {triangle: Shape(Form.CORNER, (leg, leg)) for _, triangle, leg in clipped.corners}
    return tuple(
        StraightPatch(figure, fabric, shapes[number])
        if number in shapes
        else plan_cut(figure, fabric, per_inch, units)
        for number, (figure, fabric) in enumerate(zip(figures, fabrics, strict=True))
    )


def _shape_of_base(clipped: ClippedRectangle) -> Shape:
    (left, top), _, (right, bottom), _ = clipped.whole.corners
    return Shape(Form.BASE, (right - left, bottom - top))
