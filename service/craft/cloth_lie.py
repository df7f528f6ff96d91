"""How the cloth lies in every patch of a finished top: where its print's up points, once it is cut, turned and sewn.

Cloth is seen from its right side everywhere, so a print is turned and never mirrored, in a mirrored unit too.
"""

from __future__ import annotations

import math
from collections import Counter, defaultdict
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from service.craft.cutting_choices import ACROSS, ALONG
from service.craft.fabric import Fabric
from service.craft.units import (
    CornerSquares,
    CuttingRules,
    FlyingGeese,
    Frame,
    HalfSquareTriangle,
    Need,
    OnPoint,
    Patch,
    Polygons,
    QuarterSquareTriangle,
    SquareInASquare,
    Unit,
)
from service.craft.units.base import DIAMONDS, HERE, ONCE, TWICE
from service.craft.units.flying_geese import CORNERS
from service.craft.units.square_in_a_square import FLIPPED

Vector = tuple[float, float]
UP: Vector = (0.0, -1.0)
ON_ITS_SIDE = 90.0
"""A square laid face down and folded back over its diagonal has turned by a quarter."""


def lay_cloths(top: Unit, fabrics: Mapping[str, Fabric], rules: CuttingRules) -> list[Vector]:
    """For every patch of `top.patches()`, in that order, where up of its cloth points (x right, y down, length 1)."""
    return list(_Laying(fabrics, rules).walk(top, HERE))


@dataclass
class _Laying:
    """Goes through a top; `seen` counts the triangles that came out of squares cut alike."""

    fabrics: Mapping[str, Fabric]
    rules: CuttingRules
    seen: Counter[tuple[object, ...]] = field(default_factory=Counter)
    needs: dict[int, dict[str, Need]] = field(default_factory=lambda: defaultdict(dict))

    def walk(self, unit: Unit, frame: Frame) -> Iterator[Vector]:
        """The patches of a unit as `Unit.patches` gives them."""
        own = unit.own_patches()
        dealt = _deal_sides(unit, own)
        for number, patch in enumerate(own):
            degrees = dealt.get(number)
            yield _turn_with(frame, self._turn(unit, patch, number) if degrees is None else degrees)
        for child, inner in unit.children():
            yield from self.walk(child, frame.then_inside(inner))

    def _turn(self, unit: Unit, patch: Patch, number: int) -> float:
        """Degrees clockwise by which the cloth of a unit's own patch is turned in the unit."""
        need = self._need(unit, patch.fabric)
        if need is not None and (need.then in (ONCE, TWICE) or need.method):
            return self._turn_triangle(unit, patch, number, need)
        if need is not None and need.then == DIAMONDS:
            return _square_to(patch.points[0], patch.points[1])
        if need is not None and need.all_ways:
            return _outward(unit, patch)
        if need is not None and need.lay in (ALONG, ACROSS):
            return ON_ITS_SIDE if (need.lay == ALONG) != _stands(patch) else 0.0
        if _is_flipped(unit, patch):
            return ON_ITS_SIDE
        if (
            isinstance(unit, SquareInASquare)
            and patch.fabric == unit.inside_fabric
            and unit.method != FLIPPED
        ):
            return 45.0
        if isinstance(unit, Polygons) and patch.fabric in unit.slanting:
            return _square_to(*_longest(patch))
        return ON_ITS_SIDE if not self._one_way(patch.fabric) and _stands(patch) else 0.0

    def _turn_triangle(self, unit: Unit, patch: Patch, number: int, need: Need) -> float:
        """Triangles come out of a square in turn: two head to tail, four each a quarter further."""
        key = need.fabric, need.width, need.then, need.method
        place, self.seen[key] = self.seen[key], self.seen[key] + 1
        if isinstance(unit, QuarterSquareTriangle):
            return 90.0 * ((number - place) % 4)
        if need.then == TWICE:
            return 90.0 * (place % 4)
        # of a pair sewn before it is cut, the upper square lay face down and is folded back over the seam
        beside = ON_ITS_SIDE if isinstance(unit, HalfSquareTriangle) and need.method and number else 0.0
        return beside + 180.0 * (place % 2)

    def _need(self, unit: Unit, fabric: str) -> Need | None:
        known = self.needs[id(unit)]
        if not known:
            known |= {need.fabric: need for need in reversed(unit.needs(self.rules))}
        return known.get(fabric)

    def _one_way(self, fabric: str) -> bool:
        return fabric in self.fabrics and self.fabrics[fabric].one_way


