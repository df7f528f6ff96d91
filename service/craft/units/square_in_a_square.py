"""A square standing on its corner in a square: four triangles round it, or four flipped corner squares."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from service.craft.faults import show, suggest
from service.craft.measure import ROOT_2, Exact, exact, format_length
from service.craft.reading import at
from service.craft.units.base import ONCE, ZERO, CuttingRules, Frame, Need, Patch, Point, Unit
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"inside", "size", "fabric", "method"})
INSIDE_FIELDS = frozenset({"fabric", "size"})
PLANNING_SLACK = Fraction(1, 8)
"""Inches by which a `size` may differ from what the inside gives: makers write 17 5/8 for 12 1/2 on its corner."""

TRIANGLES, FLIPPED = METHODS = ("triangles", "corner squares")


@dataclass(frozen=True, kw_only=True)
class SquareInASquare(Unit):
    """The whole square of finished `side` inches; inside it a unit (turned by 45 degrees) or plain cloth.

    A unit's upper left corner comes to lie at the middle of the top.
    """

    kind: ClassVar[str] = "square in a square"
    side: Exact
    inside: Unit | None
    inside_fabric: str
    fabric: str
    method: str = TRIANGLES

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return self.side

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return self.side

    @property
    def inner_side(self) -> Exact:
        """Finished side of the square inside, in inches."""
        return self.side / ROOT_2

    def children(self) -> list[tuple[Unit, Frame]]:
        """The unit inside, where there is one."""
        return [] if self.inside is None else [(self.inside, on_its_corner(self.side))]

    def own_patches(self) -> list[Patch]:
        """The plain middle, where there is one, then the triangles at nw, ne, se and sw."""
        s, half = self.side, self.side / 2
        north, east, south, west = (half, ZERO), (s, half), (half, s), (ZERO, half)
        corners: list[tuple[Point, ...]] = [
            (west, (ZERO, ZERO), north),
            (north, (s, ZERO), east),
            (east, (s, s), south),
            (south, (ZERO, s), west),
        ]
        triangles = [Patch(points, self.fabric, self.pointer) for points in corners]
        if self.inside is not None:
            return triangles
        return [Patch((north, east, south, west), self.inside_fabric, self.pointer), *triangles]

    def needs(self, rules: CuttingRules) -> list[Need]:
        """Flipped: base f + 2s, corners f/2 + 2s. Triangles: two squares f/2 + 7/8 cut once, middle f/√2 + 2s.

        Sources: scissortailquilting.com square-in-a-square; "Lesson 5 - Square in a Square", guild lesson.
        """
        if self.method == FLIPPED:
            base, corner = rules.plain(self.side), rules.plain(self.side / 2)
            return [Need(self.inside_fabric, base, base), Need(self.fabric, corner, corner, pieces=4)]
        corner = rules.half_square(self.side / 2)
        needs = [Need(self.fabric, corner, corner, pieces=4, makes=2, then=ONCE)]
        if self.inside is None:
            middle = rules.plain(self.inner_side)
            needs.insert(0, Need(self.inside_fabric, middle, middle))
        return needs


def on_its_corner(side: Exact, x: Exact = ZERO, y: Exact = ZERO) -> Frame:
    """The frame of a square turned clockwise by 45 degrees so that it fills a square of `side` at (x, y)."""
    r = 1 / ROOT_2
    return Frame(x + side / 2, y, (r, -r, r, r))


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> SquareInASquare | None:
    """A square in a square from the document."""
    reader = units.reader
    method = reader.choice(raw, "method", pointer, METHODS, TRIANGLES)
    fabric = reader.fabric(raw, "fabric", pointer, "the corners")
    inside, inside_fabric, inner = _read_inside(raw, pointer, units)
    side = _read_side(raw, pointer, units, inner)
    if method == FLIPPED and _is_pieced(raw.get("inside"), units):
        reader.fault(
            at(pointer, "method"),
            "corner squares flipped onto a pieced middle would cover it",
            f'"{TRIANGLES}"',
        )
        return None
    if (inside is None and inside_fabric is None) or fabric is None or side is None:
        return None
    return SquareInASquare(
        pointer=pointer,
        side=side,
        inside=inside,
        inside_fabric=inside_fabric or "",
        fabric=fabric,
        method=method,
    )


def _read_inside(
    raw: Mapping[str, Any], pointer: str, units: UnitReader
) -> tuple[Unit | None, str | None, Exact | None]:
    """The unit or the cloth inside, and the inner side where the inside gives it (inches)."""
    reader, inside, where = units.reader, raw.get("inside"), at(pointer, "inside")
    if isinstance(inside, Mapping) and "unit" not in inside:
        reader.known_fields(inside, where, INSIDE_FIELDS)
        cloth = reader.fabric(inside, "fabric", where, "the middle")
        size = reader.size(inside, where) if "size" in inside else None
        return None, cloth, _square_side(size, where, units) if size else None
    if isinstance(inside, str) and not units.is_block(inside):
        if inside not in reader.fabric_keys:
            known = [*reader.fabric_keys, *units.block_names]
            reader.fault(
                where, f"there is no cloth and no block called {show(inside)}", suggest(inside, known)
            )
            return None, None, None
        return None, inside, None
    unit = units.unit(inside, where)
    if unit is not None and unit.width != unit.height:
        shown = " by ".join(format_length(s, reader.measure) for s in (unit.width, unit.height))
        reader.fault(
            where, f"what stands on its corner is square; this is {shown}", "a unit as wide as it is high"
        )
        return None, None, None
    return unit, None, unit.width if unit else None


def _read_side(raw: Mapping[str, Any], pointer: str, units: UnitReader, inner: Exact | None) -> Exact | None:
    """The finished side of the whole, from `size` or from what lies inside; both must agree."""
    reader = units.reader
    size = reader.size(raw, pointer) if "size" in raw else None
    side = _square_side(size, pointer, units) if size else None
    if inner is None:
        if "size" not in raw and _is_plain(raw.get("inside"), units):
            reader.fault(pointer, 'the finished "size" is missing', '[width, height], for example ["6", "6"]')
        return side
    outer = inner * ROOT_2
    if side is not None and abs(side - outer) > PLANNING_SLACK:
        shown = [format_length(s, reader.measure) for s in (side, inner, outer)]
        detail = f"the size is {shown[0]}, but a square of {shown[1]} inside makes it {shown[2]}"
        reader.fault(at(pointer, "size"), detail, 'leave "size" out: the inside gives it')
        return None
    return outer


def _is_pieced(inside: Any, units: UnitReader) -> bool:
    """Whether a unit stands inside, sound or not, and no cloth."""
    return units.is_block(inside) or (isinstance(inside, Mapping) and "unit" in inside)


def _is_plain(inside: Any, units: UnitReader) -> bool:
    """Whether what stands inside is cloth, not a unit: then nothing but `size` says how large it is."""
    if isinstance(inside, Mapping):
        return "unit" not in inside and "size" not in inside
    return isinstance(inside, str) and not units.is_block(inside)


def _square_side(size: tuple[Fraction, Fraction], pointer: str, units: UnitReader) -> Exact | None:
    if size[0] == size[1]:
        return exact(size[0])
    shown = " by ".join(format_length(s, units.reader.measure) for s in size)
    units.reader.fault(
        at(pointer, "size"),
        f"a square in a square is square, this one is {shown}",
        "the same width and height",
    )
    return None
