"""The smallest sewn things: half-square triangles, corner-square units, squares in squares.

Units that differ by a turn alone are one work, laid another way round.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from service.craft.fabric import Fabric
from service.craft.language import mark, phrase
from service.craft.measure import format_length
from service.craft.tracks import slug
from service.craft.units import CornerSquares, HalfSquareTriangle, Patch, SquareInASquare
from service.craft.units.corner_squares import CORNERS
from service.craft.units.half_square_triangle import EXACT
from workers.sewing.names import composite_id, label, listed, size_label
from workers.sewing.works import Beside, Laid, Made, Piece, SeamLine, Work, as_complex, lay_patch

CLOTH = "cloth"
MIRRORED_PLACE = (1, 0, 3, 2)
"""Where nw, ne, se, sw come to lie in a mirror."""

IN_WORDS = {
    "nw": mark("top left"),
    "ne": mark("top right"),
    "se": mark("bottom right"),
    "sw": mark("bottom left"),
}


class ClothNames:
    """What cloths are called, and lengths as the document writes them."""

    def __init__(self, fabrics: Mapping[str, Fabric], measure: str) -> None:
        self._names = {key: fabric.name for key, fabric in fabrics.items()}
        self._order = {key: i for i, key in enumerate(fabrics)}
        self.measure = measure

    def cloth(self, fabric: str) -> str:
        """A cloth's name."""
        return self._names.get(fabric, fabric)

    def place(self, fabric: str) -> int:
        """The cloth's place in the document."""
        return self._order.get(fabric, len(self._order))

    def beside(self, fabric: str, role: str = CLOTH, words: str = "") -> Beside:
        """A cloth as the side of a seam."""
        return Beside(role, fabric, words or self.cloth(fabric))


def make_half_square(unit: HalfSquareTriangle, mirrored: bool, names: ClothNames) -> Made:
    """A half-square triangle; the cloth named first in the document lies top left in the work's picture."""
    first, second = sorted(unit.fabrics, key=names.place)
    turn = 0 if unit.fabrics[0] == first else 2
    if mirrored:
        turn = MIRRORED_PLACE[turn]
    plain = replace(unit, fabrics=(first, second), pointer=unit.pointer)
    side = float(unit.side)
    seam = SeamLine(side * 1j, complex(side, 0), names.beside(first), names.beside(second))
    pair = listed(map(names.cloth, (first, second)))
    size = format_length(unit.side, names.measure)
    work = Work(
        id=".".join(
            [
                *(slug(unit.kind), label(first), label(second), size_label(unit.side), slug(unit.method)),
                *([] if unit.trim == EXACT else [unit.trim]),
            ]
        ),
        kind=unit.kind,
        title=phrase("Half-square triangles, {size} finished: {cloths}", size=size, cloths=pair),
        one=phrase("half-square triangle of {cloths}", cloths=pair),
        many=phrase("half-square triangles of {cloths}", cloths=pair),
        width=unit.width,
        height=unit.height,
        items=tuple(lay_patch(patch) for patch in plain.own_patches()),
        seams=(seam,),
        pointer=unit.pointer,
        block=unit.block,
        called=phrase("the half-square triangle"),
        facts={
            "first": names.cloth(first),
            "second": names.cloth(second),
            "method": unit.method,
            "trim": unit.trim,
        },
    )
    return work, turn


def make_corner_squares(unit: CornerSquares, mirrored: bool, names: ClothNames) -> Made:
    """A base with flipped corners; corner squares that differ by a turn alone are one work."""
    places = frozenset(CORNERS.index(corner) for corner in unit.corners)
    if mirrored:
        places = frozenset(MIRRORED_PLACE[place] for place in places)
    turns = (0, 1, 2, 3) if unit.size[0] == unit.size[1] else (0, 2)
    ways = [(sorted((place - turn) % 4 for place in places), turn) for turn in turns]
    chosen, turn = min(ways)
    plain = replace(unit, corners=tuple(CORNERS[place] for place in chosen))
    patches = plain.own_patches()
    base = names.beside(unit.fabric, "base")
    cloths = phrase(
        "{base} with {corner} corners",
        base=names.cloth(unit.fabric),
        corner=names.cloth(unit.corner_fabric),
    )
    return (
        Work(
            id=".".join(
                [
                    slug(unit.kind),
                    label(unit.fabric),
                    label(unit.corner_fabric),
                    size_label(*unit.size),
                    size_label(unit.leg),
                    "-".join(plain.corners),
                    *(["spare"] if unit.spare_triangles else []),
                ]
            ),
            kind=unit.kind,
            title=phrase("Corner-square units: {cloths}", cloths=cloths),
            one=phrase("corner-square unit of {cloths}", cloths=cloths),
            many=phrase("corner-square units of {cloths}", cloths=cloths),
            width=unit.width,
            height=unit.height,
            items=tuple(lay_patch(patch) for patch in patches),
            seams=tuple(_corner_seam(patch, base, names) for patch in patches[1:]),
            pointer=unit.pointer,
            block=unit.block,
            called=phrase("the corner-square unit"),
            facts=_corner_facts(plain, names),
        ),
        turn,
    )


