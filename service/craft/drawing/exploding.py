"""A unit taken apart along its seams: what is sewn first lies close together, what is sewn last far apart."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace

from service.craft.drawing.sheet import Polygon, Sheet
from service.craft.drawing.top import PAGE_HEIGHT_MM, PAGE_WIDTH_MM, lay_out_top, put_top
from service.craft.drawing.views import PatchView, TopView
from service.craft.language import phrase
from service.craft.outlines.affine import Point
from service.craft.units import (
    Bordered,
    CornerSquares,
    EightPointedStar,
    FanBladeRing,
    Frame,
    Grid,
    OnPoint,
    Patch,
    Polygons,
    SquareInASquare,
    StripSet,
    Unit,
)
from service.craft.units.grid import Sash

GAP_SHARE = 0.02
"""The smallest gap, of the longer side of the whole."""

WIDER = 1.5
"""How much wider the gaps are at each later stage of sewing."""

OUTWARDS = 0.16
"""By how much of its way from the middle a patch of many moves out."""


@dataclass(frozen=True)
class Apart:
    """What has been taken apart: patches in inches from the upper left corner of the box that holds them."""

    width: float
    height: float
    patches: tuple[PatchView, ...]

    def moved(self, x: float, y: float) -> tuple[PatchView, ...]:
        """The patches somewhere else."""
        return tuple(patch.moved(x, y) for patch in self.patches)


def take_apart(unit: Unit) -> Apart:
    """A unit with all its patches moved apart."""
    gap = GAP_SHARE * float(max(unit.width, unit.height))
    return _Exploder(gap).take(unit)


class _Exploder:
    """Takes units apart with one smallest gap; a shared unit is taken apart once."""

    def __init__(self, gap: float) -> None:
        self._gap = gap
        self._done: dict[int, Apart] = {}
        self._ranks: dict[int, int] = {}
        self._ways: dict[type[Unit], Callable[..., Apart]] = {
            Grid: self._grid,
            Bordered: self._bordered,
            OnPoint: self._on_point,
            SquareInASquare: self._square_in_square,
            StripSet: self._strip_set,
            FanBladeRing: self._blade_ring,
        }

    def take(self, unit: Unit) -> Apart:
        """The unit taken apart."""
        if id(unit) not in self._done:
            whole = self._corner_squares if isinstance(unit, CornerSquares) else self._burst
            way = self._ways.get(type(unit), self._turned if unit.children() else whole)
            self._done[id(unit)] = way(unit)
        return self._done[id(unit)]

    def _gap_of(self, unit: Unit) -> float:
        return self._gap * WIDER ** self._rank(unit)

    def _rank(self, unit: Unit) -> int:
        """How many stages lie inside; what only turns a unit is none."""
        if id(unit) not in self._ranks:
            inner = [self._rank(child) for child, _ in unit.children()]
            own = 1 if type(unit) in self._ways else 0
            self._ranks[id(unit)] = max(inner, default=-own) + own
        return self._ranks[id(unit)]

    def _burst(self, unit: Unit) -> Apart:
        """The patches of a small unit, each moved straight out from its middle."""
        width, height = float(unit.width), float(unit.height)
        many = isinstance(unit, Polygons | EightPointedStar)
        moved = []
        for patch in unit.own_patches():
            points = _floats(patch)
            x, y = _middle(points)
            dx, dy = x - width / 2, y - height / 2
            away = math.hypot(dx, dy)
            share = OUTWARDS if many else 0.0 if away < self._gap / 10 else self._gap / away
            moved.append(_view(points, patch.fabric, dx * share, dy * share))
        return _boxed(moved)

    def _corner_squares(self, unit: CornerSquares) -> Apart:
        """The base stays; each corner moves out along its own diagonal, square to its seam."""
        base, *corners = unit.own_patches()
        middle, step = (float(unit.width) / 2, float(unit.height) / 2), self._gap / math.sqrt(2)
        moved = [_view(_floats(base), base.fabric, 0.0, 0.0)]
        for corner in corners:
            points = _floats(corner)
            # the tip comes second of three
            ways = [math.copysign(step, tip - half) for tip, half in zip(points[1], middle, strict=True)]
            moved.append(_view(points, corner.fabric, ways[0], ways[1]))
        return _boxed(moved)

    def _strip_set(self, unit: StripSet) -> Apart:
        return _row([_one(patch) for patch in unit.own_patches()], self._gap_of(unit))

    def _blade_ring(self, unit: FanBladeRing) -> Apart:
        """The whole background, the blades pulled out from their middle, and the disc, side by side."""
        background, *blades, disc = unit.own_patches()
        middle = float(unit.width) / 2, float(unit.height) / 2
        moved = []
        for blade in blades:
            points = _floats(blade)
            x, y = _middle(points)
            moved.append(_view(points, blade.fabric, (x - middle[0]) * OUTWARDS, (y - middle[1]) * OUTWARDS))
        return _row([_one(background), _boxed(moved), _one(disc)], self._gap_of(unit))

    def _grid(self, grid: Grid) -> Apart:
        """Units of a row beside each other with a gap, rows and the strips between them with a wider one."""
        gap, sashes = self._gap_of(grid), [(s, _one(p)) for s, p in _sashes(grid)]
        lines: list[tuple[float, Apart]] = []
        for i, (row, top) in enumerate(zip(grid.rows, grid.tops, strict=True)):
            placed = [(float(x), self.take(u)) for u, x in zip(row, grid.lefts(i), strict=True)]
            placed += [(float(s.x), part) for s, part in sashes if s.across == "row" and s.y == top]
            lines.append((float(top), _row(_in_order(placed), gap)))
        between: dict[float, list[tuple[float, Apart]]] = {}
        for sash, part in sashes:
            if sash.across != "row":
                between.setdefault(float(sash.y), []).append((float(sash.x), part))
        lines += [(y, _row(_in_order(placed), gap)) for y, placed in between.items()]
        return _column(_in_order(lines), gap * WIDER)

    def _bordered(self, unit: Bordered) -> Apart:
        """Each border's strips round what is inside, the corner squares with the upper and lower strips."""
        gap, whole = self._gap_of(unit), self.take(unit.inside)
        shapes: dict[str, list[Apart]] = {}
        for patch in unit.own_patches():
            shapes.setdefault(patch.pointer, []).append(_one(patch))
        for left, right, top, bottom, *corners in shapes.values():
            middle = _row([left, whole, right], gap)
            if corners:
                nw, sw, ne, se = corners
                top, bottom = _row([nw, top, ne], gap), _row([sw, bottom, se], gap)
            whole = _column([top, middle, bottom], gap)
        return whole

    def _on_point(self, unit: OnPoint) -> Apart:
        """Diagonal rows, rising to the right: close within a row, further apart between rows."""
        side = float(unit.block_side)
        parts = [(self.take(child), frame) for child, frame in unit.children()]
        grown = max(max(part.width, part.height) for part, _ in parts) - side
        gap = self._gap_of(unit)
        along, across = (grown + gap) / side, (grown + gap * WIDER * WIDER) / side
        moved: list[PatchView] = []
        for part, frame in parts:
            x, y = _place(frame, (side / 2, side / 2))
            dx, dy = _spread(x, y, along, across)
            for view in part.moved((side - part.width) / 2, (side - part.height) / 2):
                moved.append(_view([_place(frame, p) for p in view.points], view.cloth, dx, dy))
        for patch in unit.own_patches():
            points = _floats(patch)
            # its right angle lies where two blocks meet it, so it follows them
            moved.append(_view(points, patch.fabric, *_spread(*_middle(points), along, across)))
        return _boxed(moved)

    def _square_in_square(self, unit: SquareInASquare) -> Apart:
        """The middle stays; the triangles move out from it."""
        if unit.inside is None:
            return self._burst(unit)
        [(inside, frame)] = unit.children()
        part, inner = self.take(inside), float(inside.width)
        off = (inner - part.width) / 2, (inner - part.height) / 2
        moved = [
            _view([_place(frame, p) for p in view.points], view.cloth, 0.0, 0.0) for view in part.moved(*off)
        ]
        # the middle grew by this much on every side, and there is a gap beyond it
        out = max(0.0, max(part.width, part.height) - inner) / 2 + self._gap_of(unit)
        half = float(unit.side) / 2
        for patch in unit.own_patches():
            points = _floats(patch)
            x, y = _middle(points)
            away = math.hypot(x - half, y - half)
            moved.append(_view(points, patch.fabric, (x - half) / away * out, (y - half) / away * out))
        return _boxed(moved)

    def _turned(self, unit: Unit) -> Apart:
        """A unit that only turns another: its parts turned with it."""
        [(inside, frame)] = unit.children()
        views = self.take(inside).patches
        return _boxed(
            [_view([_place(frame, p) for p in view.points], view.cloth, 0.0, 0.0) for view in views]
        )


