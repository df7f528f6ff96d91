"""Open lines inside shapes: no outlines, but veins and creases that a piece can have sewn on it as details."""

from __future__ import annotations

from collections.abc import Sequence

import shapely

from service.craft.outlines.contours import Contour
from service.craft.outlines.drawing_walk import Drawn
from service.craft.outlines.limits import Limits
from service.craft.outlines.model import OpenLine, Outline, flatten_line
from service.craft.outlines.naming import clean_name
from service.craft.outlines.polygons import to_polygon
from service.craft.outlines.regions import check_fineness, say_open

SHORTEST_MM = 3.0
"""A line shorter than this holds hardly one stitch between its ties."""

BEYOND_MM = 0.5
"""A line may reach so far beyond its shape and still lie in it: drawn lines end on the outline."""

MOST_LINES = 400


class Rooms:
    """The shapes of a drawing, found by where they lie; a shape's room is worked out once a line may lie in it."""

    def __init__(self, shapes: Sequence[Outline]) -> None:
        self.shapes = shapes
        self._tree = shapely.STRtree([shapely.box(*shape.box_mm).buffer(BEYOND_MM) for shape in shapes])
        self._rooms: dict[int, shapely.Geometry] = {}

    def find(self, line: shapely.LineString) -> str:
        """The name of the smallest shape that the line lies in; empty where it is in none, or too short to sew."""
        if line.length < SHORTEST_MM:
            return ""
        near = sorted(int(n) for n in self._tree.query(line, predicate="covered_by"))
        around = [(shapely.area(self._room(n)), n) for n in near if shapely.covers(self._room(n), line)]
        return self.shapes[min(around)[1]].name if around else ""

    def _room(self, n: int) -> shapely.Geometry:
        if n not in self._rooms:
            self._rooms[n] = shapely.buffer(shapely.make_valid(to_polygon(self.shapes[n])), BEYOND_MM)
        return self._rooms[n]


def keep_lines(
    left_open: Sequence[tuple[Drawn, Contour]], shapes: Sequence[Outline], notes: list[str], limits: Limits
) -> tuple[OpenLine, ...]:
    """The open lines that lie in a shape, each with a name of its own in the file.

    The rest are left out with a note, and so is what comes after the first `MOST_LINES`.
    """
    rooms, taken = Rooms(shapes), {shape.name for shape in shapes}
    kept: list[OpenLine] = []
    points = 0
    for n, (drawn, contour) in enumerate(left_open):
        path = flatten_line(OpenLine("", "", contour.start, contour.segments))
        points += len(path)
        check_fineness(points, limits)
        shape = rooms.find(shapely.LineString(path)) if len(path) > 1 and n < MOST_LINES else ""
        if not shape:
            notes.append(f"{drawn.where}: {say_open(contour)}")
            continue
        name = name_line(drawn.name, shape, taken)
        taken.add(name)
        kept.append(OpenLine(name, shape, contour.start, contour.segments))
        notes.append(
            f'{drawn.where}: an open line in the shape "{shape}" is kept as "{name}"; it is sewn where a piece asks '
            "for it in its details"
        )
    return tuple(kept)


def name_line(drawn: str, shape: str, taken: set[str]) -> str:
    """A name that nothing else in the file has: its own from the drawing, else the shape's with `line`.

    >>> name_line("", "leaf", {"leaf"}), name_line("vein", "leaf", {"vein"})
    ('leaf-line-1', 'vein-2')
    """
    own = clean_name(drawn)
    if own and own not in taken:
        return own
    stem, n = (own, 2) if own else (f"{shape}-line", 1)
    while f"{stem}-{n}" in taken:
        n += 1
    return f"{stem}-{n}"
