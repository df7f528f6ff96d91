"""Any straight-seam block: patches given by their corners, which cover the block exactly once.

What a ruler cuts (rectangles, half-square and quarter-square triangles, rectangles with corner squares flipped over
their corners) gets the same cut sizes as the units made for it; all else is cut with a template.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import ClassVar

from service.craft.language import mark, phrase
from service.craft.measure import ROOT_2, Exact, exact
from service.craft.planar.clipped import Parts, find_clipped, gather
from service.craft.planar.figures import Figure
from service.craft.planar.naming import PatchTemplate, in_inches
from service.craft.planar.shapes import Form, Shape, recognise
from service.craft.planar.splitting import ring_groups, set_in_groups, split
from service.craft.planar.templates import cut_outline, measure_box
from service.craft.reading import at
from service.craft.units.base import ONCE, REVERSED, TWICE, CuttingRules, Need, Patch, Unit
from service.craft.units.reading import UnitReader

FACE_UP, OVER = mark("cut with template {letter}"), mark("cut with template {letter}, turned over")


@dataclass(frozen=True)
class StraightPatch:
    """One patch: its figure in grid steps, its cloth, how it is cut. `turned_over`: with its template upside down."""

    figure: Figure
    fabric: str
    shape: Shape
    template: PatchTemplate | None = None
    turned_over: bool = False


@dataclass(frozen=True, kw_only=True)
class Polygons(Unit):
    """A block of straight seams. `size` in inches; `per_inch` grid steps make an inch."""

    kind: ClassVar[str] = "polygons"
    size: tuple[Fraction, Fraction]
    per_inch: int
    straight: tuple[StraightPatch, ...]

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return exact(self.size[0])

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return exact(self.size[1])

    @property
    def weight(self) -> int:
        """As many patches as there are."""
        return len(self.straight)

    @property
    def slanting(self) -> dict[str, None]:
        """The cloths of squares and rectangles that are cut along the threads and stand on their corner, each once."""
        return {p.fabric: None for p in self.straight if p.shape.form == Form.RECTANGLE_ON_POINT}

    @property
    def flipped(self) -> dict[str, None]:
        """The cloths of squares that are flipped over a corner, each once."""
        return {p.fabric: None for p in self.straight if p.shape.form == Form.CORNER}

    @cached_property
    def parts(self) -> Parts:
        """What is sewn together with straight seams: single patches, and bases with their corner squares."""
        figures = [patch.figure for patch in self.straight]
        clipped = [c for c in find_clipped(figures) if self.straight[c.base].shape.form == Form.BASE]
        return gather(figures, clipped)

    @cached_property
    def set_in(self) -> list[tuple[int, ...]]:
        """The groups of patches, by their number, that meet so that a seam must be set in."""
        return self._number(set_in_groups(split(self.parts.figures)))

    @cached_property
    def rings(self) -> list[tuple[int, ...]]:
        """The groups of patches, by their number, that go round a middle: one seam is sewn in two goes."""
        return self._number(ring_groups(split(self.parts.figures)))

    def _number(self, groups: list[tuple[int, ...]]) -> list[tuple[int, ...]]:
        """Groups of patches from groups of parts."""
        members = self.parts.members
        return [tuple(sorted(number for part in group for number in members[part])) for group in groups]

    def own_patches(self) -> list[Patch]:
        """The patches in the document's order."""
        return [
            Patch(
                tuple((self._length(x), self._length(y)) for x, y in patch.figure.corners),
                patch.fabric,
                at(self.pointer, "patches", i),
            )
            for i, patch in enumerate(self.straight)
        ]

    def templates(self) -> list[tuple[PatchTemplate, str, bool]]:
        """Those of the patches that no ruler cuts."""
        return [(p.template, p.fabric, p.turned_over) for p in self.straight if p.template is not None]

    def needs(self, rules: CuttingRules) -> list[Need]:
        """Squares, rectangles and triangles as the units made for them; templates by the box of their cut shape."""
        return self._needs(self.straight, rules, mirrored=False)

    def flipped_squares(self, rules: CuttingRules) -> list[Need]:
        """Those of the needs that are squares flipped over a corner."""
        corners = [patch for patch in self.straight if patch.shape.form == Form.CORNER]
        return self._needs(corners, rules, mirrored=False)

    def needs_in_mirror(self, rules: CuttingRules) -> list[Need]:
        """The same with every template turned over that is not its own mirror image."""
        return self._needs(self.straight, rules, mirrored=True)

    def _needs(self, patches: Iterable[StraightPatch], rules: CuttingRules, *, mirrored: bool) -> list[Need]:
        known: dict[tuple[object, ...], Need] = {}
        counts: Counter[tuple[object, ...]] = Counter()
        for patch in patches:
            key = (patch.fabric, *_look(patch))
            if key not in known:
                known[key] = self._need(patch, rules, mirrored=mirrored)
            counts[key] += 1
        return [_times(need, counts[key]) for key, need in known.items()]

    def _need(self, patch: StraightPatch, rules: CuttingRules, *, mirrored: bool) -> Need:
        first, second = (Fraction(measure, self.per_inch) for measure in patch.shape.measures)
        fabric, form = patch.fabric, patch.shape.form
        if patch.template is not None:
            return self._by_template(patch, patch.template, rules, mirrored=mirrored)
        if form == Form.HALF_SQUARE:
            cut = rules.half_square(first)
            return Need(fabric, cut, cut, makes=2, then=ONCE)
        if form == Form.QUARTER_SQUARE:
            cut = rules.quarter_square(first)
            return Need(fabric, cut, cut, makes=4, then=TWICE)
        sides = (first / ROOT_2, second / ROOT_2) if form == Form.RECTANGLE_ON_POINT else (first, second)
        return Need(fabric, rules.plain(sides[0]), rules.plain(sides[1]))

    def _by_template(
        self, patch: StraightPatch, template: PatchTemplate, rules: CuttingRules, *, mirrored: bool
    ) -> Need:
        over = patch.turned_over != mirrored and not template.turns_over
        width, height = template.box(rules.seam_allowance, rules.round_to)
        outline = cut_outline(in_inches(patch.figure, self.per_inch), float(rules.seam_allowance))
        return Need(
            patch.fabric,
            width,
            height,
            then=phrase(OVER if over else FACE_UP, letter=template.letter),
            shape="polygon",
            template=template.letter + (REVERSED if over else ""),
            upright=measure_box(outline, rules.round_to),
        )

    def _length(self, steps: int) -> Exact:
        return Exact(Fraction(steps, self.per_inch))


def _look(patch: StraightPatch) -> tuple[object, ...]:
    """What patches of one cloth have in common that are cut alike, also where the cloth has a direction."""
    if patch.template is None:
        return (patch.shape,)
    (x, y), *_ = patch.figure.corners
    return patch.template, patch.turned_over, tuple((a - x, b - y) for a, b in patch.figure.corners)


def _times(need: Need, count: int) -> Need:
    return need if count == 1 else need.times(count)


def plan_cut(figure: Figure, fabric: str, per_inch: int, units: UnitReader) -> StraightPatch:
    """The patch a figure is: as a ruler cuts it, or with a template of the project."""
    shape = recognise(figure)
    if shape.form != Form.TEMPLATE:
        return StraightPatch(figure, fabric, shape)
    return StraightPatch(figure, fabric, shape, *units.templates.find(figure, per_inch))