def _sashes(grid: Grid) -> Iterable[tuple[Sash, Patch]]:
    return zip(grid.sashes(), grid.own_patches(), strict=True)


def _in_order(placed: Iterable[tuple[float, Apart]]) -> list[Apart]:
    return [part for _, part in sorted(placed, key=lambda entry: entry[0])]


def _row(parts: Sequence[Apart], gap: float) -> Apart:
    """Parts side by side, their middles level."""
    height, x = max(part.height for part in parts), 0.0
    views: list[PatchView] = []
    for part in parts:
        views += part.moved(x, (height - part.height) / 2)
        x += part.width + gap
    return Apart(x - gap, height, tuple(views))


def _column(parts: Sequence[Apart], gap: float) -> Apart:
    """Parts under each other, their middles in line."""
    width, y = max(part.width for part in parts), 0.0
    views: list[PatchView] = []
    for part in parts:
        views += part.moved((width - part.width) / 2, y)
        y += part.height + gap
    return Apart(width, y - gap, tuple(views))


def _one(patch: Patch) -> Apart:
    return _boxed([_view(_floats(patch), patch.fabric, 0.0, 0.0)])


def _boxed(views: Sequence[PatchView]) -> Apart:
    """Views in the box that holds them."""
    xs, ys = zip(*(point for view in views for point in view.points), strict=True)
    whole = Apart(max(xs) - min(xs), max(ys) - min(ys), tuple(views))
    return Apart(whole.width, whole.height, whole.moved(-min(xs), -min(ys)))


