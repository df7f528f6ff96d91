"""Gaps and overlaps between the patches of a block, named by place and by both patches."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import hypot

import shapely

from service.craft.measure import format_length
from service.craft.planar.cover import Leftover, find_leftovers
from service.craft.planar.figures import Figure, GridPoint
from service.craft.reading import Reader, at

FINEST_GRID = 2**28
"""Grid steps along a block's longest side: products of two places still fit a machine's whole numbers."""

MOST_NAMED = 20
"""Gaps and overlaps of one block that are named."""

MOST_LOOKED_AT = 400
"""Leftover edges that are looked at; where so many are left over, a few say enough."""

HAIR_STEPS = 1e-3
"""How far beside an edge it is looked at what lies there, in grid steps."""


SHARES = (0.5, 0.237, 0.763, 0.081, 0.919)
"""Places along an edge that are looked at one after the other."""


@dataclass(frozen=True)
class _Trouble:
    """A gap or an overlap: where its edge runs, and the patches on both sides (None: the block's edge)."""

    overlap: bool
    patches: tuple[int | None, int | None]
    start: GridPoint
    end: GridPoint


def check_cover(
    figures: Sequence[Figure], size: tuple[Fraction, Fraction], per_inch: int, pointer: str, reader: Reader
) -> bool:
    """Whether the patches cover the block once everywhere; each gap and overlap is a fault."""
    width, height = (int(side * per_inch) for side in size)
    leftovers = find_leftovers(figures, width, height)
    if not leftovers:
        return True
    finder = _Finder(figures, width, height)
    named: dict[tuple[bool, frozenset[int | None]], _Trouble] = {}
    for trouble in map(finder.look, leftovers[:MOST_LOOKED_AT]):
        named.setdefault((trouble.overlap, frozenset(trouble.patches)), trouble)
    for trouble in list(named.values())[:MOST_NAMED]:
        _note(trouble, per_inch, pointer, reader)
    return False


def _note(trouble: _Trouble, per_inch: int, pointer: str, reader: Reader) -> None:
    start, end = (_say_point(point, per_inch, reader.measure) for point in (trouble.start, trouble.end))
    numbers = sorted(number for number in trouble.patches if number is not None)
    where = at(pointer, "patches", *numbers[:1]) if numbers else at(pointer, "patches")
    names = " and ".join(
        [f"patch {number + 1}" for number in numbers] + ["the edge of the block"] * (len(numbers) < 2)
    )
    if trouble.overlap:
        detail = f"{names} overlap along the line from {start} to {end}"
        right = "every place covered by one patch: corners where the neighbour has its own"
    else:
        detail = f"there is a gap between {names} along the line from {start} to {end}"
        right = "patches that meet edge to edge, or a patch for the gap"
    reader.fault(where, detail, f"{right} (x from the left, y from the top)")


def _say_point(point: GridPoint, per_inch: int, measure: str) -> str:
    x, y = (format_length(Fraction(step, per_inch), measure) for step in point)
    return f"({x}, {y})"


class _Finder:
    """Looks beside edges that are left over."""

    def __init__(self, figures: Sequence[Figure], width: int, height: int) -> None:
        self._shapes = [shapely.Polygon(figure.corners) for figure in figures]
        self._tree = shapely.STRtree(self._shapes)
        self._reach = hypot(width, height)
        self._block = shapely.box(0, 0, width, height)

    def look(self, left: Leftover) -> _Trouble:
        """What is wrong along a leftover edge."""
        for share in SHARES:
            found = self._look_at(left, share)
            if found is not None:
                return found
        return _Trouble(False, (left.figure, None), left.start, left.end)

    def _look_at(self, left: Leftover, share: float) -> _Trouble | None:
        """What is wrong beside one place of the edge; None where nothing is, for a corner of another patch is there."""
        places = _beside(left, share)
        sides = [self._covering(place) for place in places]
        for covering in sides:
            if len(covering) > 1:
                return _Trouble(True, (covering[0], covering[1]), left.start, left.end)
        for place, opposite, here, there in zip(
            places, reversed(places), sides, reversed(sides), strict=True
        ):
            if not here and self._block.contains(place):
                across = self._across(opposite, place)
                return _Trouble(False, (next(iter(there), None), across), left.start, left.end)
        return None

    def _covering(self, point: shapely.Point) -> list[int]:
        return sorted(int(i) for i in self._tree.query(point, predicate="within"))

    def _across(self, start: shapely.Point, through: shapely.Point) -> int | None:
        """The first patch straight on from one point through another; None where the block ends first."""
        far = self._reach / HAIR_STEPS
        end = (through.x + (through.x - start.x) * far, through.y + (through.y - start.y) * far)
        ray = shapely.LineString([(through.x, through.y), end])
        hits = [int(i) for i in self._tree.query(ray, predicate="intersects")]
        return min(hits, key=lambda i: (self._shapes[i].intersection(ray).distance(through), i), default=None)


def _beside(left: Leftover, share: float) -> tuple[shapely.Point, shapely.Point]:
    """Points a hair to both sides of a place on an edge, so far along it."""
    (x0, y0), (x1, y1) = left.start, left.end
    length = hypot(x1 - x0, y1 - y0)
    across = (-(y1 - y0) / length * HAIR_STEPS, (x1 - x0) / length * HAIR_STEPS)
    x, y = x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
    return shapely.Point(x + across[0], y + across[1]), shapely.Point(x - across[0], y - across[1])
