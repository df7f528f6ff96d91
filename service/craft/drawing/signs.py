"""The small signs of a drawing: dimensions, grain, pressing, order, legend, and what fonts lack."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence

from service.craft.drawing.lettering import fit_words, measure_words, write_words
from service.craft.drawing.sheet import Sheet, trace_polygon
from service.craft.drawing.styles import EARTH, GRAIN, PAPER, PATCH_EDGE, WITNESS, Stroke
from service.craft.language import phrase
from service.craft.outlines.affine import Point

DIMENSION_SIZE_MM = 3.6
"""Letter size of dimensions, close to 10 pt."""

DIMENSION_ROOM_MM = 9.2
"""Room that a dimension takes outside the drawing."""

HEAD_MM, HEAD_HALF_MM = 2.0, 0.7
"""Length and half width of an arrow's head."""

WEDGE_MM = 3.0
"""Side of the pressing wedge."""


def draw_width(
    sheet: Sheet, left: float, right: float, edge: float, text: str, *, below: bool = True
) -> None:
    """A width outside a drawing whose lower (or upper) edge is at `edge`, its text in the middle."""
    away = 1.0 if below else -1.0
    y = edge + away * 4.0
    for x in (left, right):
        sheet.line((x, edge + away * 1.0), (x, y + away * 1.0), WITNESS)
    _draw_between(sheet, (left, y), (right, y), text)
    base = y + 4.4 if below else y - 1.4
    write_words(
        sheet, ((left + right) / 2, base - (0.4 if below else 0)), text, DIMENSION_SIZE_MM, anchor="middle"
    )


def draw_height(
    sheet: Sheet, top: float, bottom: float, edge: float, text: str, *, after: bool = False
) -> None:
    """A height left (or, with `after`, right) of a drawing whose side is at `edge`, its text along it.

    Text that is longer than the height begins at its upper end: above a low drawing there is no room for it.
    """
    away = 1.0 if after else -1.0
    x = edge + away * 4.0
    for y in (top, bottom):
        sheet.line((edge + away * 1.0, y), (x + away * 1.0, y), WITNESS)
    _draw_between(sheet, (x, top), (x, bottom), text)
    base = x + 4.2 if after else x - 1.4
    middle = max((top + bottom) / 2, top + measure_words(text, DIMENSION_SIZE_MM) / 2)
    write_words(sheet, (base, middle), text, DIMENSION_SIZE_MM, anchor="middle", turned=-90)


def _draw_between(sheet: Sheet, start: Point, end: Point, text: str) -> None:
    if math.dist(start, end) > 3 * HEAD_MM:
        draw_arrow(sheet, start, end, WITNESS, both=True)
    else:
        sheet.line(start, end, WITNESS)


def draw_arrow(sheet: Sheet, start: Point, end: Point, stroke: Stroke = GRAIN, *, both: bool = False) -> None:
    """A plain arrow from `start` to `end`, headed at the end or at both ends."""
    length = math.dist(start, end)
    if length == 0:
        return
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    sheet.line(start, end, stroke)
    for tip, sign in [(end, -1.0)] + ([(start, 1.0)] if both else []):
        foot = (tip[0] + sign * along[0] * HEAD_MM, tip[1] + sign * along[1] * HEAD_MM)
        side = (along[1] * HEAD_HALF_MM, -along[0] * HEAD_HALF_MM)
        corners = [tip, (foot[0] + side[0], foot[1] + side[1]), (foot[0] - side[0], foot[1] - side[1])]
        sheet.polygon(corners, fill=stroke.colour)


def draw_grain(sheet: Sheet, start: Point, end: Point) -> None:
    """The grain: a plain arrow with two heads."""
    draw_arrow(sheet, start, end, GRAIN, both=True)


def draw_wedge(sheet: Sheet, at: Point, towards: Point) -> None:
    """A pressing wedge: its foot on the seam at `at`, its tip on the side where the allowance lies.

    Dark with a light rim, so that it stands out on any cloth, in grey too.
    """
    x, y = towards
    foot = (-y * WEDGE_MM * 0.55, x * WEDGE_MM * 0.55)
    tip = (at[0] + x * WEDGE_MM, at[1] + y * WEDGE_MM)
    corners = [(at[0] + foot[0], at[1] + foot[1]), (at[0] - foot[0], at[1] - foot[1]), tip]
    sheet.polygon(corners, stroke=Stroke(0.9, PAPER))
    sheet.polygon(corners, fill=EARTH)


def draw_number(sheet: Sheet, at: Point, number: int | str, *, radius: float = 2.4) -> None:
    """A numbered disc, for an order."""
    sheet.disc(at, radius, fill=EARTH, stroke=Stroke(0.3, PAPER))
    text = str(number)
    size = radius * (1.35 if len(text) < 3 else 1.0)
    write_words(sheet, (at[0], at[1] + size * 0.33), text, size, weight=700, colour=PAPER, anchor="middle")


def draw_tag(sheet: Sheet, at: Point, text: str, size_mm: float) -> None:
    """A short word on cloth, on a patch of paper so that it reads on any colour and hatch."""
    width = measure_words(text, size_mm, weight=600) + size_mm * 0.5
    sheet.box(at[0] - width / 2, at[1] - size_mm * 0.6, width, size_mm * 1.2, fill=PAPER)
    write_words(sheet, (at[0], at[1] + size_mm * 0.34), text, size_mm, weight=600, anchor="middle")


def draw_tick_box(size_mm: float = 4.0) -> str:
    """An empty box to tick, as a small SVG of its own."""
    sheet = Sheet(size_mm, size_mm, title=phrase("box to tick"))
    sheet.box(0.2, 0.2, size_mm - 0.4, size_mm - 0.4, fill=PAPER, stroke=PATCH_EDGE)
    return sheet.to_svg()


LEGEND_SIZE_MM = 3.4
LEGEND_ROW_MM = 6.2
SWATCH_MM = (9.0, 4.6)


def measure_legend(names: Sequence[str], width_mm: float) -> tuple[int, float]:
    """How many columns a legend takes in `width_mm`, and how high it is."""
    widest = max((measure_words(name, LEGEND_SIZE_MM) for name in names), default=0.0) + SWATCH_MM[0] + 8.0
    columns = max(1, min(len(names), int(width_mm // widest)))
    return columns, math.ceil(len(names) / columns) * LEGEND_ROW_MM if names else 0.0


def place_legend(names: Sequence[str], x: float, y: float, width_mm: float) -> Iterable[tuple[Point, str]]:
    """Where each swatch of a legend goes (its upper left corner), and its words cut to fit."""
    columns, _ = measure_legend(names, width_mm)
    room = width_mm / columns
    for index, name in enumerate(names):
        row, column = divmod(index, columns)
        at = (x + column * room, y + row * LEGEND_ROW_MM)
        yield at, fit_words(name, LEGEND_SIZE_MM, room - SWATCH_MM[0] - 3.0)


def trace_swatch(at: Point) -> list[Point]:
    """The corners of a legend's swatch."""
    (x, y), (width, height) = at, SWATCH_MM
    return [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]


__all__ = [
    "DIMENSION_ROOM_MM",
    "draw_arrow",
    "draw_grain",
    "draw_height",
    "draw_number",
    "draw_tag",
    "draw_tick_box",
    "draw_wedge",
    "draw_width",
    "measure_legend",
    "place_legend",
    "trace_polygon",
    "trace_swatch",
]
