"""A unit with one or more borders round it: butted, mitred, or with squares at the corners."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from service.craft.cutting_choices import LEAST_CLOTH, STRIP_CUTS
from service.craft.measure import Exact, exact
from service.craft.reading import at
from service.craft.units.base import CuttingRules, Frame, Need, Patch, Point, Unit, box, move
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"inside", "borders"})
BORDER_FIELDS = frozenset({"width", "fabric", "corners", "corner_fabric", "first", "cut", "mitre_allowance"})
BUTTED, MITRED, SQUARES = CORNERS = ("butted", "mitred", "squares")
SIDES, ENDS, LONG = FIRST = ("sides", "top and bottom", "long sides")

MITRE_ALLOWANCE = Fraction(4)
"""Inches on top of side + two border widths, for the mitre. Published values run from 1 (quiltingboard.com
t168402) to 6 (quiltinghub.com ArticleID 370); 2 to 4 are common practice, no source."""


@dataclass(frozen=True)
class Border:
    """One border all round. `width` finished, in inches; `first` says which pair is sewn on first.

    `cut` is which way of the cloth its strips lie; `mitre_allowance` is what mitred strips are cut longer.
    """

    width: Fraction
    fabric: str
    corners: str = BUTTED
    corner_fabric: str = ""
    first: str = SIDES
    cut: str = LEAST_CLOTH
    mitre_allowance: Fraction = MITRE_ALLOWANCE

    def sides_first(self, width: Exact, height: Exact) -> bool:
        """Whether the left and right strips are sewn on before the top and bottom ones."""
        return self.first == SIDES or (self.first == LONG and height >= width)


@dataclass(frozen=True, kw_only=True)
class Bordered(Unit):
    """A unit and its borders, innermost first."""

    kind: ClassVar[str] = "bordered"
    inside: Unit
    borders: tuple[Border, ...]

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return self.inside.width + 2 * self._total()

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return self.inside.height + 2 * self._total()

    def _total(self) -> Fraction:
        return sum((b.width for b in self.borders), Fraction(0))

    def children(self) -> list[tuple[Unit, Frame]]:
        """The unit inside."""
        return [(self.inside, move(self._total(), self._total()))]

    def rounds(self) -> list[tuple[int, Border, Exact, Exact]]:
        """Each border with its number and the finished width and height of what it goes round."""
        width, height, found = self.inside.width, self.inside.height, []
        for i, border in enumerate(self.borders):
            found.append((i, border, width, height))
            width, height = width + 2 * border.width, height + 2 * border.width
        return found

    def own_patches(self) -> list[Patch]:
        """The strips of every border (left, right, top, bottom), then its corner squares."""
        patches, outside = [], self._total()
        for i, border, width, height in self.rounds():
            outside -= border.width
            where = at(self.pointer, "borders", i)
            shapes = _strips(border, width, height)
            fabrics = [border.fabric] * 4 + [border.corner_fabric] * (len(shapes) - 4)
            for shape, fabric in zip(shapes, fabrics, strict=True):
                patches.append(Patch(tuple((x + outside, y + outside) for x, y in shape), fabric, where))
        return patches

    def needs(self, rules: CuttingRules) -> list[Need]:
        """Two strips for the sides, upright, two for top and bottom; corner squares where there are any."""
        needs = []
        for _, border, width, height in self.rounds():
            across = rules.plain(border.width)
            lengths = strip_lengths(border, width, height)
            side, end = map(rules.round if border.corners == MITRED else rules.plain, lengths)
            needs.append(Need(border.fabric, across, side, pieces=2, shape="strip", lay=border.cut))
            needs.append(Need(border.fabric, end, across, pieces=2, shape="strip", lay=border.cut))
            if border.corners == SQUARES:
                needs.append(Need(border.corner_fabric, across, across, pieces=4))
        return needs


def strip_lengths(border: Border, width: Exact, height: Exact) -> tuple[Exact, Exact]:
    """Lengths (inches) of the side strips and of the top and bottom ones, round a top of that finished size.

    Finished lengths, but for a mitred border: there the length to cut, side + 2 x width + allowance.
    """
    if border.corners == MITRED:
        extra = 2 * border.width + border.mitre_allowance
        return height + extra, width + extra
    if border.corners == SQUARES:
        return height, width
    if border.sides_first(width, height):
        return height, width + 2 * border.width
    return height + 2 * border.width, width


def _strips(border: Border, width: Exact, height: Exact) -> list[tuple[Point, ...]]:
    """The finished shapes of one border from its own outer corner: left, right, top, bottom, corners."""
    b = exact(border.width)
    w, h = width + 2 * b, height + 2 * b
    if border.corners == MITRED:
        outer, inner = box(w, h), box(width, height, b, b)
        (onw, one, ose, osw), (inw, ine, ise, isw) = outer, inner
        return [(onw, inw, isw, osw), (one, ose, ise, ine), (onw, one, ine, inw), (osw, isw, ise, ose)]
    if border.corners == SQUARES:
        sides = [box(b, height, 0, b), box(b, height, w - b, b), box(width, b, b, 0), box(width, b, b, h - b)]
        return sides + [box(b, b, x, y) for x in (0, w - b) for y in (0, h - b)]
    if border.sides_first(width, height):
        return [box(b, height, 0, b), box(b, height, w - b, b), box(w, b), box(w, b, 0, h - b)]
    return [box(b, h), box(b, h, w - b, 0), box(width, b, b, 0), box(width, b, b, h - b)]


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> Bordered | None:
    """A bordered unit from the document."""
    inside = units.unit(raw.get("inside"), at(pointer, "inside"))
    where = at(pointer, "borders")
    listed = units.reader.sequence(
        raw.get("borders"), where if "borders" in raw else pointer, 'the list "borders"', least=1
    )
    borders = [_read_border(b, at(where, i), units) for i, b in enumerate(listed or [])]
    whole = tuple(b for b in borders if b is not None)
    if inside is None or not whole or len(whole) != len(borders):
        return None
    return Bordered(pointer=pointer, inside=inside, borders=whole)


def _read_border(raw: Any, pointer: str, units: UnitReader) -> Border | None:
    reader = units.reader
    fields = reader.mapping(raw, pointer, "a border", like='{"width": "2", "fabric": "frost"}')
    if fields is None:
        return None
    reader.known_fields(fields, pointer, BORDER_FIELDS)
    width = reader.length(fields.get("width"), at(pointer, "width"), "the width of the border")
    fabric = reader.fabric(fields, "fabric", pointer, "the border")
    corners = reader.choice(fields, "corners", pointer, CORNERS, BUTTED)
    first = reader.choice(fields, "first", pointer, FIRST, SIDES)
    cut = reader.choice(fields, "cut", pointer, STRIP_CUTS, LEAST_CLOTH)
    corner_fabric = fabric
    if corners == SQUARES and "corner_fabric" in fields:
        corner_fabric = reader.fabric(fields, "corner_fabric", pointer, "a corner square of the border")
    allowance = _read_allowance(fields, corners, pointer, units)
    if width is None or fabric is None or corner_fabric is None:
        return None
    squares = corner_fabric if corners == SQUARES else ""
    return Border(width, fabric, corners, squares, first, cut, allowance)


def _read_allowance(raw: Mapping[str, Any], corners: str, pointer: str, units: UnitReader) -> Fraction:
    """What mitred strips are cut longer than their sides and two widths; other corners have no use for it."""
    if raw.get("mitre_allowance") is not None and corners != MITRED:
        units.reader.fault(
            at(pointer, "mitre_allowance"),
            f'a border with "{corners}" corners has no mitre to allow for',
            f'"corners": "{MITRED}", or no "mitre_allowance"',
        )
    return units.reader.optional_length(
        raw, "mitre_allowance", pointer, "what is allowed for the mitre", MITRE_ALLOWANCE, zero=True
    )
