"""Blocks standing on their corners in rows, with alternates between them and triangles at the edge."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from service.craft.measure import ROOT_2, Exact, format_length
from service.craft.reading import at
from service.craft.units.base import ONCE, TWICE, ZERO, CuttingRules, Frame, Need, Patch, Point, Unit
from service.craft.units.reading import UnitReader
from service.craft.units.square_in_a_square import on_its_corner

FIELDS = frozenset({"rows", "alternate", "side", "corner", "extra"})


@dataclass(frozen=True, kw_only=True)
class OnPoint(Unit):
    """r rows of c square blocks on point; (c-1)(r-1) alternates; side and corner setting triangles.

    `extra` inches are added to the cut squares of the setting triangles, to be trimmed off after sewing.
    """

    kind: ClassVar[str] = "on point"
    rows: tuple[tuple[Unit, ...], ...]
    alternate: Unit | None
    side: str
    corner: str
    extra: Fraction = Fraction(0)

    @property
    def block_side(self) -> Exact:
        """Finished side of a block in inches."""
        return self.rows[0][0].width

    @property
    def diagonal(self) -> Exact:
        """Finished diagonal of a block in inches: what one block takes of the width."""
        return self.block_side * ROOT_2

    @property
    def columns(self) -> int:
        """Blocks in a row."""
        return len(self.rows[0])

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return self.diagonal * self.columns

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return self.diagonal * len(self.rows)

    @property
    def side_triangles(self) -> int:
        """How many side setting triangles: 2(c-1) + 2(r-1)."""
        return 2 * (self.columns - 1) + 2 * (len(self.rows) - 1)

    def children(self) -> list[tuple[Unit, Frame]]:
        """The blocks row by row, then the alternates between them."""
        d = self.diagonal
        placed = [
            (block, on_its_corner(d, d * j, d * i))
            for i, row in enumerate(self.rows)
            for j, block in enumerate(row)
        ]
        if self.alternate is not None:
            half = d / 2
            placed += [
                (self.alternate, on_its_corner(d, half + d * j, half + d * i))
                for i in range(len(self.rows) - 1)
                for j in range(self.columns - 1)
            ]
        return placed

    def own_patches(self) -> list[Patch]:
        """Side triangles (top, bottom, left, right), then the corners nw, ne, se, sw."""
        sides = [Patch(points, self.side, at(self.pointer, "side")) for points in self._side_shapes()]
        corners = [Patch(points, self.corner, at(self.pointer, "corner")) for points in self._corner_shapes()]
        return sides + corners

    def _side_shapes(self) -> list[tuple[Point, ...]]:
        d, h, w, t = self.diagonal, self.diagonal / 2, self.width, self.height
        shapes: list[tuple[Point, ...]] = []
        for j in range(1, self.columns):
            x = d * j
            shapes.append(((x - h, ZERO), (x + h, ZERO), (x, h)))
            shapes.append(((x + h, t), (x - h, t), (x, t - h)))
        for i in range(1, len(self.rows)):
            y = d * i
            shapes.append(((ZERO, y + h), (ZERO, y - h), (h, y)))
            shapes.append(((w, y - h), (w, y + h), (w - h, y)))
        return shapes

    def _corner_shapes(self) -> list[tuple[Point, ...]]:
        h, w, t = self.diagonal / 2, self.width, self.height
        return [
            ((ZERO, h), (ZERO, ZERO), (h, ZERO)),
            ((w - h, ZERO), (w, ZERO), (w, h)),
            ((w, t - h), (w, t), (w - h, t)),
            ((h, t), (ZERO, t), (ZERO, t - h)),
        ]

    def needs(self, rules: CuttingRules) -> list[Need]:
        """Side squares b√2 + 1 1/4 cut twice, corner squares b/√2 + 7/8 cut once (for a 1/4 in seam).

        So the straight grain lies on the outer edge. Source: phoebemoon.com on-point; constants with √2, not 1.414
        (they differ for b = 16, where 1.414 comes out 1/8 in short).
        """
        side = rules.quarter_square(self.diagonal + self.extra)
        corner = rules.half_square(self.diagonal / 2 + self.extra)
        needs = [Need(self.corner, corner, corner, pieces=4, makes=2, then=ONCE)]
        if self.side_triangles:
            needs.insert(0, Need(self.side, side, side, pieces=self.side_triangles, makes=4, then=TWICE))
        return needs


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> OnPoint | None:
    """An on-point setting from the document."""
    reader = units.reader
    before = len(reader.faults)
    rows = _read_rows(raw, pointer, units)
    side = reader.fabric(raw, "side", pointer, "the side triangles")
    corner = reader.fabric(raw, "corner", pointer, "the corner triangles")
    extra = reader.optional_length(raw, "extra", pointer, "the extra to trim", Fraction(0), zero=True)
    named = raw.get("alternate")
    alternate = None if named is None else units.unit(named, at(pointer, "alternate"))
    _compare_blocks(rows, alternate, pointer, units)
    between = (len(rows) - 1) * (len(rows[0]) - 1) if rows else 0
    if between and named is None:
        shape = f"{len(rows)} rows of {len(rows[0])}"
        places = "1 place" if between == 1 else f"{between} places"
        detail = f"{shape} leave {places} between the blocks, and no alternate is named"
        reader.fault(pointer, detail, '"alternate": a unit for those places')
    whole = tuple(tuple(unit for unit in row if unit is not None) for row in rows)
    # a faulty block that was named before is missing here without a fault of its own
    missing = any(None in row for row in rows) or (between and alternate is None)
    if missing or side is None or corner is None or len(reader.faults) > before:
        return None
    return OnPoint(
        pointer=pointer,
        rows=whole,
        alternate=alternate if between else None,
        side=side,
        corner=corner,
        extra=extra,
    )


def _read_rows(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> list[list[Unit | None]]:
    """The blocks row by row; None where one is faulty."""
    reader, where = units.reader, at(pointer, "rows")
    listed = reader.sequence(raw.get("rows"), where if "rows" in raw else pointer, 'the list "rows"', least=1)
    rows: list[list[Unit | None]] = []
    for i, raw_row in enumerate(listed or []):
        row = reader.sequence(raw_row, at(where, i), "a row", least=1) or []
        rows.append([units.unit(u, at(where, i, j)) for j, u in enumerate(row)])
        if row and len(row) != len(rows[0]) and rows[0]:
            detail = (
                f"the row has {len(row)} block{'' if len(row) == 1 else 's'}, the first row {len(rows[0])}"
            )
            reader.fault(at(where, i), detail, "as many blocks in every row (alternates are named apart)")
    return rows


def _compare_blocks(
    rows: list[list[Unit | None]], alternate: Unit | None, pointer: str, units: UnitReader
) -> None:
    """Faults where a block or the alternate is not square or of another size, as far as they could be read."""
    placed = [(u, at(pointer, "rows", i, j)) for i, row in enumerate(rows) for j, u in enumerate(row)]
    blocks = [(unit, where) for unit, where in (*placed, (alternate, at(pointer, "alternate"))) if unit]
    for unit, where in blocks:
        _note_unlike(unit, blocks[0][0], where, units)


def _note_unlike(unit: Unit, first: Unit, pointer: str, units: UnitReader) -> None:
    """A fault where a unit is not square or not as large as the first block."""
    if unit.width == first.width and unit.height == unit.width:
        return
    w, h, side = (format_length(v, units.reader.measure) for v in (unit.width, unit.height, first.width))
    if unit.width != unit.height:
        units.reader.fault(
            pointer, f"a block on point is square; this one is {w} by {h} (finished)", "as wide as it is high"
        )
    else:
        units.reader.fault(
            pointer, f"the block is {w} (finished), its neighbour {side}", f"{side}, like the others"
        )
