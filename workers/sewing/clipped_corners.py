"""A rectangle whose corners are cut off, given by its patches: sewn as a base with corner squares.

Where all corners are alike it is the very unit of that kind; else each corner says which cloth it is, and how large.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from service.craft.language import phrase
from service.craft.measure import format_length
from service.craft.units import CornerSquares
from workers.sewing.names import digest, label, listed, size_label
from workers.sewing.polygon_groups import Group
from workers.sewing.small_units import IN_WORDS, ClothNames, make_corner_squares
from workers.sewing.works import Made, SeamLine, Work

Corner = tuple[str, str, Fraction]
"""Which corner, its cloth, its finished leg in inches."""


def make_clipped(group: Group, pointer: str, block: str, names: ClothNames, *, whole: bool) -> Made:
    """The work of a group that is one clipped rectangle, and how it lies; `whole` where it is a block's all."""
    (clipped,) = group.clipped
    fabric = group.fabrics[clipped.base]
    corners = [
        (name, group.fabrics[triangle], Fraction(leg, group.per_inch))
        for name, triangle, leg in clipped.corners
    ]
    width, height = group.size
    _, corner_fabric, leg = corners[0]
    if any(corner[1:] != (corner_fabric, leg) for corner in corners):
        return replace(_make_uneven(group, corners, pointer, names), block=block, whole=whole), 0
    unit = CornerSquares(
        pointer=pointer,
        block=block,
        size=(width.a, height.a),
        fabric=fabric,
        leg=leg,
        corner_fabric=corner_fabric,
        corners=tuple(name for name, _, _ in corners),
    )
    work, turn = make_corner_squares(unit, False, names)
    if isinstance(work, Work):
        work = replace(work, whole=whole, facts=work.facts | {"chosen": "yes"})
    return work, turn


def _make_uneven(group: Group, corners: list[Corner], pointer: str, names: ClothNames) -> Work:
    """Corners of several cloths or sizes."""
    (clipped,) = group.clipped
    fabric = group.fabrics[clipped.base]
    base, width, height = names.cloth(fabric), *group.size
    around = listed(dict.fromkeys(names.cloth(cloth) for _, cloth, _ in corners))
    cloths = phrase("{base} with {corner} corners", base=base, corner=around)
    named = digest((fabric, corners))
    return Work(
        id=f"corner-squares.{label(fabric)}.{size_label(width, height)}.{named}",
        kind=CornerSquares.kind,
        title=phrase("Corner-square units: {cloths}", cloths=cloths),
        one=phrase("corner-square unit of {cloths}", cloths=cloths),
        many=phrase("corner-square units of {cloths}", cloths=cloths),
        width=width,
        height=height,
        items=tuple(map(group.lay_patch, clipped.members)),
        seams=tuple(_seam(group, triangle, clipped.base, names) for _, triangle, _ in clipped.corners),
        pointer=pointer,
        called=phrase("the corner-square unit"),
        facts={
            "chosen": "yes",
            "base": base,
            "corner": around,
            "corners": str(len(corners)),
            "square": phrase("corner"),
            "places": _say_places(corners, names),
            "spare leg": "",
        },
    )


def _seam(group: Group, triangle: int, base: int, names: ClothNames) -> SeamLine:
    """The seam along the long side of a corner triangle, the triangle at its left hand."""
    inside = set(group.figures[base].corners)
    corners = group.figures[triangle].corners
    tip = next(i for i, corner in enumerate(corners) if corner not in inside)
    before, after = group.place(corners[tip - 1]), group.place(corners[(tip + 1) % 3])
    beside = names.beside(group.fabrics[triangle], "corner")
    return SeamLine(before, after, beside, names.beside(group.fabrics[base], "base"))


def _say_places(corners: list[Corner], names: ClothNames) -> str:
    """Which square belongs where: by its cloth, and by its finished size where the sizes differ."""
    sizes = {leg for _, _, leg in corners}
    places: dict[tuple[str, Fraction], list[str]] = {}
    for name, cloth, leg in corners:
        places.setdefault((cloth, leg), []).append(phrase(IN_WORDS[name]))
    said = []
    for (cloth, leg), where in places.items():
        square = names.cloth(cloth)
        if len(sizes) > 1:
            size = format_length(leg, names.measure)
            square = phrase("{cloth} for a corner of {size} finished", cloth=square, size=size)
        said.append(phrase("{square} {corners}", square=square, corners=listed(where)))
    return ", ".join(said)
