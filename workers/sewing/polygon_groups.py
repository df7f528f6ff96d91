"""Patches of a straight-seam block that are sewn together, as a group: its outline, and what makes groups alike."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from math import gcd

from service.craft.measure import Exact
from service.craft.planar.clipped import ClippedRectangle, Parts, find_clipped, gather
from service.craft.planar.figures import Figure, GridPoint, Line, cross, line_through, make_figure
from service.craft.planar.shapes import Form
from service.craft.units import Polygons
from workers.sewing.works import Laid, polygon

Key = tuple[int, tuple[tuple[str, tuple[GridPoint, ...], bool], ...]]
"""Steps to the inch and every patch with its corners and whether it is a base, least of four turns."""


SQUARE, RECTANGLE, TRIANGLE, PART = "square", "rectangle", "triangle", "part"
"""The shapes of groups."""


@dataclass(frozen=True)
class Group:
    """Patches that cover a convex outline: figures with their cloths, `per_inch` grid steps to the inch.

    `bases` are the numbers of those that are sewn with corner squares before all else.
    """

    figures: tuple[Figure, ...]
    fabrics: tuple[str, ...]
    per_inch: int
    bases: frozenset[int] = frozenset()

    @classmethod
    def of(cls, unit: Polygons) -> Group:
        """All patches of a block."""
        straight = unit.straight
        figures, fabrics = tuple(p.figure for p in straight), tuple(p.fabric for p in straight)
        bases = frozenset(i for i, p in enumerate(straight) if p.shape.form == Form.BASE)
        return cls(figures, fabrics, unit.per_inch, bases)

    @cached_property
    def clipped(self) -> tuple[ClippedRectangle, ...]:
        """The bases with the triangles at their corners."""
        return tuple(c for c in find_clipped(self.figures) if c.base in self.bases) if self.bases else ()

    @cached_property
    def parts(self) -> Parts:
        """What is sewn together with straight seams: single patches, and bases with their corner squares."""
        return gather(self.figures, self.clipped)

    @cached_property
    def box(self) -> tuple[int, int, int, int]:
        """Left, top, right and bottom in grid steps."""
        xs, ys = zip(*(corner for figure in self.figures for corner in figure.corners), strict=True)
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def size(self) -> tuple[Exact, Exact]:
        """Width and height of the box in inches."""
        left, top, right, bottom = self.box
        return Exact(Fraction(right - left, self.per_inch)), Exact(Fraction(bottom - top, self.per_inch))

    @cached_property
    def outline(self) -> tuple[GridPoint, ...]:
        """The corners of the whole in grid steps, clockwise."""
        return _hull({corner for figure in self.figures for corner in figure.corners})

    @property
    def is_rectangle(self) -> bool:
        """Whether the outline is a rectangle with level and upright sides."""
        left, top, right, bottom = self.box
        corners = {(left, top), (right, top), (right, bottom), (left, bottom)}
        return set(self.outline) == corners

    @property
    def shape_words(self) -> str:
        """square, rectangle, triangle or part."""
        left, top, right, bottom = self.box
        if self.is_rectangle:
            return SQUARE if right - left == bottom - top else RECTANGLE
        return TRIANGLE if len(self.outline) == 3 else PART

    @cached_property
    def likeness(self) -> tuple[Key, int]:
        """What groups have in common that differ by a move and quarter turns alone, and the turns that lead there."""
        patches = [(self.fabrics[i], f.corners, i in self.bases) for i, f in enumerate(self.figures)]
        turns = []
        for _ in range(4):
            left = min(x for _, corners, _ in patches for x, _ in corners)
            top = min(y for _, corners, _ in patches for _, y in corners)
            turns.append(
                sorted((fabric, _moved(corners, left, top), base) for fabric, corners, base in patches)
            )
            patches = [
                (fabric, tuple((-y, x) for x, y in corners), base) for fabric, corners, base in patches
            ]
        least = min(range(4), key=lambda turn: turns[turn])
        step = gcd(self.per_inch, *(v for _, corners, _ in turns[least] for point in corners for v in point))
        key = tuple(
            (fabric, tuple((x // step, y // step) for x, y in corners), base)
            for fabric, corners, base in turns[least]
        )
        return (self.per_inch // step, key), least

    def pick(self, numbers: Sequence[int]) -> Group:
        """Some of the patches as a group of their own."""
        figures, fabrics = ([listed[i] for i in numbers] for listed in (self.figures, self.fabrics))
        bases = frozenset(place for place, number in enumerate(numbers) if number in self.bases)
        return Group(tuple(figures), tuple(fabrics), self.per_inch, bases)  # type: ignore[arg-type]

    def pick_parts(self, parts: Sequence[int]) -> Group:
        """Some of the parts, with all the patches in them, as a group of their own."""
        return self.pick([number for part in parts for number in self.parts.members[part]])

    def mirrored(self) -> Group:
        """The group in a mirror, left and right of its box changing places."""
        left, _, right, _ = self.box
        figures = [make_figure([(left + right - x, y) for x, y in figure.corners]) for figure in self.figures]
        return Group(tuple(figures), self.fabrics, self.per_inch, self.bases)

    def place(self, point: GridPoint) -> complex:
        """A point in inches from the top left corner of the box."""
        left, top, _, _ = self.box
        return complex((point[0] - left) / self.per_inch, (point[1] - top) / self.per_inch)

    def lay_patch(self, number: int) -> Laid:
        """One patch where it lies in the group's picture."""
        return polygon(self.fabrics[number], [self.place(corner) for corner in self.figures[number].corners])


