"""A ring of blades, wedges sewn side by side, laid on a background that stays whole under it; a disc in its middle.

Blades go clockwise, the first seam at noon. `reach` is the radius of the circle the ring fits in with its tips, `hole`
the radius from which its seams run outwards. A blade keeps its angle when it is sewn; r from the middle it is
2 r tan(angle / 2) wide (geometry).
"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property
from typing import ClassVar

from service.craft.language import phrase
from service.craft.measure import Exact, exact, sine
from service.craft.planar.figures import RationalPoint
from service.craft.planar.naming import PatchTemplate
from service.craft.planar.round_shapes import BladeTemplate, DiscTemplate
from service.craft.units.base import CuttingRules, Need, Patch, Point, Unit, box
from service.craft.units.fan_blade_shapes import RingShapes, RingSizes, find_shoulder, trace_ring


@dataclass(frozen=True)
class Blade:
    """One blade: its cloth and the template it is cut with, which knows its angle."""

    fabric: str
    template: BladeTemplate

    @property
    def angle(self) -> Fraction:
        """Degrees, the same cut and sewn."""
        return self.template.angle


@dataclass(frozen=True, kw_only=True)
class FanBladeRing(Unit):
    """A ring on its background. Sizes in inches; `disc` covers the hole."""

    kind: ClassVar[str] = "fan blade ring"
    size: tuple[Fraction, Fraction]
    fabric: str
    blades: tuple[Blade, ...]
    disc: DiscTemplate
    disc_fabric: str

    @property
    def width(self) -> Exact:
        """Finished width in inches."""
        return exact(self.size[0])

    @property
    def height(self) -> Exact:
        """Finished height in inches."""
        return exact(self.size[1])

    @property
    def weight(self) -> int:
        """As many patches as there are."""
        return len(self.blades) + 2

    @property
    def sizes(self) -> RingSizes:
        """The ring by its radii and angles."""
        first = self.blades[0].template
        angles = tuple(blade.angle for blade in self.blades)
        return RingSizes(angles, first.tips, first.reach, first.hole, self.disc.diameter / 2)

    @property
    def inner_widths(self) -> dict[str, Fraction]:
        """The finished width (inches) of the narrow end of the blades, the narrowest of each cloth."""
        found: dict[str, Fraction] = {}
        for blade in self.blades:
            width = 2 * blade.template.hole * sine(blade.angle / 2)
            found[blade.fabric] = min(width, found.get(blade.fabric, width))
        return found

    @property
    def shoulders(self) -> list[Fraction]:
        """How far from the middle (inches) the long sides of each blade end."""
        return [
            find_shoulder(blade.angle, blade.template.reach, blade.template.tips) for blade in self.blades
        ]

    @cached_property
    def _shapes(self) -> RingShapes:
        return trace_ring(self.sizes)

    def own_patches(self) -> list[Patch]:
        """What is seen: the background round the ring, the blades in order from noon on, the disc."""
        shapes = self._shapes
        background = Patch(box(self.width, self.height), self.fabric, self.pointer, self._lay(shapes.outline))
        blades = [
            Patch(self._lay(points), blade.fabric, self.pointer)
            for points, blade in zip(shapes.blades, self.blades, strict=True)
        ]
        return [background, *blades, Patch(self._lay(shapes.disc), self.disc_fabric, self.pointer)]

    def _lay(self, points: list[RationalPoint]) -> tuple[Point, ...]:
        x, y = (side / 2 for side in self.size)
        return tuple((Exact(x + px), Exact(y + py)) for px, py in points)

    def needs(self, rules: CuttingRules) -> list[Need]:
        """The whole background, f + 2s; blades and disc by the box of their cut shape, up to the grid."""
        width, height = (rules.plain(side) for side in self.size)
        blades = [
            _by_template(fabric, template, rules).times(count)
            for (fabric, template), count in Counter((b.fabric, b.template) for b in self.blades).items()
        ]
        return [
            Need(self.fabric, width, height),
            *blades,
            _by_template(self.disc_fabric, self.disc, rules),
        ]

    def templates(self) -> list[tuple[PatchTemplate, str, bool]]:
        """Blades, then the disc; none is ever turned over."""
        blades: list[tuple[PatchTemplate, str, bool]] = [(b.template, b.fabric, False) for b in self.blades]
        return [*blades, (self.disc, self.disc_fabric, False)]


def _by_template(fabric: str, template: PatchTemplate, rules: CuttingRules) -> Need:
    width, height = template.box(rules.seam_allowance, rules.round_to)
    return Need(
        fabric,
        width,
        height,
        then=phrase("cut with template {letter}", letter=template.letter),
        shape="polygon",
        template=template.letter,
        all_ways=isinstance(template, BladeTemplate),
    )
