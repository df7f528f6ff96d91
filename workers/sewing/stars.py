"""Eight-pointed stars: diamonds sewn into a star, and the patches of the background set into its hollows."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from service.craft.language import phrase
from service.craft.measure import format_length
from service.craft.tracks import slug
from service.craft.units import EightPointedStar, Patch
from service.craft.units.eight_pointed_star import POINTS
from workers.sewing.names import label, listed, size_label
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Made, SeamLine, Work, as_complex, lay_patch


def make_star(unit: EightPointedStar, mirrored: bool, names: ClothNames) -> Made:
    """A star; in a mirror its two cloths change places, and quarter turns change nothing."""
    plain = replace(unit, diamonds=unit.diamonds[::-1]) if mirrored else unit
    cloths = list(dict.fromkeys(plain.diamonds))
    words = phrase(
        "{cloths} on {background}",
        cloths=listed(map(names.cloth, cloths)),
        background=names.cloth(unit.background),
    )
    patches, size = plain.own_patches(), format_length(unit.side, names.measure)
    work = Work(
        id=".".join(
            [slug(unit.kind), *map(label, plain.diamonds), label(unit.background), size_label(unit.side)]
        ),
        kind=unit.kind,
        title=phrase("Eight-pointed stars, {size} finished: {cloths}", size=size, cloths=words),
        one=phrase("eight-pointed star of {cloths}", cloths=words),
        many=phrase("eight-pointed stars of {cloths}", cloths=words),
        width=unit.width,
        height=unit.height,
        items=tuple(map(lay_patch, patches)),
        seams=(*_between_diamonds(patches[:POINTS], names), *_set_in(patches, names)),
        pointer=unit.pointer,
        block=unit.block,
        called=unit.block or phrase("the eight-pointed star"),
        facts={
            "first": names.cloth(plain.diamonds[0]),
            "second": names.cloth(plain.diamonds[1]),
            "cloths": str(len(cloths)),
            "background": names.cloth(unit.background),
        },
    )
    return work, 0


def _between_diamonds(diamonds: Sequence[Patch], names: ClothNames) -> Iterator[SeamLine]:
    """From the middle to each hollow; all fall the same way round, so that they spread in a ring at the middle."""
    for number, diamond in enumerate(diamonds):
        middle, hollow, *_ = as_complex(diamond)
        before = names.beside(diamonds[number - 1].fabric)
        same_as = None if number == 0 else 0
        yield SeamLine(middle, hollow, left=before, right=names.beside(diamond.fabric), same_as=same_as)


def _set_in(patches: Sequence[Patch], names: ClothNames) -> Iterator[SeamLine]:
    """Both seams of each patch of the background: from a tip of the star to the hollow, and on to the next tip."""
    by_tip = {diamond.points[2]: diamond.fabric for diamond in patches[:POINTS]}
    for patch in patches[POINTS:]:
        background = names.beside(patch.fabric, "corner")
        first, hollow, second = (as_complex(patch)[i] for i in (-2, -1, 0))
        for start, end, tip in ((first, hollow, patch.points[-2]), (hollow, second, patch.points[0])):
            yield SeamLine(start, end, left=names.beside(by_tip[tip], "base"), right=background)
