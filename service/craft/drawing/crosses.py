"""Crossing lines on a drawing of the top: where the middle of a hooping comes, and which way its upper edge lies."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from service.craft.drawing.lettering import write_words
from service.craft.drawing.sheet import Sheet
from service.craft.drawing.styles import EARTH, PAPER, Stroke
from service.craft.outlines.affine import Point

ARM_MM, HEAD_MM = 5.5, 1.4
LABEL_MM, LETTERS_MM = 7.6, 3.2
CLEAR_MM = 4.8
"""From the middle of a label to that of a numbered disc, or of another label: both are read whole."""

HALO, LINE = Stroke(0.9, PAPER), Stroke(0.3, EARTH)
"""The lines, and the white under them that keeps them apart from any cloth."""


@dataclass(frozen=True)
class CrossView:
    """The middle of a hooping: where on the top (mm from its finished corner), how far the top lies turned clockwise
    in the hoop (degrees), and its number.
    """

    at_mm: Point
    top_turned_degrees: float
    label: str


def draw_cross(sheet: Sheet, at: Point, cross: CrossView, taken: Sequence[Point] = ()) -> Point:
    """Two lines that cross at a place on the sheet; the one towards the upper edge of the hoop has a head.

    Answers with the middle of the label: at the end of the first line, from the head on, where nothing `taken` is near.
    """
    angle = math.radians(-cross.top_turned_degrees)

    def out(across: float, up: float) -> Point:
        return (
            at[0] + across * math.cos(angle) + up * math.sin(angle),
            at[1] + across * math.sin(angle) - up * math.cos(angle),
        )

    lines = [(out(-ARM_MM, 0), out(ARM_MM, 0)), (out(0, -ARM_MM), out(0, ARM_MM))]
    lines += [(out(side, ARM_MM - HEAD_MM), out(0, ARM_MM)) for side in (-HEAD_MM / 2, HEAD_MM / 2)]
    for stroke in (HALO, LINE):
        for start, end in lines:
            sheet.line(start, end, stroke)
    ends = [out(0, LABEL_MM), out(LABEL_MM, 0), out(-LABEL_MM, 0), out(0, -LABEL_MM)]
    rooms = [min((math.dist(end, other) for other in taken), default=CLEAR_MM) for end in ends]
    x, y = ends[max(range(len(ends)), key=lambda n: min(rooms[n], CLEAR_MM))]
    sheet.disc((x, y), 2.2, fill=PAPER)
    write_words(sheet, (x, y + LETTERS_MM * 0.34), cross.label, LETTERS_MM, weight=600, anchor="middle")
    return x, y