def _view(points: Iterable[Point], cloth: str, dx: float, dy: float) -> PatchView:
    return PatchView(tuple((x + dx, y + dy) for x, y in points), cloth)


def _floats(patch: Patch) -> list[Point]:
    return [(float(x), float(y)) for x, y in patch.points]


def _middle(points: Polygon) -> Point:
    return sum(x for x, _ in points) / len(points), sum(y for _, y in points) / len(points)


def _place(frame: Frame, point: Point) -> Point:
    """Where a point of a unit lies, in floats: for drawing only."""
    x, y = point
    if frame.turn is not None:
        xx, xy, yx, yy = map(float, frame.turn)
        x, y = xx * x + xy * y, yx * x + yy * y
    return x + float(frame.dx), y + float(frame.dy)


def _spread(x: float, y: float, along: float, across: float) -> Point:
    """How far a point moves that is drawn apart along rows rising to the right and across them."""
    rising, falling = (x - y) / 2 * along, (x + y) / 2 * across
    return rising + falling, falling - rising


def draw_exploded(
    view: TopView,
    apart: Apart,
    *,
    max_width_mm: float = PAGE_WIDTH_MM,
    max_height_mm: float = PAGE_HEIGHT_MM,
) -> str:
    """A unit (`view`) with its patches moved apart; no sizes, for the gaps are none of it; the legend below."""
    moved = replace(view, width=apart.width, height=apart.height, patches=apart.patches, pieces=())
    layout = lay_out_top(moved, max_width_mm=max_width_mm, max_height_mm=max_height_mm, dimensions=False)
    words = phrase(
        "{title}: {count} patches moved apart, those sewn first closest together.",
        title=view.title,
        count=len(apart.patches),
    )
    title = phrase("{title}, taken apart", title=view.title)
    sheet = Sheet(layout.width_mm, layout.height_mm, title=title, description=words)
    put_top(sheet, moved, layout)
    return sheet.to_svg()
