"""The sewn top as applique pieces are laid on it: which cloth lies where."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping
from dataclasses import dataclass

from shapely import Point, Polygon, unary_union
from shapely.geometry.base import BaseGeometry

from service.craft.pieces import Piece
from service.craft.units import Unit

FLAT_IN = 0.01
"""Inches below which a corner of joined patches is none: it came of adding up floats."""


@dataclass(frozen=True)
class Ground:
    """A top of so many inches: the area of every cloth on it, by the cloth's key."""

    width: float
    height: float
    areas: Mapping[str, BaseGeometry]

    def cloth_under(self, piece: Piece) -> str:
        """The cloth under the middle of a piece; the top's first one where it lies beside the top."""
        at = Point(*map(float, piece.at))
        return next(
            (cloth for cloth, area in self.areas.items() if area.intersects(at)), next(iter(self.areas))
        )


def lay_out(top: Unit) -> Ground:
    """The patches of a top, those of one cloth together."""
    patches: dict[str, list[Polygon]] = defaultdict(list)
    for patch in top.patches():
        corners = [(float(x), float(y)) for x, y in patch.points]
        hole = [[(float(x), float(y)) for x, y in patch.hole]] if patch.hole else []
        patches[patch.fabric].append(Polygon(corners, hole))
    areas = {cloth: unary_union(found).simplify(FLAT_IN) for cloth, found in patches.items()}
    return Ground(float(top.width), float(top.height), areas)
