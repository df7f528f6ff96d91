"""The rectangle of cloth that an applique piece takes: the box round its outline, and room on every side."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction

from service.craft.fabric import Fabric
from service.craft.measure import MM_PER_INCH, round_up
from service.craft.tracks import Track

TRIM_ROOM = Fraction(1)
"""Inches on every side of a piece whose cloth is trimmed where it lies: common practice, no source."""

FUSED_ROOM = Fraction(1, 2)
"""Inches on every side of a piece that is cut to its line before it is laid on: common practice, no source."""

ROUGH_STEPS = {"in": Fraction(1, 2), "mm": 10 / MM_PER_INCH, "cm": 10 / MM_PER_INCH}
"""To what rough rectangles are rounded up, by measure: nobody cuts them to the eighth."""

HUNDREDTH_MM = Fraction(1, 100)

Sides = tuple[Fraction, Fraction]
"""Inches across the roll and along it."""


def find_room(fabric: Fabric, tracks: Iterable[Track]) -> Fraction:
    """Inches to spare on every side: more where any track trims the cloth as it lies.

    That is done always with cloth to be trimmed in place, and in a hoop where no machine cuts the pieces before.
    """
    trimmed = fabric.trim_in_place or any(track.hoop and not track.cutter for track in tracks)
    return TRIM_ROOM if trimmed else FUSED_ROOM


def lay_box(width_mm: float, height_mm: float, fabric: Fabric) -> Sides:
    """The box round an outline in inches, to a hundredth of a millimetre, as it lies on its cloth.

    Its long side lies across, unless the cloth has a direction.
    """
    width, height = (_inches(side) for side in (width_mm, height_mm))
    return (height, width) if height > width and not fabric.one_way else (width, height)


def find_rectangle(box: Sides, room: Fraction, measure: str) -> Sides:
    """What is cut for a box with so much room.

    >>> [str(side) for side in find_rectangle((Fraction(4), Fraction(7, 8)), FUSED_ROOM, "in")]
    ['5', '2']
    """
    width, height = (round_up(side + 2 * room, ROUGH_STEPS[measure]) for side in box)
    return width, height


def fits_on(rectangle: Sides, fabric: Fabric) -> bool:
    """Whether a rectangle fits on its cloth, turned where the cloth has no direction."""
    return fabric.usable_width >= (rectangle[0] if fabric.one_way else min(rectangle))


def _inches(side_mm: float) -> Fraction:
    return round(Fraction(side_mm) / HUNDREDTH_MM) * HUNDREDTH_MM / MM_PER_INCH
