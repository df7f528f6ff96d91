"""A field of hexagons that stand on a point, row on row; halves and triangles of one cloth make its edges straight.

A hexagon is named by its finished side s: 2s from point to point, s√3 from flat to flat. Down the field all places
are exact. Across it s√3/2 is no fraction: it is taken to the nearest of `STEPS` parts of an inch or more, the same
for every hexagon, so that all are alike and meet without a gap; a field a hundred hexagons wide is off by less than
1/64 in.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import cached_property
from math import ceil
from typing import Any, ClassVar

from service.craft.measure import Exact, round_nearest
from service.craft.planar.figures import RationalPoint, grid_step, make_figure, to_grid
from service.craft.reading import at
from service.craft.units.base import Patch
from service.craft.units.polygon_cover import FINEST_GRID
from service.craft.units.polygon_reading import MOST_PATCHES
from service.craft.units.polygons import Polygons, plan_cut
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"side", "rows", "edge"})

STEPS = 2**14
"""Parts of an inch to which half the width of a hexagon is taken; a few more where the side needs a grid of its own."""

Shape = tuple[list[RationalPoint], str]


@dataclass(frozen=True, kw_only=True)
class Hexagons(Polygons):
    """A field of hexagons of finished `side` inches; `row_lengths` says how many whole ones stand in each row."""

    kind: ClassVar[str] = "hexagons"
    side: Fraction
    row_lengths: tuple[int, ...]

    @cached_property
    def set_in(self) -> list[tuple[int, ...]]:
        """Nothing to be warned of: three hexagons meet at every point, so every field of them is set in."""
        return []

    @cached_property
    def rings(self) -> list[tuple[int, ...]]:
        """None: all of its seams are set in."""
        return []

    def own_patches(self) -> list[Patch]:
        """Row by row from the left, with the halves at its ends; then the triangles along the edges."""
        return [replace(patch, pointer=self.pointer) for patch in super().own_patches()]


def find_half_width(side: Fraction) -> Fraction:
    """Half of a hexagon from flat to flat, s√3/2 to the nearest step, in inches.

    >>> float(find_half_width(Fraction(1))).__round__(4)
    0.866
    """
    parts = (side / 2).denominator
    return round_nearest(Exact(0, side / 2, 3), Fraction(1, parts * ceil(STEPS / parts)))


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> Hexagons | None:
    """A field of hexagons from the document."""
    reader = units.reader
    where = at(pointer, "side") if "side" in raw else pointer
    side = reader.length(raw.get("side"), where, "the finished side of a hexagon")
    edge = reader.fabric(raw, "edge", pointer, "the edge of the field")
    rows = _read_rows(raw, pointer, units)
    if side is None or edge is None or rows is None:
        return None
    half = find_half_width(side)
    size = 2 * half * len(rows[0]), side * Fraction(3 * len(rows) + 1, 2)
    shapes = list(_list_shapes(rows, edge, side, half, size))
    per_inch = grid_step([size, *(point for points, _ in shapes for point in points)], most=FINEST_GRID)
    if not half or len(shapes) > MOST_PATCHES or per_inch is None or per_inch * max(size) > FINEST_GRID:
        detail = (
            f"these are {len(shapes)} patches with hexagons of that side, more than can be laid out exactly"
        )
        reader.fault(pointer, detail, "fewer hexagons, or a side such as 1 1/2 in or 25 mm")
        return None
    figures = [(make_figure(to_grid(points, per_inch)), fabric) for points, fabric in shapes]
    straight = tuple(plan_cut(figure, fabric, per_inch, units) for figure, fabric in figures)
    lengths = tuple(map(len, rows))
    return Hexagons(
        pointer=pointer, size=size, per_inch=per_inch, straight=straight, side=side, row_lengths=lengths
    )


def _read_rows(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> list[list[str]] | None:
    """The cloths row by row; every second row has one hexagon fewer, for it begins and ends with half a one."""
    reader, where = units.reader, at(pointer, "rows")
    listed = reader.sequence(raw.get("rows"), where if "rows" in raw else pointer, 'the list "rows"', least=1)
    if listed is None:
        return None
    rows: list[list[str]] = []
    before = len(reader.faults)
    for i, entry in enumerate(listed):
        row = reader.sequence(entry, at(where, i), "a row of hexagons", least=1)
        cloths = [
            reader.fabric_name(cloth, at(where, i, j), "a hexagon") for j, cloth in enumerate(row or [])
        ]
        rows.append([cloth for cloth in cloths if cloth is not None])
        wanted = len(listed[0]) - i % 2 if isinstance(listed[0], list) else 0
        if row is not None and wanted > 0 and len(row) != wanted:
            detail = f"row {i + 1} has {len(row)} hexagons"
            right = f"{wanted}: every second row has one fewer, for it begins and ends with half a hexagon"
            reader.fault(at(where, i), detail, right)
    if len(listed) > 1 and isinstance(listed[0], list) and len(listed[0]) == 1:
        reader.fault(at(where, 0), "the first row has 1 hexagon", "2 or more where there are several rows")
    return rows if len(reader.faults) == before else None


def _list_shapes(
    rows: Sequence[Sequence[str]], edge: str, side: Fraction, half: Fraction, size: tuple[Fraction, Fraction]
) -> Iterator[Shape]:
    """Every patch with its cloth: hexagons and halves row by row, then the triangles above and below."""
    width, height = size
    zero = Fraction(0)
    for i, row in enumerate(rows):
        top, indent = i * side * Fraction(3, 2), half * (i % 2)
        if indent:
            yield _half_hexagon(zero, half, top, side), edge
        for j, cloth in enumerate(row):
            yield _hexagon(indent + 2 * half * j, half, top, side), cloth
        if indent:
            yield _half_hexagon(width, -half, top, side), edge
    yield from ((points, edge) for points in _fill_edge(zero, side / 2, half, width, indented=False))
    indented = len(rows) % 2 == 0
    yield from ((points, edge) for points in _fill_edge(height, -side / 2, half, width, indented=indented))


def _hexagon(left: Fraction, half: Fraction, top: Fraction, side: Fraction) -> list[RationalPoint]:
    middle, right = left + half, left + 2 * half
    upper, lower = top + side / 2, top + side * Fraction(3, 2)
    return [
        *((middle, top), (right, upper), (right, lower)),
        *((middle, top + 2 * side), (left, lower), (left, upper)),
    ]


def _half_hexagon(outside: Fraction, inwards: Fraction, top: Fraction, side: Fraction) -> list[RationalPoint]:
    """Half of one, its long side on the edge of the field."""
    inside = outside + inwards
    upper, lower = top + side / 2, top + side * Fraction(3, 2)
    return [(outside, top), (inside, upper), (inside, lower), (outside, top + 2 * side)]


def _fill_edge(
    y: Fraction, inwards: Fraction, half: Fraction, width: Fraction, *, indented: bool
) -> Iterator[list[RationalPoint]]:
    """The triangles between the points of a row along an edge, and half ones in the corners of a row that is full."""
    deep = y + inwards
    count = int(width / (2 * half))
    if not indented:
        yield [(Fraction(0), y), (half, y), (Fraction(0), deep)]
    first = Fraction(0) if indented else half
    for j in range(count if indented else count - 1):
        left = first + 2 * half * j
        yield [(left, y), (left + 2 * half, y), (left + half, deep)]
    if not indented:
        yield [(width - half, y), (width, y), (width, deep)]
