"""The calibration sheet: where its marks stand, and where on it shapes are laid. In mm from its upper left corner."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Point = tuple[float, float]

MARK_MM = 4.0
"""Radius of a mark: a black ring."""
HOLE_MM = 2.0
"""Radius of the white within it; half the mark, so that it has a quarter of its area from wherever it is seen."""
DOT_MM = 1.0
"""Radius of the black dot that the first marks of a sheet have."""
INSET_MM = 16.0
"""From the rim of the paper to the middle of a mark."""

FIELD_SIDE_MM = 12.0
FIELD_TOP_MM = 28.0
FIELD_FOOT_MM = 78.0
"""The field for shapes keeps this far from the rim of the paper: head and foot are for marks, words and ruler."""

SQUARE_MM = 50.0
RULER_MM = 150

PaperName = Literal["A4", "Letter"]


@dataclass(frozen=True)
class CalibrationSheet:
    """A sheet for one paper. `dotted` of its marks, clockwise from the upper left one, have a dot in the middle."""

    paper: PaperName
    width: float
    height: float
    dotted: int

    @property
    def marks(self) -> tuple[Point, Point, Point, Point]:
        """The middles of the four marks, clockwise from the upper left."""
        right, low = self.width - INSET_MM, self.height - INSET_MM
        return (INSET_MM, INSET_MM), (right, INSET_MM), (right, low), (INSET_MM, low)

    @property
    def field(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom of the field in which shapes are looked for."""
        return FIELD_SIDE_MM, FIELD_TOP_MM, self.width - FIELD_SIDE_MM, self.height - FIELD_FOOT_MM

    @property
    def square(self) -> Point:
        """The upper left corner of the square to measure."""
        return 30.0, self.height - 74.0


SHEETS: tuple[CalibrationSheet, ...] = (
    CalibrationSheet("A4", 210.0, 297.0, dotted=1),
    CalibrationSheet("Letter", 215.9, 279.4, dotted=2),
)
"""ISO 216 A4, and US Letter of 8 1/2 by 11 in."""
