"""A half-square triangle: a square of two cloths, sewn along its diagonal.

The first cloth fills the top left half, the second the bottom right; `turned` gives the other ways.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from service.craft.faults import describe
from service.craft.language import mark
from service.craft.measure import ROOT_2, Exact, exact, format_length
from service.craft.reading import at
from service.craft.units.base import ONCE, ZERO, CuttingRules, Need, Patch, Unit
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"size", "fabrics", "method", "trim"})

TWO, FOUR, EIGHT, TRIANGLES = METHODS = (
    mark("two at a time"),
    mark("four at a time"),
    mark("eight at a time"),
    "cut triangles",
)

UNITS_PER_PAIR = {TWO: 2, FOUR: 4, EIGHT: 8}
"""Units out of one pair of squares, one of each cloth."""

EXACT, OVERSIZE = TRIMS = ("exact", "oversize")
"""Cut as small as it may be, or larger, with something to trim off every unit."""

TO_TRIM = Fraction(1, 8)
"""Inches that oversize adds to a unit: f + 1 in place of f + 7/8 (judylaquidara.blogspot.com 2006/08)."""


@dataclass(frozen=True, kw_only=True)
class HalfSquareTriangle(Unit):
    """A square of two triangles. `side` is its finished side in inches; `trim` says how generously it is cut."""

    kind: ClassVar[str] = "half-square triangle"
    side: Fraction
    fabrics: tuple[str, str]
    method: str = TWO
    trim: str = EXACT

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return exact(self.side)

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return exact(self.side)

    def own_patches(self) -> list[Patch]:
        """The top left triangle, then the bottom right one."""
        s = exact(self.side)
        nw, ne, se, sw = (ZERO, ZERO), (s, ZERO), (s, s), (ZERO, s)
        return [
            Patch((nw, ne, sw), self.fabrics[0], self.pointer),
            Patch((ne, se, sw), self.fabrics[1], self.pointer),
        ]

    def needs(self, rules: CuttingRules) -> list[Need]:
        """One triangle of each cloth, out of squares sewn in pairs or cut before sewing."""
        cut = self.cut_square(rules)
        if self.method == TRIANGLES:
            return [Need(f, cut, cut, makes=2, then=ONCE) for f in self.fabrics]
        return [self._half(i, cut) for i in (0, 1)]

    def _half(self, which: int, cut: Fraction) -> Need:
        """One square of a pair. Which cloth is named first does not matter: a turned unit comes from the same pair."""
        cloth, partner = self.fabrics[which], self.fabrics[1 - which]
        pool = "/".join([self.kind, self.method, *sorted(self.fabrics)])
        # two squares of one cloth are still two squares
        pool += f"/{which}" if cloth == partner else ""
        makes = UNITS_PER_PAIR[self.method]
        return Need(cloth, cut, cut, makes=makes, pool=pool, method=self.method, partner=partner)

    def cut_square(self, rules: CuttingRules) -> Fraction:
        """Side of the square to cut, in inches, rounded up.

        Two at a time: f + 7/8 for a 1/4 in seam (North Hampshire Quilters, hblk402b). Eight: twice that
        (theashleytomlinson.com, 8 at a time: 5 -> 11 3/4). Four, sewn round the edge: u√2 + 2s with
        u = f + 2s (reginasquiltblog.blogspot.com, metric example 12 cm -> 18.47 cm). Oversize, the unit is an
        eighth larger before it is trimmed: f + 1 and 2f + 2 (quiltingboard.com blog b10533: 4 -> 10, 6 1/2 -> 15).
        """
        s, side = rules.seam_allowance, self.side + (TO_TRIM if self.trim == OVERSIZE else 0)
        if self.method == FOUR:
            return rules.round((side + 2 * s) * ROOT_2 + 2 * s)
        if self.method == EIGHT:
            return rules.round(2 * (side + rules.half_square_extra))
        return rules.half_square(side)


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> HalfSquareTriangle | None:
    """A half-square triangle from the document."""
    reader = units.reader
    size = reader.size(raw, pointer)
    method = reader.choice(raw, "method", pointer, METHODS, TWO)
    trim = reader.choice(raw, "trim", pointer, TRIMS, EXACT)
    pair = read_fabrics(raw, pointer, units, count=2)
    if size is not None and size[0] != size[1]:
        shown = " by ".join(format_length(s, reader.measure) for s in size)
        reader.fault(
            at(pointer, "size"),
            f"a half-square triangle is square, this one is {shown}",
            "the same width and height",
        )
        return None
    if size is None or pair is None:
        return None
    first, second = pair
    return HalfSquareTriangle(
        pointer=pointer, side=size[0], fabrics=(first, second), method=method, trim=trim
    )


def read_fabrics(
    raw: Mapping[str, Any], pointer: str, units: UnitReader, *, count: int
) -> tuple[str, ...] | None:
    """The list `fabrics` with exactly so many cloths."""
    reader = units.reader
    listed = raw.get("fabrics")
    if not isinstance(listed, list) or len(listed) != count:
        where = at(pointer, "fabrics") if "fabrics" in raw else pointer
        named = len(listed) if isinstance(listed, list) else 0
        wrong = f"names {named} cloth{'' if named == 1 else 's'}" if named else f"is {describe(listed)}"
        example = ", ".join(f'"{key}"' for key in list(reader.fabric_keys)[:count])
        reader.fault(
            where,
            f'"fabrics" {wrong}',
            f"a list of {count} cloths" + (f", such as [{example}]" if example else ""),
        )
        return None
    names = [reader.fabric_name(f, at(pointer, "fabrics", i), "a triangle") for i, f in enumerate(listed)]
    return tuple(n for n in names if n is not None) if None not in names else None