def _corner_facts(unit: CornerSquares, names: ClothNames) -> dict[str, str]:
    return {
        "base": names.cloth(unit.fabric),
        "corner": names.cloth(unit.corner_fabric),
        "corners": str(len(unit.corners)),
        "places": ", ".join(phrase(IN_WORDS[corner]) for corner in unit.corners),
        "spare leg": str(unit.leg) if unit.spare_triangles else "",
    }


def _corner_seam(triangle: Patch, inside: Beside, names: ClothNames) -> SeamLine:
    """The seam along the long side of a corner triangle: its corners go round clockwise, the tip in the middle."""
    before, _, after = as_complex(triangle)
    return SeamLine(before, after, names.beside(triangle.fabric, "corner"), inside)


def make_square_in_square(
    unit: SquareInASquare, inside: Made | None, mirrored: bool, names: ClothNames
) -> Made:
    """A square on its corner with four triangles; a sewn middle stands with its top left corner at the top.

    In a mirror the middle would stand with its top right corner at the top: the whole is laid a quarter turn back.
    """
    patches = unit.own_patches()
    triangles = patches if unit.inside is not None else patches[1:]
    items = [lay_patch(patch) for patch in patches]
    middle, turn = names.beside(unit.inside_fabric, "base"), 0
    if inside is not None:
        middle = Beside("middle", words=_called(inside[0]))
        turn = inside[1] - (1 if mirrored else 0)
        items.insert(0, Laid(inside[0], 1, complex(float(unit.side) / 2, 0)))
    work = Work(
        id=_square_id(unit, inside, mirrored),
        kind=unit.kind,
        title=_square_title(unit, names),
        one=phrase("square in a square with {corner} corners", corner=names.cloth(unit.fabric)),
        many=phrase("squares in squares with {corner} corners", corner=names.cloth(unit.fabric)),
        width=unit.width,
        height=unit.height,
        items=tuple(items),
        seams=tuple(_corner_seam(triangle, middle, names) for triangle in triangles),
        pointer=unit.pointer,
        block=unit.block,
        called=unit.block or phrase("the square in a square"),
        facts={
            "method": unit.method,
            "corner": names.cloth(unit.fabric),
            "middle": middle.words,
            "pieced": "yes" if inside is not None else "",
            "first sides": _sides_under(inside[0]) if inside is not None else "",
        },
    )
    return work, turn % 4


def _sides_under(middle: Piece) -> str:
    """Of a bordered middle that stands on its corner, the two sides whose border ends under the other pair."""
    if not isinstance(middle, Work) or middle.facts.get("nth") != "second":
        return ""
    # the middle's upper side comes to lie at the upper right
    under_level = middle.facts["pair"] == "left and right"
    return phrase("upper right and lower left") if under_level else phrase("upper left and lower right")


def _called(piece: Piece) -> str:
    return piece.called if isinstance(piece, Work) else phrase("the middle")


def _square_id(unit: SquareInASquare, inside: Made | None, mirrored: bool) -> str:
    if inside is None:
        words = [slug(unit.kind), label(unit.inside_fabric), label(unit.fabric), size_label(unit.side)]
        return ".".join([*words, slug(unit.method)])
    about = (inside[0].id, unit.fabric, unit.method)
    return composite_id(unit.kind, unit.pointer, unit.block, about, mirrored=mirrored)


def _square_title(unit: SquareInASquare, names: ClothNames) -> str:
    sewn = phrase("the sewn middle") if unit.inside is not None else names.cloth(unit.inside_fabric)
    return phrase(
        "Square in a square: {middle} with {corner} corners",
        middle=unit.block or sewn,
        corner=names.cloth(unit.fabric),
    )
