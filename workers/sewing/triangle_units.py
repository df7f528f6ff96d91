"""Flying geese and quarter-square triangles: units of triangles that meet in a point."""

from __future__ import annotations

from dataclasses import replace

from service.craft.language import phrase
from service.craft.measure import format_length
from service.craft.tracks import slug
from service.craft.units import FlyingGeese, QuarterSquareTriangle
from workers.sewing.names import label, listed, size_label
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Beside, Made, SeamLine, Work, as_complex, lay_patch


def make_flying_geese(unit: FlyingGeese, _mirrored: bool, names: ClothNames) -> Made:
    """A goose with its sky; it is its own mirror image. Both seams run over the tip of the goose."""
    goose, left, right = unit.own_patches()
    tip, _, _ = as_complex(goose)
    sky, inside = names.beside(unit.sky, "corner"), names.beside(unit.goose, "base")
    west, east = as_complex(left)[0], as_complex(right)[2]
    cloths = phrase("{goose} with {sky} sky", goose=names.cloth(unit.goose), sky=names.cloth(unit.sky))
    width, height = (format_length(side, names.measure) for side in (unit.width, unit.height))
    size = phrase("{width} by {height}", width=width, height=height)
    work = Work(
        id=".".join(
            [slug(unit.kind), label(unit.goose), label(unit.sky), size_label(unit.across), slug(unit.method)]
        ),
        kind=unit.kind,
        title=phrase("Flying geese, {size} finished: {cloths}", size=size, cloths=cloths),
        one=phrase("flying-geese unit of {cloths}", cloths=cloths),
        many=phrase("flying-geese units of {cloths}", cloths=cloths),
        width=unit.width,
        height=unit.height,
        items=tuple(lay_patch(patch) for patch in (goose, left, right)),
        seams=(SeamLine(west, tip, left=sky, right=inside), SeamLine(tip, east, left=sky, right=inside)),
        pointer=unit.pointer,
        block=unit.block,
        called=phrase("the flying-geese unit"),
        facts={"goose": names.cloth(unit.goose), "sky": names.cloth(unit.sky), "method": unit.method},
    )
    return work, 0


def make_quarter_square(unit: QuarterSquareTriangle, mirrored: bool, names: ClothNames) -> Made:
    """Four triangles as two halves: north with east, south with west. The long seam joins the halves.

    Units that differ by a turn alone are one work: the cloth named first in the document lies north, if it can.
    """
    north, east, south, west = unit.fabrics
    a, b, c, d = (north, west, south, east) if mirrored else unit.fabrics
    ways = [((a, b, c, d), 0), ((b, c, d, a), 1), ((c, d, a, b), 2), ((d, a, b, c), 3)]
    chosen, turn = min(ways, key=lambda way: ([names.place(cloth) for cloth in way[0]], way[1]))
    plain = replace(unit, fabrics=chosen)
    used = list(dict.fromkeys(chosen))
    words = listed(names.cloth(fabric) for fabric in used)
    size = format_length(unit.side, names.measure)
    work = Work(
        id=".".join([slug(unit.kind), *map(label, chosen), size_label(unit.side), slug(unit.method)]),
        kind=unit.kind,
        title=phrase("Quarter-square triangles, {size} finished: {cloths}", size=size, cloths=words),
        one=phrase("quarter-square triangle of {cloths}", cloths=words),
        many=phrase("quarter-square triangles of {cloths}", cloths=words),
        width=unit.width,
        height=unit.height,
        items=tuple(lay_patch(patch) for patch in plain.own_patches()),
        seams=_quarter_seams(plain, names),
        pointer=unit.pointer,
        block=unit.block,
        called=phrase("the quarter-square triangle"),
        facts={
            "method": unit.method,
            "halves": "; ".join(listed(map(names.cloth, half)) for half in _halves(chosen)),
            "first": names.cloth(used[0]),
            "second": names.cloth(used[-1]),
        },
    )
    return work, turn


def _halves(cloths: tuple[str, ...]) -> list[tuple[str, str]]:
    """The two cloths of each half, each kind of half once."""
    return list(dict.fromkeys([(cloths[0], cloths[1]), (cloths[2], cloths[3])]))


def _quarter_seams(unit: QuarterSquareTriangle, names: ClothNames) -> tuple[SeamLine, ...]:
    """North to east, south to west, each from its corner to the middle; then the long one from corner to corner."""
    side = float(unit.side)
    middle = complex(side / 2, side / 2)
    north, east, south, west = (names.beside(fabric) for fabric in unit.fabrics)
    # equal halves are pressed alike; two at a time, they even are one seam when they are pressed
    same_as = 0 if len(_halves(unit.fabrics)) == 1 else None
    # going from the corner to the middle, the triangle further on round the square lies at the left hand
    return (
        SeamLine(complex(side, 0), middle, left=east, right=north),
        SeamLine(complex(0, side), middle, left=west, right=south, same_as=same_as),
        SeamLine(
            0j,
            complex(side, side),
            left=Beside("row", words=phrase("the upper half")),
            right=Beside("row", words=phrase("the lower half")),
        ),
    )