def _is_flipped(unit: Unit, patch: Patch) -> bool:
    """Whether a patch is the seen half of a square that was flipped over its diagonal."""
    if isinstance(unit, Polygons):
        return patch.fabric in unit.flipped
    if len(patch.points) != 3:
        return False
    if isinstance(unit, CornerSquares):
        return patch.fabric == unit.corner_fabric
    if isinstance(unit, SquareInASquare):
        return unit.method == FLIPPED
    return isinstance(unit, FlyingGeese) and unit.method == CORNERS and patch.fabric == unit.sky


def _deal_sides(unit: Unit, own: Sequence[Patch]) -> dict[int, float]:
    """Setting triangles by their place among the unit's patches: the four of a square go to the side where their print
    stands up, as long as there is one for it; the others are turned. Corners stand up, cut one way or the other.
    """
    if not isinstance(unit, OnPoint):
        return {}
    sides = {n: _side(patch) for n, patch in enumerate(own)}
    aslant = {n: side for n, side in sides.items() if side is not None}
    left = Counter({side: math.ceil(len(aslant) / 4) for side in range(4)})
    turns = {n: 0.0 for n in sides if n not in aslant}
    waiting = []
    for n, side in aslant.items():
        if left[side]:
            left[side] -= 1
            turns[n] = 0.0
        else:
            waiting.append((n, side))
    for (n, side), cut_from in zip(waiting, left.elements(), strict=False):
        turns[n] = 90.0 * ((side - cut_from) % 4)
    return turns


def _side(patch: Patch) -> int | None:
    """Which side of a square a triangle's long edge is, 0 to 3 from the top clockwise; None where it runs aslant."""
    (x0, y0), (x1, y1) = _longest(patch)
    middle = _middle(patch)
    if abs(y0 - y1) < 1e-9:
        return 0 if y0 < middle[1] else 2
    if abs(x0 - x1) < 1e-9:
        return 1 if x0 > middle[0] else 3
    return None


def _stands(patch: Patch) -> bool:
    """Whether an upright rectangle is higher than wide: strips lie across their cloth."""
    xs, ys = ({round(float(p[axis]), 6) for p in patch.points} for axis in (0, 1))
    upright = len(patch.points) == 4 and len(xs) == len(ys) == 2
    return upright and max(ys) - min(ys) > max(xs) - min(xs)


def _longest(patch: Patch) -> tuple[Vector, Vector]:
    points = [(float(x), float(y)) for x, y in patch.points]
    return max(zip(points, [*points[1:], points[0]], strict=True), key=lambda edge: math.dist(*edge))


def _middle(patch: Patch) -> Vector:
    count = len(patch.points)
    return sum(float(x) for x, _ in patch.points) / count, sum(float(y) for _, y in patch.points) / count


def _square_to(start: Sequence[object], end: Sequence[object]) -> float:
    """The turn at which up stands square to an edge; the edge lay across the cloth."""
    dx, dy = (float(end[axis]) - float(start[axis]) for axis in (0, 1))  # type: ignore[arg-type]
    return math.degrees(math.atan2(dy, dx))


def _outward(unit: Unit, patch: Patch) -> float:
    """The turn at which up points away from the unit's middle."""
    x, y = _middle(patch)
    return math.degrees(math.atan2(x - float(unit.width) / 2, float(unit.height) / 2 - y))


def _turn_with(frame: Frame, degrees: float) -> Vector:
    """Where up points on the top after a turn within a unit whose frame is given."""
    turn = math.radians(degrees)
    x, y = math.sin(turn), -math.cos(turn)
    if frame.turn is None:
        return x, y
    a, b, c, d = (float(value) for value in frame.turn)
    placed = a * x + b * y, c * x + d * y
    length = math.hypot(*placed)
    return placed[0] / length, placed[1] / length
