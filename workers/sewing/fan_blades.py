"""Rings of blades: blades sewn side by side, the ring laid on its background, the disc laid over its hole."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from service.craft.language import phrase
from service.craft.measure import format_length
from service.craft.tracks import slug
from service.craft.units import FanBladeRing, Patch
from workers.sewing.names import digest, label, listed, size_label
from workers.sewing.polygons import MOST_CLOTHS_NAMED
from workers.sewing.small_units import ClothNames
from workers.sewing.works import Made, SeamLine, Work, as_complex, lay_patch


def make_fan_blades(unit: FanBladeRing, mirrored: bool, names: ClothNames) -> Made:
    """A ring; in a mirror its blades come in the opposite order."""
    plain = replace(unit, blades=unit.blades[::-1]) if mirrored else unit
    patches = plain.own_patches()
    about = (plain.fabric, plain.disc_fabric, plain.sizes, [blade.fabric for blade in plain.blades])
    count, background = len(plain.blades), names.cloth(plain.fabric)
    across = format_length(2 * plain.sizes.reach, names.measure)
    words = phrase("{cloths} on {background}", cloths=_name_cloths(plain, names), background=background)
    work = Work(
        id=".".join([slug(unit.kind), label(plain.fabric), size_label(*plain.size), digest(about)]),
        kind=unit.kind,
        title=phrase(
            "Rings of {count} blades, {size} across: {cloths}", count=count, size=across, cloths=words
        ),
        one=phrase("ring of {count} blades on {background}", count=count, background=background),
        many=phrase("rings of {count} blades on {background}", count=count, background=background),
        width=unit.width,
        height=unit.height,
        items=tuple(map(lay_patch, patches)),
        seams=tuple(_list_seams(plain, patches, names)),
        pointer=unit.pointer,
        block=unit.block,
        called=unit.block or phrase("the ring of blades"),
        laid_on=True,
        facts=_list_facts(plain, names),
    )
    return work, 0


def _name_cloths(unit: FanBladeRing, names: ClothNames) -> str:
    cloths = list(dict.fromkeys(names.cloth(blade.fabric) for blade in unit.blades))
    return listed(cloths) if len(cloths) <= MOST_CLOTHS_NAMED else phrase("{count} cloths", count=len(cloths))


def _list_facts(unit: FanBladeRing, names: ClothNames) -> dict[str, str]:
    """What the steps speak of; lengths and angles as exact fractions."""
    sizes = unit.sizes
    return {
        "blades": str(len(unit.blades)),
        "cloths": _name_cloths(unit, names),
        "in turn": "yes" if _come_in_turn(unit) else "",
        "background": names.cloth(unit.fabric),
        "centre": names.cloth(unit.disc_fabric),
        "tips": sizes.tips,
        "angles": " ".join(map(str, sizes.angles)),
        "letters": " ".join(
            sorted({blade.template.letter for blade in unit.blades}, key=lambda x: (len(x), x))
        ),
        "centre letter": unit.disc.letter,
        "reach": str(sizes.reach),
        "hole": str(sizes.hole),
        "core": str(sizes.core),
        "size": " ".join(map(str, unit.size)),
    }


def _come_in_turn(unit: FanBladeRing) -> bool:
    """Whether several cloths follow each other in the same order all round."""
    cloths = [blade.fabric for blade in unit.blades]
    count = len(set(cloths))
    return count > 1 and all(cloth == cloths[i % count] for i, cloth in enumerate(cloths))


def _list_seams(unit: FanBladeRing, patches: Sequence[Patch], names: ClothNames) -> Iterator[SeamLine]:
    """From the disc out to where the shorter neighbour ends; all fall the same way round."""
    middle = complex(float(unit.width), float(unit.height)) / 2
    blades, shoulders = patches[1:-1], unit.shoulders
    for number, (patch, shoulder) in enumerate(zip(blades, shoulders, strict=True)):
        *_, start = as_complex(patch)
        outwards = (start - middle) / abs(start - middle)
        yield SeamLine(
            start,
            middle + float(min(shoulder, shoulders[number - 1])) * outwards,
            left=names.beside(blades[number - 1].fabric),
            right=names.beside(patch.fabric),
            same_as=None if number == 0 else 0,
        )
