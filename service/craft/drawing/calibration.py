"""The calibration sheet drawn: marks in its corners, a field to lay shapes in, a ruler and a square to measure."""

from __future__ import annotations

from service.craft.calibration import (
    DOT_MM,
    HOLE_MM,
    MARK_MM,
    RULER_MM,
    SQUARE_MM,
    CalibrationSheet,
)
from service.craft.drawing.lettering import write_words
from service.craft.drawing.sheet import Sheet
from service.craft.drawing.styles import EARTH, MIST, PAPER, Stroke

BORDER = Stroke(0.4, MIST)
"""Round the field: so light that it is not taken for a shape."""
FIRM = Stroke(0.3)

INK = "#000000"
"""Marks are as dark as a printer makes them."""

HOW_TO = (
    "Print this page at 100 % and measure the square: 50 mm both ways.",
    "Lay or draw dark shapes inside the field, none over its border.",
    "Scan the page, or photograph it flat, from above, in even light,",
    "with all four marks in the picture.",
)


def draw_calibration_sheet(of: CalibrationSheet) -> Sheet:
    """The whole sheet at true size."""
    sheet = Sheet(of.width, of.height, title="Calibration sheet", description=f"For {of.paper} paper.")
    left, top, right, foot = of.field
    sheet.box(left, top, right - left, foot - top, stroke=BORDER)
    for number, (x, y) in enumerate(of.marks):
        sheet.disc((x, y), MARK_MM, fill=INK)
        sheet.disc((x, y), HOLE_MM, fill=PAPER)
        if number < of.dotted:
            sheet.disc((x, y), DOT_MM, fill=INK)
    write_words(sheet, (26, 17.5), "Calibration sheet", 6.0, weight=600)
    write_words(sheet, (of.width - 26, 17.5), f"Batchbee, for {of.paper} paper", 3.6, anchor="end")
    _draw_square(sheet, of)
    _draw_ruler(sheet, of)
    return sheet


def _draw_square(sheet: Sheet, of: CalibrationSheet) -> None:
    x, y = of.square
    sheet.box(x, y, SQUARE_MM, SQUARE_MM, stroke=FIRM)
    write_words(sheet, (x + SQUARE_MM / 2, y + SQUARE_MM / 2 + 1.5), "50 mm", 4.2, anchor="middle")
    for number, line in enumerate(HOW_TO):
        write_words(sheet, (x + SQUARE_MM + 7, y + 8 + 6.2 * number), line, 3.7)


def _draw_ruler(sheet: Sheet, of: CalibrationSheet) -> None:
    left, base = 30.0, of.height - 12.0
    sheet.line((left, base), (left + RULER_MM, base), FIRM)
    for mm in range(0, RULER_MM + 1):
        tick = 4.0 if mm % 10 == 0 else 2.8 if mm % 5 == 0 else 1.6
        sheet.line((left + mm, base), (left + mm, base - tick), Stroke(0.15, EARTH))
        if mm % 10 == 0:
            word = f"{mm // 10} cm" if mm == RULER_MM else str(mm // 10)
            write_words(sheet, (left + mm, base - 5.0), word, 2.8, anchor="middle")
