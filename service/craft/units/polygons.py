"""Any straight-seam block: patches given by their corners, which cover the block exactly once.

What a ruler cuts (rectangles, half-square and quarter-square triangles, rectangles with corner squares flipped over
their corners) gets the same cut sizes as the units made for it; all else is cut with a template.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import Any, ClassVar

from service.craft.measure import ROOT_2, Exact, exact, format_length
from service.craft.planar.clipped import ClippedRectangle, Parts, choose_clipped, find_clipped, gather
from service.craft.planar.figures import Figure, NotAFigure, RationalPoint, grid_step, make_figure, to_grid
from service.craft.planar.naming import PatchTemplate, in_inches
from service.craft.planar.shapes import Form, Shape, recognise
from service.craft.planar.splitting import set_in_groups, split
from service.craft.planar.templates import cut_outline, measure_box
from service.craft.reading import at
from service.craft.units.base import ONCE, TWICE, CuttingRules, Need, Patch, Unit
from service.craft.units.polygon_cover import FINEST_GRID, check_cover
from service.craft.units.reading import UnitReader

FIELDS = frozenset({"size", "patches"})
PATCH_FIELDS = frozenset({"points", "fabric"})

MOST_PATCHES, MOST_CORNERS, MOST_DIRECTIONS = 6000, 60, 120
"""Patches of a block, corners of a patch, directions of a block's seams: more than anybody sews, and quick to check."""


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
        """The groups of patches, by their number, that no straight seam takes apart."""
        members, groups = self.parts.members, set_in_groups(split(self.parts.figures))
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
        return self._needs(rules, mirrored=False)

    def needs_in_mirror(self, rules: CuttingRules) -> list[Need]:
        """The same with every template turned over that is not its own mirror image."""
        return self._needs(rules, mirrored=True)

    def _needs(self, rules: CuttingRules, *, mirrored: bool) -> list[Need]:
        known: dict[tuple[object, ...], Need] = {}
        counts: Counter[tuple[object, ...]] = Counter()
        for patch in self.straight:
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
            then=f"cut with template {template.letter}{', turned over' if over else ''}",
            shape="polygon",
            template=template.letter + (" reversed" if over else ""),
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


def read(raw: Mapping[str, Any], pointer: str, units: UnitReader) -> Polygons | None:
    """A block of straight seams from the document."""
    reader = units.reader
    before, size = len(reader.faults), reader.size(raw, pointer)
    where = at(pointer, "patches")
    listed = reader.sequence(
        raw.get("patches"), where if "patches" in raw else pointer, 'the list "patches"', least=1
    )
    if listed is not None and len(listed) > MOST_PATCHES:
        reader.fault(where, f"these are {len(listed)} patches", f"at most {MOST_PATCHES} in one block")
        return None
    read_patches = [_read_patch(entry, at(where, i), size, units) for i, entry in enumerate(listed or [])]
    patches = [patch for patch in read_patches if patch is not None]
    if size is None or len(reader.faults) > before or len(patches) != len(read_patches):
        return None
    per_inch = grid_step([size, *(point for points, _ in patches for point in points)], most=FINEST_GRID)
    if per_inch is None or per_inch * max(size) > FINEST_GRID:
        detail = "the corners lie on no common grid: their lengths divide the inch in too many ways"
        reader.fault(where, detail, "fractions such as 1/8 or 1/3 of an inch, or tenths of a millimetre")
        return None
    figures = _make_figures([points for points, _ in patches], per_inch, where, units)
    if figures is None or not _are_seams(figures, where, units):
        return None
    if not check_cover(figures, size, per_inch, pointer, reader):
        return None
    fabrics = [fabric for _, fabric in patches]
    straight = _plan_cuts(figures, fabrics, per_inch, units)
    return Polygons(pointer=pointer, size=size, per_inch=per_inch, straight=straight)


