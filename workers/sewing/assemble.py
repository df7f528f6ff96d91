"""From a top to works: what is sewn first, what is sewn of that, down to the whole top.

Equal units become one work. A mirror is passed on inwards until it reaches units that are their own mirror image
laid another way; what is left of turns is how a work lies in the next one.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable
from dataclasses import replace

from service.craft.document import Project
from service.craft.language import phrase
from service.craft.planar.splitting import TooDeep
from service.craft.units import (
    Bordered,
    CornerSquares,
    Diamond,
    EightPointedStar,
    FanBladeRing,
    FlyingGeese,
    Grid,
    HalfSquareTriangle,
    Hexagons,
    Kite,
    Mirrored,
    OnPoint,
    PatchUnit,
    Polygons,
    QuarterSquareTriangle,
    SquareInASquare,
    StripSet,
    Turned,
    Unit,
)
from workers.sewing.bordering import sew_borders
from workers.sewing.diagonals import sew_diagonally
from workers.sewing.diamonds import make_diamond
from workers.sewing.fan_blades import make_fan_blades
from workers.sewing.hexagons import make_hexagons
from workers.sewing.panels import PanelSewer
from workers.sewing.polygons import PolygonSewer
from workers.sewing.rows import sew_rows
from workers.sewing.small_units import (
    ClothNames,
    make_corner_squares,
    make_half_square,
    make_square_in_square,
)
from workers.sewing.stars import make_star
from workers.sewing.strip_sets import make_strip_set
from workers.sewing.triangle_units import make_flying_geese, make_quarter_square
from workers.sewing.works import Cut, Laid, Made, Piece, Work, content, lay, rectangle


class NotSewn(Exception):
    """A unit of a kind that this room does not know how to sew."""


class Assembler:
    """Makes the works of one project; equal works are one object."""

    def __init__(self, names: ClothNames, panels: PanelSewer | None = None) -> None:
        self._names = names
        self._panels = panels
        self._sideways = False
        self._polygon_sewer = PolygonSewer(names, self._basic)
        self._seen: dict[tuple[int, bool, bool], Made] = {}
        self._works: dict[Hashable, Made] = {}
        self._ways: dict[str, Callable[..., Made]] = {
            PatchUnit.kind: self._patch,
            HalfSquareTriangle.kind: self._small(make_half_square),
            QuarterSquareTriangle.kind: self._small(make_quarter_square),
            FlyingGeese.kind: self._small(make_flying_geese),
            StripSet.kind: self._small(make_strip_set),
            CornerSquares.kind: self._small(make_corner_squares),
            EightPointedStar.kind: self._small(make_star),
            SquareInASquare.kind: self._square_in_square,
            Kite.kind: self._polygons,
            Diamond.kind: self._small(make_diamond),
            FanBladeRing.kind: self._small(make_fan_blades),
            Hexagons.kind: self._small(make_hexagons),
            Polygons.kind: self._polygons,
            Grid.kind: self._grid,
            Bordered.kind: self._bordered,
            OnPoint.kind: self._on_point,
            Turned.kind: self._turned,
            Mirrored.kind: self._mirrored,
        }

    def make(self, unit: Unit, mirrored: bool = False) -> Made:
        """The work a unit is (or its mirror image), and how it lies."""
        key = (id(unit), mirrored, self._sideways)
        if key not in self._seen:
            way = self._ways.get(unit.kind)
            if way is None:
                raise NotSewn(f"there is no way to sew a unit of the kind {unit.kind!r} ({unit.pointer})")
            made = way(unit, mirrored)
            if self._panels is not None:
                made = self._panels.piece(unit, made, sideways=self._sideways)
            self._seen[key] = made
        return self._seen[key]

    def _once(self, key: Hashable, make: Callable[[], Made]) -> Made:
        """The work of that content, made when it is first asked for."""
        if key not in self._works:
            self._works[key] = make()
        return self._works[key]

    def _basic(self, made: Made) -> Made:
        """A small unit: the work of that id made first, laid as this one."""
        first, _ = self._once(made[0].id, lambda: made)
        return first, made[1]

    def _patch(self, unit: PatchUnit, _mirrored: bool) -> Made:
        return self._cut(rectangle(unit.fabric, unit.width, unit.height)), 0

    def _cut(self, piece: Piece) -> Piece:
        return self._once(piece.id, lambda: (piece, 0))[0]

    def _small(self, make: Callable[..., Made]) -> Callable[..., Made]:
        """The way of a small unit that is sewn of nothing but patches."""
        return lambda unit, mirrored: self._basic(make(unit, mirrored, self._names))

    def _square_in_square(self, unit: SquareInASquare, mirrored: bool) -> Made:
        inside = None if unit.inside is None else self.make(unit.inside, mirrored)
        made = make_square_in_square(unit, inside, mirrored, self._names)
        if inside is None:
            return self._basic(made)
        key = (unit.kind, unit.block, inside[0].id, unit.fabric, unit.method)
        return self._once(key, lambda: made)[0], made[1]

    def _polygons(self, unit: Polygons, mirrored: bool) -> Made:
        try:
            about, found = self._polygon_sewer.sew(unit, mirrored=mirrored)
        except TooDeep as why:
            raise NotSewn(f"{why} ({unit.pointer})") from why
        if not isinstance(found[0], Work):
            return self._cut(found[0]), 0
        return self._once((unit.kind, unit.block, about), lambda: found)

    def _grid(self, unit: Grid, mirrored: bool) -> Made:
        rows = [[self.make(child, mirrored) for child in row] for row in unit.rows]
        if mirrored:
            rows = [row[::-1] for row in rows]
        about = (tuple(tuple(map(content, row)) for row in rows), unit.sashing)
        key = (unit.kind, unit.block, about)
        return self._once(key, lambda: sew_rows(unit, rows, about, self._names, mirrored=mirrored))

    def _bordered(self, unit: Bordered, mirrored: bool) -> Made:
        inside = self.make(unit.inside, mirrored)
        about = (content(inside), unit.borders)
        key = (unit.kind, unit.block, about)
        return self._once(key, lambda: sew_borders(unit, inside, about, self._names, mirrored=mirrored))

    def _on_point(self, unit: OnPoint, mirrored: bool) -> Made:
        rows = [[self._in_row(child, mirrored) for child in row] for row in unit.rows]
        if mirrored:
            rows = [row[::-1] for row in rows]
        alternate = None if unit.alternate is None else self._in_row(unit.alternate, mirrored)
        about = (
            tuple(tuple(map(content, row)) for row in rows),
            alternate and content(alternate),
            (unit.side, unit.corner, unit.extra),
        )
        key = (unit.kind, unit.block, about)
        return self._once(
            key, lambda: sew_diagonally(unit, rows, alternate, about, self._names, mirrored=mirrored)
        )

    def _in_row(self, unit: Unit, mirrored: bool) -> Made:
        """A block as it lies in its diagonal row, held so that the row runs from left to right.

        On point it stands turned by an eighth; the row itself rises by an eighth, which leaves a quarter turn.
        In a mirror the block stands turned by an eighth the other way, which leaves none.
        """
        piece, turn = self.make(unit, mirrored)
        return piece, (turn + (0 if mirrored else 1)) % 4

    def _turned(self, unit: Turned, mirrored: bool) -> Made:
        quarters = unit.turn // 90
        piece, turn = self._make_lying(unit.inside, mirrored, sideways=self._sideways != bool(quarters % 2))
        return piece, (turn + (-quarters if mirrored else quarters)) % 4

    def _make_lying(self, unit: Unit, mirrored: bool, *, sideways: bool) -> Made:
        """The work of a unit that lies on its side on the cloth, or does not."""
        before, self._sideways = self._sideways, sideways
        piece, turn = self.make(unit, mirrored)
        self._sideways = before
        if sideways and self._panels is not None and self._panels.one_way:
            piece = self._panels.keep_apart(piece, self._make_lying(unit, mirrored, sideways=False)[0])
        return piece, turn

    def _mirrored(self, unit: Mirrored, mirrored: bool) -> Made:
        return self.make(unit.inside, not mirrored)


def assemble(project: Project, names: ClothNames) -> Laid:
    """The whole top as it lies; its works hang together in it."""
    piece, turn = Assembler(names, PanelSewer(project, names)).make(project.top)
    if isinstance(piece, Work):
        return lay((piece, turn), 0j)
    return lay((_whole_cloth(project, names, piece), 0), 0j)


def _whole_cloth(project: Project, names: ClothNames, cut: Cut) -> Work:
    """A top of a single cloth: one work without a seam, so that its size is stated as well."""
    patch = next(iter(project.top.patches()))
    cut = replace(rectangle(patch.fabric, project.top.width, project.top.height), pieced=cut.pieced)
    cloth = names.cloth(patch.fabric)
    return Work(
        id="top.whole-cloth",
        kind="whole cloth",
        title=phrase("The top: one piece of {cloth}", cloth=cloth),
        one=phrase("top of {cloth}", cloth=cloth),
        many=phrase("tops of {cloth}", cloth=cloth),
        width=project.top.width,
        height=project.top.height,
        items=(Laid(cut),),
        seams=(),
        pointer=project.top.pointer,
        block=project.top.block,
        called=phrase("the top"),
        facts={"cloth": cloth, "pieced": "in panels" if cut.pieced else ""},
    )
