"""Strip sets: one piece cut across the seams of strips sewn side by side."""

from __future__ import annotations

from service.craft.language import phrase
from service.craft.measure import Exact, exact, format_length
from service.craft.tracks import slug
from service.craft.units import SetStrip, StripSet
from workers.sewing.names import digest, label, listed, size_label
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Laid, Made, SeamLine, Work, lay, rectangle


def make_strip_set(unit: StripSet, mirrored: bool, names: ClothNames) -> Made:
    """A piece of a strip set; turned about, or mirrored, it is a piece of the same set."""
    strips = unit.strips[::-1] if mirrored else unit.strips
    ways = [(strips, 0), (strips[::-1], 2)]
    chosen, turn = min(ways, key=lambda way: ([(names.place(s.fabric), s.width) for s in way[0]], way[1]))
    words = listed(dict.fromkeys(names.cloth(strip.fabric) for strip in chosen))
    size = format_length(unit.cut_into, names.measure)
    items, seams = _lay_strips(unit, chosen, names)
    work = Work(
        id=".".join(
            [
                slug(unit.kind),
                *map(label, dict.fromkeys(strip.fabric for strip in chosen)),
                size_label(unit.width, unit.height),
                digest((chosen, unit.length)),
            ]
        ),
        kind=unit.kind,
        title=phrase("Strip sets of {cloths}, cut into pieces of {size} finished", cloths=words, size=size),
        one=phrase("piece of a strip set of {cloths}", cloths=words),
        many=phrase("pieces of strip sets of {cloths}", cloths=words),
        width=unit.width,
        height=unit.height,
        items=items,
        seams=seams,
        pointer=unit.pointer,
        block=unit.block,
        called=phrase("the piece of the strip set"),
        facts={"strips": str(len(chosen)), "length": str(unit.length)},
    )
    return work, turn


def _lay_strips(
    unit: StripSet, strips: tuple[SetStrip, ...], names: ClothNames
) -> tuple[tuple[Laid, ...], tuple[SeamLine, ...]]:
    items, seams, x = [], [], Exact(0)
    height = float(unit.cut_into)
    for before, strip in zip((None, *strips), strips, strict=False):
        left = complex(float(x), 0)
        if before is not None:
            beside = names.beside(strip.fabric), names.beside(before.fabric)
            seams.append(SeamLine(left, left + 1j * height, *beside))
        items.append(lay((rectangle(strip.fabric, exact(strip.width), unit.height), 0), left))
        x = x + strip.width
    return tuple(items), tuple(seams)
