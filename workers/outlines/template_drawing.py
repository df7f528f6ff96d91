"""Draws template pages: true size, with the squares that tell whether the printer kept to it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import pairwise

import shapely
from shapely import LineString, Polygon, box
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from service.craft.drawing.lettering import fit_words, write_words
from service.craft.drawing.sheet import Sheet, trace_ring, trace_runs
from service.craft.drawing.signs import draw_grain
from service.craft.drawing.styles import BRING, CUT, FOLD, SEW, SEWN, WITNESS, Stroke
from service.craft.language import mark, phrase
from service.craft.outlines import Outline, flatten
from service.craft.outlines.affine import Affine, Point
from service.craft.outlines.model import Ring
from service.craft.outlines.polygons import to_polygon
from service.look.palette import PRINT
from workers.outlines.template_pages import PageSettings, Placed, SheetPage, SmallPage, write_caption
from workers.outlines.template_plan import Template

TRUE_SIZE = mark("Print at 100 %, actual size")

SQUARE = Stroke(0.2)
"""Test squares are measured to the middle of their line."""

MARK = Stroke(0.35)

TITLE_MM = 4.6
BIG_TITLE_MM = 8.0
GRAIN_MM = 18.0
LETTER_ROOM_MM = 8.0
"""How far every edge is from the middle of a patch that has room for its letter beside the grain arrow."""

UNDER_WITHIN_MM = 0.02
"""How near the outline a stretch is taken to be on it: turning the piece back has moved it by less."""

INCH_MM = 25.4
CROSS_MM = 3.0
CROSSES_EVERY_MM = 60.0


def draw_page(page: SmallPage | SheetPage, number: str, project: str, settings: PageSettings) -> Sheet:
    """One page of templates; `number` is its place among the pages in words."""
    title = (
        page.template.title
        if isinstance(page, SheetPage)
        else ", ".join(p.template.title for p in page.placed)
    )
    sheet = begin_page(phrase("Templates for {shapes}", shapes=title), number, project, settings)
    if isinstance(page, SheetPage):
        _draw_window(sheet, page, settings)
        _draw_sheet_words(sheet, page, settings)
    else:
        for placed in page.placed:
            _draw_placed(sheet, placed, settings)
    return sheet


def begin_page(title: str, number: str, project: str, settings: PageSettings) -> Sheet:
    """An empty page with its header and, at its foot, the squares of 50 mm and 1 in."""
    sheet = Sheet(settings.width_mm, settings.height_mm, title=f"{title}. {phrase(TRUE_SIZE)}.")
    write_words(sheet, (0, 5), phrase(TRUE_SIZE), TITLE_MM, weight=700, colour=PRINT["rhubarb"])
    write_words(sheet, (settings.width_mm, 5), fit_words(f"{project}, {number}", 3.6, 100), 3.6, anchor="end")
    sheet.line((0, 8), (settings.width_mm, 8), WITNESS)
    foot = settings.height_mm - 52.0
    draw_square(sheet, (1.0, foot), 50.0, "50 mm")
    draw_square(sheet, (56.0, foot + 50.0 - INCH_MM), INCH_MM, phrase("{number} in", number=1))
    return sheet


def draw_square(sheet: Sheet, at: Point, side: float, words: str) -> None:
    """A square to be measured, with its size written along the inside of its lower edge."""
    sheet.box(at[0], at[1], side, side, stroke=SQUARE)
    write_words(sheet, (at[0] + side / 2, at[1] + side - 2.0), words, 3.4, anchor="middle")


def write_lines(
    sheet: Sheet, at: Point, lines: Sequence[str], settings: PageSettings, *, titled: bool = True
) -> float:
    """Lines of text one below the other, the first in semibold if it is a title; returns the next base line."""
    for i, line in enumerate(lines):
        weight = 600 if titled and i == 0 else 400
        write_words(sheet, (at[0], at[1] + i * settings.line_mm), line, settings.letter_mm, weight=weight)
    return at[1] + len(lines) * settings.line_mm


def _draw_placed(sheet: Sheet, placed: Placed, settings: PageSettings) -> None:
    left, top = placed.x + settings.edge_mm, settings.header_mm + placed.y
    outline = placed.template.outline.moved(Affine.moving(left, top))
    _draw_cut(sheet, placed.template, (left, top))
    if placed.template.seam_line is not None:
        seam = placed.template.seam_line.moved(Affine.moving(left, top))
        sheet.path("".join(trace_ring(ring) for ring in seam.rings), stroke=SEW)
    _draw_marks(
        sheet, placed.template, box(*to_polygon(placed.template.outline).buffer(1.0).bounds), (left, top)
    )
    _draw_grain(sheet, placed.template, (left, top))
    write_lines(sheet, (left, top + outline.height_mm + 5.5), placed.caption, settings)


def _draw_cut(sheet: Sheet, template: Template, corner: Point) -> None:
    """The line to cut on: dotted where it lies under another piece; and the snips into an allowance."""
    if template.under:
        everywhere = box(*to_polygon(template.outline).buffer(1.0).bounds)
        _draw_parted(sheet, template, everywhere, corner)
    else:
        outline = template.outline.moved(Affine.moving(*corner))
        sheet.path("".join(trace_ring(ring) for ring in outline.rings), stroke=CUT)
    for start, end in template.snips:
        sheet.line(_moved(start, corner), _moved(end, corner), SEWN)


def _draw_marks(sheet: Sheet, template: Template, window: Polygon, shift: Point) -> None:
    """The marks that are laid on lines drawn on the top, and where hoopings part the edge."""
    for lines, stroke in ((template.marks, MARK), (template.split, BRING)):
        for line in lines:
            _draw_lines(sheet, LineString(line), window, shift, stroke)


def _draw_parted(sheet: Sheet, template: Template, window: Polygon, shift: Point) -> None:
    """The cut line in a window, its stretches under other pieces dotted."""
    under = unary_union([LineString(run) for run in template.under]).buffer(UNDER_WITHIN_MM, cap_style="flat")
    for ring in template.outline.rings:
        edge = _closed_line(ring)
        _draw_lines(sheet, edge.difference(under), window, shift, CUT)
        _draw_lines(sheet, edge.intersection(under), window, shift, FOLD)


def _draw_lines(sheet: Sheet, lines: BaseGeometry, window: Polygon, shift: Point, stroke: Stroke) -> None:
    """The parts of lines that lie in a window."""
    for part in shapely.get_parts(lines.intersection(window)):
        if isinstance(part, LineString):
            corners = [_moved((x, y), shift) for x, y in part.coords]
            sheet.path(trace_runs(pairwise(corners)), stroke=stroke)


def _closed_line(ring: Ring) -> LineString:
    points = flatten(ring)
    return LineString([*points.tolist(), points[0].tolist()])


def _draw_grain(sheet: Sheet, template: Template, corner: Point) -> None:
    """A grain arrow in the roomiest part of the shape, as long as fits there."""
    if template.grain is None:
        return
    shape = to_polygon(template.outline)
    middle = shapely.maximum_inscribed_circle(shape, tolerance=0.5)
    x, y = middle.coords[0]
    reach = min(GRAIN_MM / 2, 0.8 * middle.length)
    (dx, dy) = template.grain
    start, end = (x - dx * reach, y - dy * reach), (x + dx * reach, y + dy * reach)
    draw_grain(sheet, _moved(start, corner), _moved(end, corner))
    if template.letter and middle.length > LETTER_ROOM_MM:
        write_words(
            sheet,
            _moved((x + 2.5, y + BIG_TITLE_MM * 0.34), corner),
            template.letter,
            BIG_TITLE_MM,
            weight=700,
        )


def _moved(point: Point, by: Point) -> Point:
    return point[0] + by[0], point[1] + by[1]


def _draw_window(sheet: Sheet, page: SheetPage, settings: PageSettings) -> None:
    """The part of a large template that lies in this sheet's window, with the marks that join it."""
    window = box(page.x, page.y, page.x + settings.width_mm, page.y + settings.room_mm)
    shift = (-page.x, settings.header_mm - page.y)
    if page.template.under:
        _draw_parted(sheet, page.template, window, shift)
    else:
        _draw_inside(sheet, page.template.outline, window, shift, CUT)
    for start, end in page.template.snips:
        _draw_lines(sheet, LineString([start, end]), window, shift, SEWN)
    if page.template.seam_line is not None:
        _draw_inside(sheet, page.template.seam_line, window, shift, SEW)
    _draw_marks(sheet, page.template, window, shift)
    _draw_joins(sheet, page, shift, settings)
    if _grain_inside(page.template, window):
        _draw_grain(sheet, page.template, shift)


