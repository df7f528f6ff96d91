"""Diamonds in rectangles: a triangle on each slanting side, first two opposite ones, then the other two."""

from __future__ import annotations

from service.craft.language import phrase
from service.craft.measure import format_length
from service.craft.tracks import slug
from service.craft.units import Diamond
from workers.sewing.names import label, listed, size_label
from workers.sewing.small_units import MIRRORED_PLACE, ClothNames
from workers.sewing.works import Made, SeamLine, Work, as_complex, polygon

CORNERS = 4


def make_diamond(unit: Diamond, mirrored: bool, names: ClothNames) -> Made:
    """A diamond with its corners; those that differ by a turn alone are one work."""
    middle, *triangles = unit.own_patches()
    corners = [patch.fabric for patch in triangles]
    if mirrored:
        corners = [corners[place] for place in MIRRORED_PLACE]
    turns = range(CORNERS) if unit.width == unit.height else (0, 2)
    chosen, turn = min(([corners[(i + turn) % CORNERS] for i in range(CORNERS)], turn) for turn in turns)
    cloths = list(dict.fromkeys(map(names.cloth, chosen)))
    words = phrase("{base} with {corner} corners", base=names.cloth(middle.fabric), corner=listed(cloths))
    width, height = (format_length(side, names.measure) for side in (unit.width, unit.height))
    size = phrase("{width} by {height}", width=width, height=height)
    work = Work(
        id=".".join(
            [slug(unit.kind), label(middle.fabric), *map(label, chosen), size_label(unit.width, unit.height)]
        ),
        kind=unit.kind,
        title=phrase("Diamonds, {size} finished: {cloths}", size=size, cloths=words),
        one=phrase("diamond of {cloths}", cloths=words),
        many=phrase("diamonds of {cloths}", cloths=words),
        width=unit.width,
        height=unit.height,
        items=(
            polygon(middle.fabric, as_complex(middle)),
            *(polygon(fabric, as_complex(patch)) for fabric, patch in zip(chosen, triangles, strict=True)),
        ),
        seams=_list_seams(unit, chosen, names),
        pointer=unit.pointer,
        block=unit.block,
        called=unit.block or phrase("the diamond"),
        facts={
            "diamond": names.cloth(middle.fabric),
            "corners": cloths[0] if len(cloths) == 1 else "",
            "templates": "yes" if unit.templates() else "",
        },
    )
    return work, turn


def _list_seams(unit: Diamond, corners: list[str], names: ClothNames) -> tuple[SeamLine, ...]:
    """Clockwise from the one at the upper left, the corner at the left hand of each."""
    width, height = float(unit.width), float(unit.height)
    points = [
        complex(0, height / 2),
        complex(width / 2, 0),
        complex(width, height / 2),
        complex(width / 2, height),
    ]
    inside = names.beside(unit.straight[0].fabric, "base")
    return tuple(
        SeamLine(points[i], points[(i + 1) % CORNERS], names.beside(fabric, "corner"), inside)
        for i, fabric in enumerate(corners)
    )