def _moved(corners: tuple[GridPoint, ...], left: int, top: int) -> tuple[GridPoint, ...]:
    """Moved, and begun at the corner that comes first when read line by line."""
    first = min(range(len(corners)), key=lambda i: (corners[i][1], corners[i][0]))
    return tuple((x - left, y - top) for x, y in corners[first:] + corners[:first])


def _hull(points: set[GridPoint]) -> tuple[GridPoint, ...]:
    """The convex outline, clockwise on a page (Andrew's chain: Information Processing Letters 9, 1979)."""
    listed = sorted(points)
    halves: list[list[GridPoint]] = []
    for order in (listed, listed[::-1]):
        chain: list[GridPoint] = []
        for point in order:
            while len(chain) > 1 and cross(chain[-2], chain[-1], point) <= 0:
                chain.pop()
            chain.append(point)
        halves.append(chain[:-1])
    return tuple(halves[0] + halves[1])


@dataclass(frozen=True)
class SharedEdge:
    """A stretch of a line along which two patches meet. `left` lies on the negative side of the line."""

    line: Line
    start: GridPoint
    end: GridPoint
    left: int
    right: int


def find_shared_edges(figures: Sequence[Figure]) -> list[SharedEdge]:
    """Every stretch where two figures meet, line by line."""
    by_line: dict[Line, tuple[list[_Stretch], list[_Stretch]]] = defaultdict(lambda: ([], []))
    for number, figure in enumerate(figures):
        for p, q in figure.edges():
            line = line_through(p, q)
            ends = sorted((p, q), key=line.along)
            # going clockwise the figure lies at the right hand
            on_right = line.along(q) > line.along(p)
            by_line[line][on_right].append(
                (line.along(ends[0]), line.along(ends[1]), ends[0], ends[1], number)
            )
    found = []
    for line, (lefts, rights) in by_line.items():
        found += [
            SharedEdge(line, max(a, b, key=line.along), min(c, d, key=line.along), left, right)
            for low, high, a, c, left in lefts
            for other_low, other_high, b, d, right in rights
            if max(low, other_low) < min(high, other_high)
        ]
    return sorted(found, key=lambda edge: (edge.start[1], edge.start[0], edge.end))


_Stretch = tuple[int, int, GridPoint, GridPoint, int]


def find_inner_points(edges: Sequence[SharedEdge]) -> Iterator[tuple[GridPoint, bool]]:
    """Where three or more seams end, and whether a seam runs straight through there."""
    ends: dict[GridPoint, list[SharedEdge]] = defaultdict(list)
    for edge in edges:
        for point in (edge.start, edge.end):
            ends[point].append(edge)
    for point, meeting in ends.items():
        if len(meeting) > 2:
            lines = [edge.line for edge in meeting]
            yield point, len(set(lines)) < len(lines)