def _draw_inside(sheet: Sheet, outline: Outline, window: Polygon, shift: Point, stroke: Stroke) -> None:
    """The part of an outline that lies in a window."""
    for ring in outline.rings:
        _draw_lines(sheet, _closed_line(ring), window, shift, stroke)


def _grain_inside(template: Template, window: Polygon) -> bool:
    circle = shapely.maximum_inscribed_circle(to_polygon(template.outline), tolerance=0.5)
    return bool(window.buffer(-GRAIN_MM / 2).contains(shapely.Point(circle.coords[0])))


def _draw_joins(sheet: Sheet, page: SheetPage, shift: Point, settings: PageSettings) -> None:
    """A dotted line in the middle of each overlap, and crosses that fall on each other when sheets lie right."""
    half = settings.overlap_mm / 2
    right, bottom = page.x + settings.width_mm, page.y + settings.room_mm
    for here, is_there in ((page.x + half, page.column > 0), (right - half, page.column < page.columns - 1)):
        if is_there:
            _draw_join(sheet, [(here, page.y), (here, bottom)], shift)
    for here, is_there in ((page.y + half, page.row > 0), (bottom - half, page.row < page.rows - 1)):
        if is_there:
            _draw_join(sheet, [(page.x, here), (right, here)], shift)


def _draw_join(sheet: Sheet, ends: list[Point], shift: Point) -> None:
    start, end = (_moved(point, shift) for point in ends)
    sheet.line(start, end, FOLD)
    (x0, y0), (x1, y1) = ends
    upright = x0 == x1
    low, high = (y0, y1) if upright else (x0, x1)
    # Counted from the template's own corner, so that both sheets put their crosses in the same places.
    for n in range(math.ceil(low / CROSSES_EVERY_MM), math.floor(high / CROSSES_EVERY_MM) + 1):
        along = n * CROSSES_EVERY_MM
        x, y = _moved((x0, along) if upright else (along, y0), shift)
        sheet.line((x - CROSS_MM, y - CROSS_MM), (x + CROSS_MM, y + CROSS_MM), WITNESS)
        sheet.line((x - CROSS_MM, y + CROSS_MM), (x + CROSS_MM, y - CROSS_MM), WITNESS)


def _draw_sheet_words(sheet: Sheet, page: SheetPage, settings: PageSettings) -> None:
    lines = list(write_caption(page.template, 100.0, settings))
    if page.columns * page.rows > 1:
        lines[1:1] = [
            phrase(
                "Sheet in row {row} of {rows}, column {column} of {columns}.",
                row=page.row + 1,
                rows=page.rows,
                column=page.column + 1,
                columns=page.columns,
            ),
            phrase("Lay dotted line on dotted line, cross on cross, and tape."),
        ]
    # The names of the pieces come last, and the first page has them all: what does not fit may go.
    held = int((settings.strip_mm - 7.0) / settings.line_mm) + 1
    shown = lines if len(lines) <= held else [*lines[: held - 1], f"{lines[held - 1]} …"]
    write_lines(sheet, (88.0, settings.height_mm - settings.strip_mm + 7.0), shown, settings)
