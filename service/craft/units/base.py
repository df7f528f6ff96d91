"""What every unit has: a finished size, patches where they lie, the cuts it needs."""

from __future__ import annotations

from abc import ABC, abstractmethod
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from fractions import Fraction
from typing import ClassVar

from service.craft.cutting_choices import LEAST_CLOTH
from service.craft.language import mark
from service.craft.measure import ROOT_2, Exact, Number, exact, round_up
from service.craft.planar.naming import PatchTemplate

Point = tuple[Exact, Exact]

ZERO = Exact(0)
ONCE = mark("cut once on the diagonal")
TWICE = mark("cut twice on the diagonal")
DIAMONDS = mark("cut at 45 degrees into diamonds, each as wide as the short side")
REVERSED = " reversed"
"""Behind the letter of a template that is turned over for a cut."""

TRADE_STEP = Fraction(1, 8)
"""Inches in which the trade states its constants."""


@dataclass(frozen=True)
class Patch:
    """One finished patch where it lies: corners in inches, x right, y down, in order round the patch.

    `hole` is what is hidden in its middle, under patches that are laid on it.
    """

    points: tuple[Point, ...]
    fabric: str
    pointer: str
    hole: tuple[Point, ...] = ()


@dataclass(frozen=True)
class Frame:
    """Where a unit lies: a turn or mirror (None for neither), then a move. Exact throughout.

    `turn` is (xx, xy, yx, yy): x' = xx·x + xy·y, y' = yx·x + yy·y.
    """

    dx: Exact = ZERO
    dy: Exact = ZERO
    turn: tuple[Exact, Exact, Exact, Exact] | None = None

    def place(self, point: Point) -> Point:
        """Where a point of the unit lies."""
        x, y = self._turned(point)
        return x + self.dx, y + self.dy

    def then_inside(self, inner: Frame) -> Frame:
        """The frame of something that lies in `inner` inside a unit lying in this one."""
        dx, dy = self.place((inner.dx, inner.dy))
        if self.turn is None or inner.turn is None:
            return Frame(dx, dy, self.turn or inner.turn)
        a, b, c, d = self.turn
        e, f, g, h = inner.turn
        return Frame(dx, dy, (a * e + b * g, a * f + b * h, c * e + d * g, c * f + d * h))

    def _turned(self, point: Point) -> Point:
        if self.turn is None:
            return point
        x, y = point
        xx, xy, yx, yy = self.turn
        return xx * x + xy * y, yx * x + yy * y


HERE = Frame()


@dataclass(frozen=True)
class CuttingRules:
    """What turns finished sizes into cut sizes: the seam allowance and the rounding grid, in inches.

    What triangles need beyond their finished size is s(2 + √2) or s(2 + 2√2) exactly (geometry). The trade
    takes the next eighth of an inch above it, 7/8 and 1 1/4 for a 1/4 in seam (K. Combs, Formulas for
    Quilters, 2002), and so do we on grids that go into an eighth: charts then agree to the step. On a grid of
    millimetres only the cut is rounded.
    """

    seam_allowance: Fraction
    round_to: Fraction

    def plain(self, finished: Number) -> Fraction:
        """Side of a square or rectangle: finished + two allowances."""
        return self.round(finished + 2 * self.seam_allowance)

    def half_square(self, finished: Number) -> Fraction:
        """Side of a square to be cut once on the diagonal, for triangles of that finished short side."""
        return self.round(finished + self.half_square_extra)

    def quarter_square(self, finished: Number) -> Fraction:
        """Side of a square to be cut twice on the diagonal, for triangles of that finished long side."""
        return self.round(finished + self.quarter_square_extra)

    @property
    def half_square_extra(self) -> Number:
        """s(2 + √2): 7/8 for a 1/4 in seam, as the trade says it."""
        return self._constant(self.seam_allowance * (2 + ROOT_2))

    @property
    def quarter_square_extra(self) -> Number:
        """s(2 + 2√2): 1 1/4 for a 1/4 in seam, as the trade says it."""
        return self._constant(self.seam_allowance * (2 + 2 * ROOT_2))

    def _constant(self, extra: Exact) -> Number:
        """Up to 1/8 in or the finer part of it; exact on any other grid, whose cuts are rounded once, at the end."""
        step = min(self.round_to, TRADE_STEP)
        return round_up(extra, step) if TRADE_STEP % step == 0 else extra

    def round(self, cut: Number) -> Fraction:
        """A cut size on the rounding grid: up, never short."""
        return round_up(cut, self.round_to)


