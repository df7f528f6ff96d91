"""Fields of hexagons: every patch by itself, every edge a seam, all seams set in at the points where three meet."""

from __future__ import annotations

from service.craft.language import phrase
from service.craft.measure import format_length
from service.craft.units import Hexagons
from workers.sewing.names import composite_id, listed
from workers.sewing.polygon_groups import Group, SharedEdge, find_shared_edges
from workers.sewing.polygons import MOST_CLOTHS_NAMED
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Made, SeamLine, Work


def make_hexagons(unit: Hexagons, mirrored: bool, names: ClothNames) -> Made:
    """A field of hexagons as one work."""
    straight = unit.straight
    group = Group.of(unit)
    group = group.mirrored() if mirrored else group
    about = (unit.side, unit.row_lengths, group.fabrics, tuple(figure.corners for figure in group.figures))
    edge, count = names.cloth(straight[-1].fabric), sum(unit.row_lengths)
    cloths = list(dict.fromkeys(names.cloth(p.fabric) for p in straight if len(p.figure.corners) == 6))
    words = (
        listed(cloths) if len(cloths) <= MOST_CLOTHS_NAMED else phrase("{count} cloths", count=len(cloths))
    )
    side = format_length(unit.side, names.measure)
    work = Work(
        id=composite_id(unit.kind, unit.pointer, unit.block, about, mirrored=mirrored),
        kind=unit.kind,
        title=phrase(
            "A field of hexagons of {side} side: {cloths}, edged with {edge}",
            side=side,
            cloths=words,
            edge=edge,
        ),
        one=phrase("field of {count} hexagons", count=count),
        many=phrase("fields of {count} hexagons", count=count),
        width=unit.width,
        height=unit.height,
        items=tuple(map(group.lay_patch, range(len(group.figures)))),
        seams=tuple(
            _seam(number, edge, group, names) for number, edge in enumerate(find_shared_edges(group.figures))
        ),
        pointer=unit.pointer,
        block=unit.block,
        called=unit.block or phrase("the field of hexagons"),
        facts={
            "rows": str(len(unit.row_lengths)),
            "hexagons": str(count),
            "edge": edge,
        },
    )
    return work, 0


def _seam(number: int, edge: SharedEdge, group: Group, names: ClothNames) -> SeamLine:
    """A seam from one kind of point to the other, so that pressed to one hand all of them whirl round every point.

    At half of the points an upright seam goes down, at the other half it goes up, and every seam joins one of each.
    Upright seams begin at their upper end and slanting ones at their lower end: those are points of the first kind.
    """
    start, end = group.place(edge.start), group.place(edge.end)
    left, right = (names.beside(group.fabrics[i]) for i in (edge.left, edge.right))
    upright = edge.start[0] == edge.end[0]
    if (start.imag > end.imag) == upright:
        start, end, left, right = end, start, right, left
    return SeamLine(start, end, left, right, same_as=0 if number else None)
