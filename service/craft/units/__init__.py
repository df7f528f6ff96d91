"""One file a kind of unit: its geometry, its cut sizes, its ways of making."""

from service.craft.units import (
    bordered,
    corner_squares,
    diamond,
    eight_pointed_star,
    fan_blade_reading,
    flying_geese,
    grid,
    half_square_triangle,
    hexagons,
    kite,
    on_point,
    patch,
    polygon_reading,
    quarter_square_triangle,
    square_in_a_square,
    strip_set,
    turned,
)
from service.craft.units.base import CuttingRules, Frame, Need, Patch, Point, Unit
from service.craft.units.bordered import Border, Bordered
from service.craft.units.corner_squares import CornerSquares
from service.craft.units.diamond import Diamond
from service.craft.units.eight_pointed_star import EightPointedStar
from service.craft.units.fan_blade_ring import FanBladeRing
from service.craft.units.flying_geese import FlyingGeese
from service.craft.units.grid import Grid, Sashing
from service.craft.units.half_square_triangle import HalfSquareTriangle
from service.craft.units.hexagons import Hexagons
from service.craft.units.kite import Kite
from service.craft.units.on_point import OnPoint
from service.craft.units.patch import PatchUnit
from service.craft.units.polygons import Polygons, StraightPatch
from service.craft.units.quarter_square_triangle import QuarterSquareTriangle
from service.craft.units.reading import ReadUnit, UnitReader
from service.craft.units.square_in_a_square import SquareInASquare
from service.craft.units.strip_set import SetStrip, StripSet
from service.craft.units.turned import Mirrored, Turned

READERS: dict[str, tuple[frozenset[str], ReadUnit]] = {
    PatchUnit.kind: (patch.FIELDS, patch.read),
    HalfSquareTriangle.kind: (half_square_triangle.FIELDS, half_square_triangle.read),
    QuarterSquareTriangle.kind: (quarter_square_triangle.FIELDS, quarter_square_triangle.read),
    FlyingGeese.kind: (flying_geese.FIELDS, flying_geese.read),
    CornerSquares.kind: (corner_squares.FIELDS, corner_squares.read),
    SquareInASquare.kind: (square_in_a_square.FIELDS, square_in_a_square.read),
    EightPointedStar.kind: (eight_pointed_star.FIELDS, eight_pointed_star.read),
    StripSet.kind: (strip_set.FIELDS, strip_set.read),
    Kite.kind: (kite.FIELDS, kite.read),
    Diamond.kind: (diamond.FIELDS, diamond.read),
    FanBladeRing.kind: (fan_blade_reading.FIELDS, fan_blade_reading.read),
    Hexagons.kind: (hexagons.FIELDS, hexagons.read),
    Polygons.kind: (polygon_reading.FIELDS, polygon_reading.read),
    Grid.kind: (grid.FIELDS, grid.read),
    Bordered.kind: (bordered.FIELDS, bordered.read),
    OnPoint.kind: (on_point.FIELDS, on_point.read),
    Turned.kind: (turned.TURNED_FIELDS, turned.read_turned),
    Mirrored.kind: (turned.MIRRORED_FIELDS, turned.read_mirrored),
}
"""Every kind of unit by its name in the document: the fields it knows and how it is read."""

__all__ = [
    "READERS",
    "Border",
    "Bordered",
    "CornerSquares",
    "CuttingRules",
    "Diamond",
    "EightPointedStar",
    "FanBladeRing",
    "FlyingGeese",
    "Frame",
    "Grid",
    "HalfSquareTriangle",
    "Hexagons",
    "Kite",
    "Mirrored",
    "Need",
    "OnPoint",
    "Patch",
    "PatchUnit",
    "Point",
    "Polygons",
    "QuarterSquareTriangle",
    "ReadUnit",
    "Sashing",
    "SetStrip",
    "SquareInASquare",
    "StraightPatch",
    "StripSet",
    "Turned",
    "Unit",
    "UnitReader",
]
