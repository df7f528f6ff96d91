"""Reads an uploaded SVG drawing into outlines.

Of a drawing nothing passes but geometry: it is parsed without trust, drawn into our own model under
budgets, and every file shown or handed on later is written anew from that model.
"""

from __future__ import annotations

import hashlib
from dataclasses import replace

from service.craft.outlines.contours import Contour
from service.craft.outlines.cuttable import say_limits
from service.craft.outlines.detail_lines import keep_lines
from service.craft.outlines.drawing_walk import DrawingWalk, Drawn
from service.craft.outlines.faults import OutlineUnreadable
from service.craft.outlines.filled_lines import close_filled
from service.craft.outlines.joining import SAME_LINE_MM, find_doubles
from service.craft.outlines.limits import SMALLEST_SIDE_MM, Limits
from service.craft.outlines.model import Outline, OutlineFile, flatten
from service.craft.outlines.naming import name_apart, reading_order
from service.craft.outlines.regions import Regions, check_fineness, count_ring_points, find_regions
from service.craft.outlines.simplify import WITHIN_MM, reduce_nodes
from service.craft.outlines.xml_tree import parse_tree

NOTES_IN_A_REFUSAL = 3

DEFAULT_LIMITS = Limits()


def read_svg(data: bytes, name: str, *, limits: Limits = DEFAULT_LIMITS) -> OutlineFile:
    """The outlines of an SVG drawing, in mm; `OutlineUnreadable` says what is wrong and where.

    Read are paths and the basic shapes, also through groups, views and uses. Anything left out or
    changed stands in the notes.
    """
    walk = DrawingWalk(parse_tree(data, limits), limits)
    drawn = close_filled(walk.drawn(), walk.notes)
    found: list[Outline] = []
    left_open: list[tuple[Drawn, Contour]] = []
    points = 0
    for shape in drawn:
        outlines = _outlines(shape, walk.notes, limits, left_open)
        points += sum(count_ring_points(ring) for outline in outlines for ring in outline.rings)
        check_fineness(points, limits)
        found += outlines
    joined, still_open = _join_open(left_open, walk.notes, limits)
    shapes = name_apart(_tidy([*found, *joined], walk.notes))
    lines = keep_lines(still_open, shapes, walk.notes, limits)
    if not shapes:
        raise _nothing_left(walk.notes)
    notes = tuple(dict.fromkeys([*walk.notes, *say_limits(shapes)]))
    return OutlineFile(name, hashlib.sha256(data).hexdigest(), tuple(shapes), notes, lines)


def _join_open(
    left_open: list[tuple[Drawn, Contour]], notes: list[str], limits: Limits
) -> tuple[list[Outline], list[tuple[Drawn, Contour]]]:
    """The outlines that open lines of several elements make together, and the lines that stay open, as drawn."""
    if not left_open:
        return [], []
    where = {id(contour): shape for shape, contour in left_open}
    lines = [contour for _, contour in left_open]
    name = left_open[0][0].name if len({shape.where for shape, _ in left_open}) == 1 else ""
    together = Drawn(tuple(lines), replace(left_open[0][0].styling, filled=False), "open lines", name)
    still_open: list[tuple[Drawn, Contour]] = []
    outlines = _outlines(together, notes, limits, still_open) if len(left_open) > 1 else []
    rest = [contour for _, contour in still_open] if len(left_open) > 1 else lines
    return outlines, [(where[id(contour)], contour) for contour in rest]


def _same_holes(one: Outline, other: Outline) -> bool:
    """Whether two outlines with the same outer ring have the same holes, in whatever order they were drawn."""
    holes = [[flatten(ring) for ring in outline.rings[1:]] for outline in (one, other)]
    return len(holes[0]) == len(holes[1]) and len(find_doubles(holes[0] + holes[1])) == len(holes[0])


def _tidy(found: list[Outline], notes: list[str]) -> list[Outline]:
    """Shapes drawn twice in one place kept once, and nodes that nobody could tell apart left out."""
    doubles = find_doubles([flatten(outline.rings[0]) for outline in found])
    names = [outline.name for outline in found]
    gone: set[int] = set()
    for later, first in doubles.items():
        if not _same_holes(found[later], found[first]):
            continue
        gone.add(later)
        names[first] = names[first] or names[later]
        notes.append(
            f'the shape "{names[later] or "without a name"}" is drawn over "{names[first] or "one without a name"}",'
            f" nowhere more than {SAME_LINE_MM} mm off: it was taken once"
        )
    tidied = []
    for i, outline in enumerate(found):
        if i in gone:
            continue
        fewer, went = reduce_nodes(Outline(names[i], outline.rings))
        if went:
            notes.append(f"{went:,} nodes were left out: the edge moved by no more than {WITHIN_MM} mm")
        tidied.append(fewer)
    return tidied


def _outlines(
    shape: Drawn, notes: list[str], limits: Limits, left_open: list[tuple[Drawn, Contour]]
) -> list[Outline]:
    regions = _regions(shape, limits)
    left_open += [(shape, contour) for contour in regions.left_open]
    notes += [f"{shape.where}: {note}" for note in regions.notes]
    wide_enough = []
    for outline in reading_order(Outline(shape.name, rings) for rings in regions.rings):
        if min(outline.width_mm, outline.height_mm) < SMALLEST_SIDE_MM:
            size = f"{outline.width_mm:.2f} x {outline.height_mm:.2f} mm"
            notes.append(
                f"{shape.where}: left out; {size} is thinner than {SMALLEST_SIDE_MM} mm and cannot be cut"
            )
        else:
            wide_enough.append(outline)
    if not shape.name or len(wide_enough) < 2:
        return wide_enough
    notes.append(f'{shape.where}: {len(wide_enough)} separate regions became "{shape.name}-1" and so on')
    return [Outline(f"{shape.name}-{i}", outline.rings) for i, outline in enumerate(wide_enough, start=1)]


def _regions(shape: Drawn, limits: Limits) -> Regions:
    try:
        return find_regions(
            shape.contours,
            by_parity=shape.styling.holes_by_parity,
            limits=limits,
            as_lines=not shape.styling.filled,
        )
    except OutlineUnreadable as error:
        raise OutlineUnreadable(error.detail, where=shape.where, right=error.right) from None


def _nothing_left(notes: list[str]) -> OutlineUnreadable:
    listed = "; ".join(list(dict.fromkeys(notes))[:NOTES_IN_A_REFUSAL])
    detail = "the drawing holds no closed shape" + (f" ({listed})" if listed else "")
    return OutlineUnreadable(detail, right="at least one closed path, rectangle, circle, ellipse or polygon")