@dataclass(frozen=True)
class Need:
    """Cloth one unit needs: `pieces` patches out of cuts that give `makes` each.

    `lay` is which way of the cloth a long strip is cut.

    `width` and `height` are as the piece lies in the unit, `height` up and down. `pool` keeps apart what
    cannot share a cut: squares sewn together in pairs before they are cut serve their own pair alone;
    `method` says how such a pair is sewn, and `partner` is the cloth of the other square. Cuts that are only
    of use together come in `sets` of so many. A piece of shape polygon is cut with its `template`, out of a box
    of that size; `upright` is its box as it lies in the unit, for cloth with a direction. `all_ways`: the pieces lie
    in all directions round a middle.
    """

    fabric: str
    width: Fraction
    height: Fraction
    pieces: int = 1
    makes: int = 1
    then: str = ""
    shape: str = ""
    pool: str = ""
    method: str = ""
    partner: str = ""
    sets: int = 1
    template: str = ""
    upright: tuple[Fraction, Fraction] | None = None
    lay: str = LEAST_CLOTH
    all_ways: bool = False

    def times(self, count: int) -> Need:
        """The same need so many times."""
        return replace(self, pieces=self.pieces * count)

    @property
    def form(self) -> str:
        """square, rectangle, strip or polygon."""
        return self.shape or ("square" if self.width == self.height else "rectangle")


@dataclass(frozen=True, kw_only=True)
class Unit(ABC):
    """The smallest sewn thing, or anything made of such. Sizes are finished sizes in inches.

    `pointer` is where it stands in the document; `block` is its name where it is a named block.
    """

    kind: ClassVar[str]

    pointer: str = ""
    block: str = field(default="")

    @property
    @abstractmethod
    def width(self) -> Exact:
        """Finished width in inches."""

    @property
    @abstractmethod
    def height(self) -> Exact:
        """Finished height in inches."""

    @property
    def weight(self) -> int:
        """How much it counts, without what lies inside, towards the most that one top may hold."""
        return 1

    def children(self) -> list[tuple[Unit, Frame]]:
        """The units inside, each where it lies in this one."""
        return []

    def own_patches(self) -> list[Patch]:
        """The patches that are this unit's own, not its children's."""
        return []

    def needs(self, rules: CuttingRules) -> list[Need]:
        """The cuts for its own patches."""
        return []

    def needs_in_mirror(self, rules: CuttingRules) -> list[Need]:
        """The cuts where the unit is used mirrored; the same, unless a shape has a right and a left hand."""
        return self.needs(rules)

    def templates(self) -> list[tuple[PatchTemplate, str, bool]]:
        """The template, the cloth and whether the template is turned over, for each own patch that no ruler cuts."""
        return []

    def patches(self, frame: Frame = HERE) -> Iterator[Patch]:
        """Every patch, its own and those of everything inside, where it lies."""
        for patch in self.own_patches():
            hole = tuple(map(frame.place, patch.hole))
            yield Patch(tuple(map(frame.place, patch.points)), patch.fabric, patch.pointer, hole)
        for child, inner in self.children():
            yield from child.patches(frame.then_inside(inner))

    def walk(self) -> Iterator[Unit]:
        """This unit and every unit inside, outermost first; a block used twice comes twice."""
        yield self
        for child, _ in self.children():
            yield from child.walk()


def box(width: Number, height: Number, x: Number = 0, y: Number = 0) -> tuple[Point, ...]:
    """The corners of a rectangle whose top left corner lies at (x, y)."""
    left, top, right, bottom = exact(x), exact(y), exact(x + width), exact(y + height)
    return (left, top), (right, top), (right, bottom), (left, bottom)


def move(x: Number, y: Number) -> Frame:
    """The frame of something that is only moved."""
    return Frame(exact(x), exact(y))
