"""Rectangles with corners cut off at 45 degrees, and the triangles that fill them: sewn as a base with corner squares.

An octagon, a trapezoid or a slanting strip by itself needs a template. Where a triangle of one cloth fills every
corner that is cut off, the base is cut as the whole rectangle and a square is flipped over each corner: all of it is
rotary cut. The triangles are then no longer cut by themselves, so this holds only where the rectangle can be sewn as
one thing: where no other patch lies in a corner, and where no seam round it is set in that would else run straight.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from service.craft.planar.figures import Figure, GridPoint
from service.craft.planar.shapes import Form, recognise
from service.craft.planar.splitting import TooDeep, ring_groups, set_in_groups, split


@dataclass(frozen=True)
class ClippedRectangle:
    """A base by its number, and for each corner that is cut off (nw, ne, se, sw) its triangle and its leg."""

    base: int
    corners: tuple[tuple[str, int, int], ...]
    whole: Figure

    @property
    def members(self) -> tuple[int, ...]:
        """The numbers of all its figures, the base first."""
        return self.base, *(triangle for _, triangle, _ in self.corners)


@dataclass(frozen=True)
class Parts:
    """What is sewn together with straight seams: single figures and whole clipped rectangles, and what is in each."""

    figures: tuple[Figure, ...]
    members: tuple[tuple[int, ...], ...]


def gather(figures: Sequence[Figure], clipped: Iterable[ClippedRectangle]) -> Parts:
    """Every clipped rectangle as one part, every other figure as a part of its own."""
    by_base = {found.base: found for found in clipped}
    inside = {triangle for found in by_base.values() for _, triangle, _ in found.corners}
    numbers = [number for number in range(len(figures)) if number not in inside]
    return Parts(
        tuple(by_base[n].whole if n in by_base else figures[n] for n in numbers),
        tuple(by_base[n].members if n in by_base else (n,) for n in numbers),
    )


def choose_clipped(figures: Sequence[Figure]) -> list[ClippedRectangle]:
    """The clipped rectangles that are sewn as one thing: all but those that would make a straight seam set in."""
    chosen = find_clipped(figures)
    if not chosen:
        return []
    try:
        groups = _list_set_in(gather(figures, chosen))
        always = set().union(*_list_set_in(gather(figures, []))) if groups else set()
        while groups:
            triangles = {n for found in chosen for n in found.members[1:]}
            stuck = set().union(*(group for group in groups if not group - triangles <= always))
            kept = [found for found in chosen if found.base not in stuck]
            if len(kept) == len(chosen):
                break
            chosen, groups = kept, _list_set_in(gather(figures, kept))
    except TooDeep:
        return []
    return chosen


def _list_set_in(parts: Parts) -> list[set[int]]:
    """The numbers of the figures in each group that no straight seam takes apart."""
    assembly = split(parts.figures)
    groups = [*set_in_groups(assembly), *ring_groups(assembly)]
    return [{number for part in group for number in parts.members[part]} for group in groups]


def find_clipped(figures: Sequence[Figure]) -> list[ClippedRectangle]:
    """Every rectangle with corners cut off at 45 degrees whose corners are filled by a triangle each."""
    triangles = {frozenset(f.corners): i for i, f in enumerate(figures) if len(f.corners) == 3}
    found = (_look_at(number, figure, triangles) for number, figure in enumerate(figures))
    return [clipped for clipped in found if clipped is not None]


def _look_at(
    number: int, figure: Figure, triangles: dict[frozenset[GridPoint], int]
) -> ClippedRectangle | None:
    cuts = _find_cuts(figure)
    if not cuts or recognise(figure).form != Form.TEMPLATE:
        return None
    corners = []
    for name, p, tip, q in cuts:
        filling = triangles.get(frozenset((p, tip, q)))
        if filling is None:
            return None
        corners.append((name, filling, abs(p[0] - q[0])))
    left, top, right, bottom = box_of(figure)
    whole = Figure(((left, top), (right, top), (right, bottom), (left, bottom)))
    return ClippedRectangle(number, tuple(sorted(corners, key=lambda corner: ORDER.index(corner[0]))), whole)


ORDER = ("nw", "ne", "se", "sw")


def _find_cuts(figure: Figure) -> list[tuple[str, GridPoint, GridPoint, GridPoint]]:
    """Each edge that cuts a corner of the box off: which corner, the edge's start, the corner, the edge's end.

    None where an edge is neither such a cut nor a part of the box.
    """
    left, top, right, bottom = box_of(figure)
    names = {(left, top): "nw", (right, top): "ne", (right, bottom): "se", (left, bottom): "sw"}
    cuts = []
    for p, q in figure.edges():
        dx, dy = q[0] - p[0], q[1] - p[1]
        if dx == 0 or dy == 0:
            if (p[0] if dx == 0 else p[1]) not in ((left, right) if dx == 0 else (top, bottom)):
                return []
            continue
        # going clockwise, north-west and south-east corners are cut off from an upright side to a level one
        tip = (p[0], q[1]) if (dx > 0) != (dy > 0) else (q[0], p[1])
        if abs(dx) != abs(dy) or tip not in names:
            return []
        cuts.append((names[tip], p, tip, q))
    return cuts


def box_of(figure: Figure) -> tuple[int, int, int, int]:
    """Left, top, right and bottom."""
    xs, ys = zip(*figure.corners, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
