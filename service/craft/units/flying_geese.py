"""Flying geese: one large triangle (the goose, pointing up) between two small ones (the sky)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from service.craft.measure import Exact, exact, format_length
from service.craft.reading import at
from service.craft.units.base import ONCE, TWICE, ZERO, CuttingRules, Need, Patch, Unit
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"size", "goose", "sky", "method"})

TRIANGLES, CORNERS, FOUR = METHODS = ("cut triangles", "corner squares", "four at a time")


@dataclass(frozen=True, kw_only=True)
class FlyingGeese(Unit):
    """One goose, twice as wide as high. `across` is its finished width in inches; `turned` lets it fly another way."""

    kind: ClassVar[str] = "flying geese"
    across: Fraction
    goose: str
    sky: str
    method: str = TRIANGLES

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return exact(self.across)

    @property
    def height(self) -> Exact:
        """Finished height in inches: half the width."""
        return exact(self.across / 2)

    def own_patches(self) -> list[Patch]:
        """The goose, then the sky left and right of it."""
        w, h = self.width, self.height
        tip, nw, ne, se, sw = (h, ZERO), (ZERO, ZERO), (w, ZERO), (w, h), (ZERO, h)
        return [
            Patch((tip, se, sw), self.goose, self.pointer),
            Patch((sw, nw, tip), self.sky, self.pointer),
            Patch((tip, ne, se), self.sky, self.pointer),
        ]

    def needs(self, rules: CuttingRules) -> list[Need]:
        """For a 1/4 in seam: a goose square w + 1 1/4, sky squares h + 7/8; flipped, a rectangle and two squares.

        Sources: members.shaw.ca/beverlysquiltingpage ffg (four at a time); thesewingplace.org.uk topic 1499 (cut
        triangles); canuckquilter.com 2024/03 (corner squares).
        """
        large, small = rules.quarter_square(self.across), rules.half_square(self.across / 2)
        if self.method == CORNERS:
            base, square = rules.plain(self.across), rules.plain(self.across / 2)
            return [Need(self.goose, base, square), Need(self.sky, square, square, pieces=2)]
        if self.method == TRIANGLES:
            return [
                Need(self.goose, large, large, makes=4, then=TWICE),
                Need(self.sky, small, small, pieces=2, makes=2, then=ONCE),
            ]
        pool = "/".join([self.kind, self.goose, self.sky])
        return [
            Need(self.goose, large, large, makes=4, pool=pool, method=FOUR, partner=self.sky),
            # four small squares go with one large one, whether all four geese are wanted or not
            Need(
                self.sky, small, small, pieces=2, makes=2, pool=pool, method=FOUR, partner=self.goose, sets=4
            ),
        ]


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> FlyingGeese | None:
    """A flying-geese unit from the document."""
    reader = units.reader
    size = reader.size(raw, pointer)
    method = reader.choice(raw, "method", pointer, METHODS, TRIANGLES)
    goose = reader.fabric(raw, "goose", pointer, "the goose")
    sky = reader.fabric(raw, "sky", pointer, "the sky")
    if size is not None and size[0] != 2 * size[1]:
        shown = [format_length(s, reader.measure) for s in (*size, size[0] / 2)]
        reader.fault(
            at(pointer, "size"),
            f"flying geese are twice as wide as high; this unit is {shown[0]} by {shown[1]}",
            f'{shown[0]} by {shown[2]}; for one that stands upright, "turned" by 90',
        )
        return None
    if size is None or goose is None or sky is None:
        return None
    return FlyingGeese(pointer=pointer, across=size[0], goose=goose, sky=sky, method=method)
