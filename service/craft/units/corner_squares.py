"""A base of one cloth with squares sewn across some of its corners on the diagonal and flipped."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from typing import Any, ClassVar

from service.craft.faults import show, suggest
from service.craft.measure import Exact, exact, format_length, round_down
from service.craft.reading import at
from service.craft.units.base import ZERO, CuttingRules, Need, Patch, Point, Unit
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"size", "fabric", "corners", "spare_triangles"})
CORNER_FIELDS = frozenset({"size", "fabric", "at"})
CORNERS = ("nw", "ne", "se", "sw")


@dataclass(frozen=True, kw_only=True)
class CornerSquares(Unit):
    """A base with flipped corners. `leg` is the finished leg of each corner triangle, in inches.

    With `spare_triangles` what is cut off each corner is sewn into a unit of its own first.
    """

    kind: ClassVar[str] = "corner squares"
    size: tuple[Fraction, Fraction]
    fabric: str
    leg: Fraction
    corner_fabric: str
    corners: tuple[str, ...]
    spare_triangles: bool = False

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return exact(self.size[0])

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return exact(self.size[1])

    def own_patches(self) -> list[Patch]:
        """What is left of the base, then the corner triangles in the order nw, ne, se, sw."""
        base: list[Point] = []
        triangles = []
        for corner, before, tip, after in self._corners():
            # a fold may end in the next corner, or where the next fold begins
            if corner not in self.corners:
                base += [p for p in (tip,) if p not in base]
                continue
            base += [p for p in (before, after) if p not in base]
            triangles.append(Patch((before, tip, after), self.corner_fabric, self.pointer))
        return [Patch(tuple(base), self.fabric, self.pointer), *triangles]

    def needs(self, rules: CuttingRules) -> list[Need]:
        """The base as if it were plain; one square a corner, finished leg plus two allowances.

        Source: canuckquilter.com 2024/03 (leg 2 -> 2 1/2).
        """
        corner = rules.plain(self.leg)
        return [
            Need(self.fabric, rules.plain(self.size[0]), rules.plain(self.size[1])),
            Need(self.corner_fabric, corner, corner, pieces=len(self.corners), makes=1),
        ]

    def spare_side(self, rules: CuttingRules) -> Fraction | None:
        """Unfinished side (inches) of the spare unit a corner leaves; None where it leaves none."""
        return find_spare_side(self.leg, rules) if self.spare_triangles else None

    def _corners(self) -> list[tuple[str, Point, Point, Point]]:
        """Each corner with the fold's first end, the corner itself and the fold's second end, going round."""
        w, h, leg = self.width, self.height, exact(self.leg)
        return [
            ("nw", (ZERO, leg), (ZERO, ZERO), (leg, ZERO)),
            ("ne", (w - leg, ZERO), (w, ZERO), (w, leg)),
            ("se", (w, h - leg), (w, h), (w - leg, h)),
            ("sw", (leg, h), (ZERO, h), (ZERO, h - leg)),
        ]


def find_spare_side(leg: Fraction, rules: CuttingRules) -> Fraction | None:
    """Unfinished side (inches) of the unit sewn of what is cut off a corner; None where the corner is too small.

    A second seam two allowances outside the first; what comes off is trimmed to the corner's cut size less four
    allowances, 1 in for a 1/4 in seam. Source: katiemaequilts.com snowball week two (4 -> 3).
    """
    side = round_down(rules.plain(leg) - 4 * rules.seam_allowance, rules.round_to)
    return side if side > 2 * rules.seam_allowance else None


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> CornerSquares | None:
    """A corner-square unit from the document."""
    reader = units.reader
    size = reader.size(raw, pointer)
    fabric = reader.fabric(raw, "fabric", pointer, "the base")
    corners = reader.mapping(
        raw.get("corners"),
        at(pointer, "corners") if "corners" in raw else pointer,
        'the "corners"',
        like='{"size": "1", "fabric": "frost", "at": ["nw", "se"]}',
    )
    if corners is None:
        return None
    where = at(pointer, "corners")
    reader.known_fields(corners, where, CORNER_FIELDS)
    leg = reader.length(corners.get("size"), at(where, "size"), "the finished leg of a corner")
    corner_fabric = reader.fabric(corners, "fabric", where, "a corner square")
    places = _read_places(corners, where, units)
    spare = reader.flag(raw, "spare_triangles", pointer)
    if size is None or leg is None or places is None or not _fits(size, leg, places, where, units):
        return None
    if fabric is None or corner_fabric is None:
        return None
    return CornerSquares(
        pointer=pointer,
        size=size,
        fabric=fabric,
        leg=leg,
        corner_fabric=corner_fabric,
        corners=places,
        spare_triangles=spare,
    )


def _read_places(corners: Mapping[str, Any], where: str, units: UnitReader) -> tuple[str, ...] | None:
    listed = units.reader.sequence(
        corners.get("at", list(CORNERS)), at(where, "at"), 'the list "at"', least=1
    )
    if listed is None:
        return None
    for i, place in enumerate(listed):
        if place not in CORNERS:
            units.reader.fault(
                at(where, "at", i),
                f"there is no corner {show(place)}",
                f"{suggest(place if isinstance(place, str) else '', CORNERS)} (nw is the top left corner)",
            )
        elif place in listed[:i]:
            units.reader.fault(at(where, "at", i), f'the corner "{place}" is named twice', "each corner once")
    return tuple(c for c in CORNERS if c in listed) or None


def _fits(
    size: tuple[Fraction, Fraction], leg: Fraction, places: tuple[str, ...], where: str, units: UnitReader
) -> bool:
    """Whether the corners have room on the base; each fault gives both sizes."""
    shown = [format_length(s, units.reader.measure) for s in (*size, leg)]
    if leg > min(size):
        detail = f"the corner square ({shown[2]} finished) is larger than its base ({shown[0]} by {shown[1]})"
        units.reader.fault(
            at(where, "size"), detail, f"at most {format_length(min(size), units.reader.measure)}"
        )
        return False
    on_a_side = {
        "top or bottom": (size[0], ("nw", "ne"), ("sw", "se")),
        "side": (size[1], ("nw", "sw"), ("ne", "se")),
    }
    for edge, (length, *pairs) in on_a_side.items():
        if 2 * leg > length and any(set(pair) <= set(places) for pair in pairs):
            whole, half = (format_length(v, units.reader.measure) for v in (length, length / 2))
            detail = f"two corners of {shown[2]} overlap on the {edge}, which is {whole}"
            units.reader.fault(at(where, "size"), detail, f"at most {half}")
            return False
    if len(places) > 1 and 2 * leg >= sum(size):
        units.reader.fault(at(where, "size"), "the corners leave nothing of the base", "smaller corners")
        return False
    return True
