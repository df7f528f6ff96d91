"""Reads an uploaded SVG drawing into outlines.

Of a drawing nothing passes but geometry: it is parsed without trust, drawn into our own model under
budgets, and every file shown or handed on later is written anew from that model.
"""

from __future__ import annotations

import hashlib

from service.craft.outlines.drawing_walk import DrawingWalk, Drawn
from service.craft.outlines.faults import OutlineUnreadable
from service.craft.outlines.limits import SMALLEST_SIDE_MM, Limits
from service.craft.outlines.model import Outline, OutlineFile
from service.craft.outlines.naming import name_apart, reading_order
from service.craft.outlines.regions import Regions, check_fineness, count_ring_points, find_regions
from service.craft.outlines.xml_tree import parse_tree

NOTES_IN_A_REFUSAL = 3

DEFAULT_LIMITS = Limits()


def read_svg(data: bytes, name: str, *, limits: Limits = DEFAULT_LIMITS) -> OutlineFile:
    """The outlines of an SVG drawing, in mm; `OutlineUnreadable` says what is wrong and where.

    Read are paths and the basic shapes, also through groups, views and uses. Anything left out or
    changed stands in the notes.
    """
    walk = DrawingWalk(parse_tree(data, limits), limits)
    drawn = walk.drawn()
    found: list[Outline] = []
    points = 0
    for shape in drawn:
        outlines = _outlines(shape, walk.notes, limits)
        points += sum(count_ring_points(ring) for outline in outlines for ring in outline.rings)
        check_fineness(points, limits)
        found += outlines
    if not found:
        raise _nothing_left(walk.notes)
    notes = tuple(dict.fromkeys(walk.notes))
    return OutlineFile(name, hashlib.sha256(data).hexdigest(), tuple(name_apart(found)), notes)


def _outlines(shape: Drawn, notes: list[str], limits: Limits) -> list[Outline]:
    regions = _regions(shape, limits)
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
        return find_regions(shape.contours, by_parity=shape.styling.holes_by_parity, limits=limits)
    except OutlineUnreadable as error:
        raise OutlineUnreadable(error.detail, where=shape.where, right=error.right) from None


def _nothing_left(notes: list[str]) -> OutlineUnreadable:
    listed = "; ".join(list(dict.fromkeys(notes))[:NOTES_IN_A_REFUSAL])
    detail = "the drawing holds no closed shape" + (f" ({listed})" if listed else "")
    return OutlineUnreadable(detail, right="at least one closed path, rectangle, circle, ellipse or polygon")
