"""What is cut for one unit, as drawings see it: sizes, the lines to cut and to sew, the shape of a template."""

from __future__ import annotations

from dataclasses import dataclass, replace

from service.craft.cutting_words import say_then
from service.craft.language import mark, phrase
from service.craft.measure import format_label
from service.craft.outlines.affine import Point
from service.craft.planar.naming import PatchTemplate
from service.craft.units import (
    CornerSquares,
    CuttingRules,
    FlyingGeese,
    HalfSquareTriangle,
    Need,
    Polygons,
    SquareInASquare,
    Unit,
)
from service.craft.units.base import DIAMONDS, ONCE, TWICE
from service.craft.units.half_square_triangle import EIGHT, FOUR

Line = tuple[Point, Point]

FALLING: Line = ((0.0, 0.0), (1.0, 1.0))
RISING: Line = ((0.0, 1.0), (1.0, 0.0))
UPRIGHT: Line = ((0.5, 0.0), (0.5, 1.0))
LEVEL: Line = ((0.0, 0.5), (1.0, 0.5))

FLIPPED = mark("sewn on a diagonal, then trimmed")
"""What is done with a square that is laid on a corner and folded back."""


@dataclass(frozen=True)
class CutView:
    """One cut of a unit: size in inches and in words, its cloth's key, and what is done with it.

    `cuts` are lines in shares of its sides; `beside` says which of them have a seam on both sides, at
    `seam` inches; `around` says that it is sewn all round; `folded` are lines that are sewn, and cut on one side of
    the seam. `diamonds` says into how many a strip is cut. `shape` is what a template leaves of the cut and
    `seam_line` where its seams run, both in shares of the sides.
    """

    width: float
    height: float
    width_text: str
    height_text: str
    cloth: str
    words: tuple[str, ...]
    cuts: tuple[Line, ...] = ()
    beside: tuple[Line, ...] = ()
    around: bool = False
    seam: float = 0.0
    folded: tuple[Line, ...] = ()
    diamonds: int = 0
    shape: tuple[Point, ...] = ()
    seam_line: tuple[Point, ...] = ()

    @property
    def size(self) -> str:
        """Both sides in words."""
        return phrase("{width} by {height}", width=self.width_text, height=self.height_text)


def view_cuts(unit: Unit, rules: CuttingRules, measure: str) -> list[CutView]:
    """The cuts for a unit's own patches, in the order of its cloths; a unit without patches of its own has none."""
    needs = list(dict.fromkeys(unit.needs(rules)))
    return [_view_cut(need, unit, rules, measure, first=need is needs[0]) for need in needs]


def _view_cut(need: Need, unit: Unit, rules: CuttingRules, measure: str, *, first: bool) -> CutView:
    cuts, beside, around = _find_lines(need, unit)
    folded = (
        need in unit.flipped_squares(rules)
        if isinstance(unit, Polygons)
        else not first and _folds_corners(unit)
    )
    view = CutView(
        width=float(need.width),
        height=float(need.height),
        width_text=format_label(need.width, measure),
        height_text=format_label(need.height, measure),
        cloth=need.fabric,
        words=(*_say(need), *([phrase(FLIPPED)] if folded else [])),
        cuts=cuts,
        beside=beside,
        around=around,
        seam=float(rules.seam_allowance),
        folded=(RISING,) if folded else (),
        diamonds=need.makes if need.then == DIAMONDS else 0,
    )
    template = _find_template(need, unit)
    return view if template is None else _with_template(view, *template, rules)


def _folds_corners(unit: Unit) -> bool:
    """Whether all but a unit's first cut are squares laid on a corner, sewn on a diagonal and folded back."""
    if isinstance(unit, FlyingGeese | SquareInASquare):
        return unit.method == "corner squares"
    return isinstance(unit, CornerSquares)


def _find_lines(need: Need, unit: Unit) -> tuple[tuple[Line, ...], tuple[Line, ...], bool]:
    """The cuts across a square, those with seams on both sides, and whether it is sewn all round."""
    if need.then == ONCE:
        return (RISING,), (), False
    if need.then == TWICE:
        return (FALLING, RISING), (), False
    if not need.method:
        return (), (), False
    if isinstance(unit, HalfSquareTriangle) and need.method == FOUR:
        return (FALLING, RISING), (), True
    if isinstance(unit, HalfSquareTriangle) and need.method == EIGHT:
        return (FALLING, RISING, UPRIGHT, LEVEL), (FALLING, RISING), False
    if need.makes == 4 and need.sets == 1:
        # a square for two quarter-square units or four geese: sewn along one diagonal first, then along the other
        return (FALLING, RISING), (RISING,), False
    return (RISING,), (RISING,), False


def _find_template(need: Need, unit: Unit) -> tuple[PatchTemplate, bool] | None:
    """The template of a polygon, and whether it is turned over."""
    letter, _, over = need.template.partition(" ")
    for template, _, _ in unit.templates():
        if template.letter == letter:
            return template, bool(over)
    return None


def _with_template(view: CutView, template: PatchTemplate, over: bool, rules: CuttingRules) -> CutView:
    """The cut with the shape that the template leaves of it: a mirror image where it is turned over."""
    sign = -1.0 if over else 1.0
    outer = [(sign * x, y) for x, y in template.cut_line(rules.seam_allowance)]
    inner = [(sign * x, y) for x, y in template.seam_line]
    left, top = (min(point[axis] for point in outer) for axis in (0, 1))

    def shares(points: list[Point]) -> tuple[Point, ...]:
        return tuple(((x - left) / view.width, (y - top) / view.height) for x, y in points)

    return replace(view, shape=shares(outer), seam_line=shares(inner))


def _say(need: Need) -> tuple[str, ...]:
    words: list[str] = []
    if need.makes > 1:
        words.append(phrase("gives {count}", count=need.makes))
    elif need.pieces > 1:
        words.append(phrase("{count} of these", count=need.pieces))
    if need.method:
        words.append(phrase("sewn {method}", method=phrase(need.method)))
    elif need.then:
        words.append(say_then(need.then))
    return tuple(words)
