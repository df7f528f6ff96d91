"""Which side a seam would rather be pressed to, and how that side is called.

Towards border, sashing and setting triangles; towards the flipped corner; towards the plain unit; away from the side
where more seams end; towards the darker cloth (sources: joomag quilting magazine 5 p. 18; the rest common practice).
"""

from __future__ import annotations

from collections.abc import Mapping

from service.craft.fabric import Fabric
from service.craft.language import mark, phrase
from workers.sewing.works import SeamLine

PULL = {
    "border": 6.0,
    "sashing": 5.0,
    "setting triangle": 4.0,
    "corner": 4.0,
    "cloth": 3.0,
    "row": 1.0,
    "cornerstone": 1.0,
    "pieced": 0.0,
    "middle": 0.0,
    "base": 0.0,
    "inside": 0.0,
}
"""How strongly each side draws the allowance to itself."""

DARKER, LESS_BULK = 1.0, 1.0

SHADOW = 0.25
"""By how much darker (of 0 to 1) an allowance shows through the cloth that it is pressed under: our own figure."""

# sRGB luminance, IEC 61966-2-1 with the weights of ITU-R BT.709
WEIGHTS = (0.2126, 0.7152, 0.0722)


UNITS = {
    "left": mark("the unit on the left"),
    "right": mark("the unit on the right"),
    "up": mark("the upper unit"),
    "down": mark("the lower unit"),
}
"""How one of two sewn units is called."""


def weigh_darkness(fabric: Fabric | None) -> float:
    """0 for white, 1 for black: one less the relative luminance of a cloth's colour."""
    if fabric is None:
        return 0.0
    channels = [int(fabric.colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 1 - sum(weight * c for weight, c in zip(WEIGHTS, linear, strict=True))


def weigh_sides(seam: SeamLine, bulk: tuple[int, int], fabrics: Mapping[str, Fabric]) -> tuple[float, float]:
    """The cost of pressing to the left hand and to the right hand."""
    left, right = PULL[seam.left.role], PULL[seam.right.role]
    if left != right:
        return max(right - left, 0.0), max(left - right, 0.0)
    if bulk[0] != bulk[1]:
        return (LESS_BULK, 0.0) if bulk[0] > bulk[1] else (0.0, LESS_BULK)
    dark = [weigh_darkness(fabrics.get(side.fabric)) for side in (seam.left, seam.right)]
    if not (seam.left.fabric and seam.right.fabric) or abs(dark[0] - dark[1]) < 1e-9:
        return 0.0, 0.0
    return (DARKER, 0.0) if dark[0] < dark[1] else (0.0, DARKER)


def shows_through(seam: SeamLine, side: int, fabrics: Mapping[str, Fabric]) -> bool:
    """Whether a seam pressed to a side puts dark cloth under light cloth; rare in good cloth
    (rebeccagracequilting.com 2017/07)."""
    here, there = (seam.right, seam.left) if side else (seam.left, seam.right)
    if seam.fixed or here.fabric not in fabrics or there.fabric not in fabrics:
        return False
    return weigh_darkness(fabrics[there.fabric]) - weigh_darkness(fabrics[here.fabric]) > SHADOW


def name_press(seam: SeamLine, side: int) -> str:
    """The way of pressing in a word: left, right, up or down in the work's picture, or what is fixed.

    A slanting seam is pressed up or down.
    """
    if seam.fixed:
        return seam.fixed
    way = seam.to_right if side else -seam.to_right
    if abs(way.real) > abs(way.imag) + 1e-6:
        return "right" if way.real > 0 else "left"
    return "down" if way.imag > 0 else "up"


def name_towards(seam: SeamLine, side: int) -> str:
    """What the allowance falls towards, in words."""
    if seam.fixed:
        return phrase("both sides")
    here, there = (seam.right, seam.left) if side else (seam.left, seam.right)
    if here.role == "cloth" and there.role == "pieced":
        return phrase("the plain unit")
    if here.role == "pieced":
        return phrase("the sewn unit") if there.role != "pieced" else phrase(UNITS[name_press(seam, side)])
    return here.words