def _read_patch(
    raw: Any, pointer: str, size: tuple[Fraction, Fraction] | None, units: UnitReader
) -> tuple[list[RationalPoint], str] | None:
    reader = units.reader
    fields = reader.mapping(
        raw, pointer, "a patch", like='{"points": [["0", "0"], ["3", "0"], ["0", "3"]], "fabric": "frost"}'
    )
    if fields is None:
        return None
    reader.known_fields(fields, pointer, PATCH_FIELDS)
    fabric = reader.fabric(fields, "fabric", pointer, "the patch")
    where = at(pointer, "points")
    listed = reader.sequence(
        fields.get("points"), where if "points" in fields else pointer, 'the list "points"', least=3
    )
    if listed is not None and len(listed) > MOST_CORNERS:
        reader.fault(where, f"these are {len(listed)} corners", f"at most {MOST_CORNERS} round one patch")
        return None
    points = [_read_point(entry, at(where, i), size, units) for i, entry in enumerate(listed or [])]
    whole = [point for point in points if point is not None]
    return None if fabric is None or listed is None or len(whole) != len(points) else (whole, fabric)


def _read_point(
    raw: Any, pointer: str, size: tuple[Fraction, Fraction] | None, units: UnitReader
) -> RationalPoint | None:
    """A corner inside the block."""
    reader = units.reader
    if not isinstance(raw, list) or len(raw) != 2:
        reader.fault(pointer, "a corner is not a pair of lengths", '[x, y], for example ["1 1/2", "3"]')
        return None
    x = reader.length(raw[0], at(pointer, 0), "the way from the left edge", zero=True)
    y = reader.length(raw[1], at(pointer, 1), "the way from the upper edge", zero=True)
    if x is None or y is None or size is None:
        return None
    for axis, (value, side, name) in enumerate(zip((x, y), size, ("wide", "high"), strict=True)):
        if value > side:
            far, most = (format_length(v, reader.measure) for v in (value, side))
            reader.fault(
                at(pointer, axis), f"the corner lies at {far}; the block is {most} {name}", f"at most {most}"
            )
            return None
    return x, y


def _make_figures(
    patches: list[list[RationalPoint]], per_inch: int, where: str, units: UnitReader
) -> list[Figure] | None:
    figures = []
    for i, points in enumerate(patches):
        try:
            figures.append(make_figure(to_grid(points, per_inch)))
        except NotAFigure as why:
            units.reader.fault(
                at(where, i, "points"),
                f"this is no patch: {why}",
                "three corners or more, in order round the patch",
            )
    return figures if len(figures) == len(patches) else None


def _are_seams(figures: list[Figure], where: str, units: UnitReader) -> bool:
    """Whether the edges run in as few directions as seams do."""
    directions = len(frozenset().union(*(figure.directions for figure in figures)))
    if directions > MOST_DIRECTIONS:
        right = f"at most {MOST_DIRECTIONS}; check whether neighbours share their corners"
        units.reader.fault(where, f"the edges run in {directions} directions", right)
    return directions <= MOST_DIRECTIONS


def _plan_cuts(
    figures: list[Figure], fabrics: list[str], per_inch: int, units: UnitReader
) -> tuple[StraightPatch, ...]:
    """How every patch is cut: bases with their corner squares first, then each of the others by itself."""
    shapes: dict[int, Shape] = {}
    for clipped in choose_clipped(figures):
        shapes[clipped.base] = _shape_of_base(clipped)
        shapes |= {triangle: Shape(Form.CORNER, (leg, leg)) for _, triangle, leg in clipped.corners}
    return tuple(
        StraightPatch(figure, fabric, shapes[number])
        if number in shapes
        else plan_cut(figure, fabric, per_inch, units)
        for number, (figure, fabric) in enumerate(zip(figures, fabrics, strict=True))
    )


def _shape_of_base(clipped: ClippedRectangle) -> Shape:
    (left, top), _, (right, bottom), _ = clipped.whole.corners
    return Shape(Form.BASE, (right - left, bottom - top))


def plan_cut(figure: Figure, fabric: str, per_inch: int, units: UnitReader) -> StraightPatch:
    """The patch a figure is: as a ruler cuts it, or with a template of the project."""
    shape = recognise(figure)
    if shape.form != Form.TEMPLATE:
        return StraightPatch(figure, fabric, shape)
    return StraightPatch(figure, fabric, shape, *units.templates.find(figure, per_inch))
