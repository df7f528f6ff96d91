"""A strip set: long strips sewn side by side, and the set cut into pieces across its seams.

The unit is one such piece: the strips from left to right, as high as the pieces are cut.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from service.craft.language import phrase
from service.craft.measure import Exact, Number, exact, format_length
from service.craft.reading import at
from service.craft.units.base import CuttingRules, Need, Patch, Unit, box
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"strips", "length", "cut_into"})
STRIP_FIELDS = frozenset({"width", "fabric"})


@dataclass(frozen=True)
class SetStrip:
    """One strip of a set: its finished width in inches, and its cloth."""

    width: Fraction
    fabric: str


@dataclass(frozen=True, kw_only=True)
class StripSet(Unit):
    """One piece of a strip set.

    `length` is how long the strips are sewn together, uncut, and `cut_into` the finished height of a piece, both in
    inches; `measure` is what the sub-cut is written in.
    """

    kind: ClassVar[str] = "strip set"
    strips: tuple[SetStrip, ...]
    length: Fraction
    cut_into: Fraction
    measure: str = "in"

    @property
    def width(self) -> Exact:
        """Finished width in inches: all the strips."""
        return exact(sum((s.width for s in self.strips), Fraction(0)))

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return exact(self.cut_into)

    def own_patches(self) -> list[Patch]:
        """One rectangle a strip, left to right."""
        patches, left = [], Fraction(0)
        for i, strip in enumerate(self.strips):
            where = at(self.pointer, "strips", i)
            patches.append(Patch(box(strip.width, self.cut_into, left), strip.fabric, where))
            left += strip.width
        return patches

    def pieces_per_set(self, rules: CuttingRules) -> int:
        """How many pieces one set is cut into."""
        return count_sub_cuts(self.length, self.cut_into, rules)

    def needs(self, rules: CuttingRules) -> list[Need]:
        """Each strip as long as the set, finished width plus two allowances.

        A set of n strips cut w wide comes to (w - 1/2) n + 1/2 unfinished (vickisfabriccreations.blogspot.com 2013/10).
        Written from its other end it is the same set, turned about, and shares its strips.
        """
        piece = rules.plain(self.cut_into)
        makes, length = self.pieces_per_set(rules), max(rules.round(self.length), piece)
        then = phrase(
            "sew into strip sets, then cut into pieces of {length}", length=format_length(piece, self.measure)
        )
        pool = f"{self.kind}/{min(map(str, (self.strips, self.strips[::-1])))}"
        return [
            Need(s.fabric, rules.plain(s.width), length, count, makes, then, "strip", pool, sets=count)
            for s, count in Counter(self.strips).items()
        ]


def count_sub_cuts(length: Fraction, cut_into: Number, rules: CuttingRules) -> int:
    """How many pieces of a finished height come out of a set of that length (inches); at least one."""
    return max(1, int(length // rules.plain(cut_into)))


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> StripSet | None:
    """A strip set from the document.

    Where no length is given, the strips are as long as the narrowest of their cloths is wide.
    """
    reader = units.reader
    where = at(pointer, "strips")
    listed = reader.sequence(
        raw.get("strips"), where if "strips" in raw else pointer, 'the list "strips"', least=2
    )
    strips = [_read_strip(entry, at(where, i), units) for i, entry in enumerate(listed or [])]
    height = reader.length(
        raw.get("cut_into"), at(pointer, "cut_into") if "cut_into" in raw else pointer, '"cut_into"'
    )
    long = raw.get("length")
    given = None if long is None else reader.length(long, at(pointer, "length"), "the length of the strips")
    whole = tuple(s for s in strips if s is not None)
    if height is None or not whole or len(whole) != len(strips):
        return None
    widths = [reader.fabrics[s.fabric].usable_width for s in whole if s.fabric in reader.fabrics]
    length = min(widths, default=height) if given is None else given
    return StripSet(pointer=pointer, strips=whole, length=length, cut_into=height, measure=reader.measure)


def _read_strip(raw: Any, pointer: str, units: UnitReader) -> SetStrip | None:
    fields = units.reader.mapping(raw, pointer, "a strip", like='{"width": "1 1/2", "fabric": "frost"}')
    if fields is None:
        return None
    units.reader.known_fields(fields, pointer, STRIP_FIELDS)
    width = units.reader.length(fields.get("width"), at(pointer, "width"), "the width of the strip")
    fabric = units.reader.fabric(fields, "fabric", pointer, "the strip")
    return None if width is None or fabric is None else SetStrip(width, fabric)
