"""Strip diagrams: what is cut from each strip across the cloth, to scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import groupby

from service.craft.drawing.cloth import draw_edges, fill_cloth
from service.craft.drawing.lettering import measure_words, write_words
from service.craft.drawing.sheet import Sheet, trace_lines, trace_polygon
from service.craft.drawing.signs import draw_tag
from service.craft.drawing.styles import CUT, WITNESS, Stroke
from service.craft.drawing.top import PAGE_WIDTH_MM
from service.craft.drawing.views import ClothView, CutInStrip, StripView
from service.craft.outlines.affine import Point

Box = tuple[float, float, float, float]
"""Left, top, width, height in mm."""

LABEL_MM = 22.0
"""Room on the left for how high a strip is and how often it is cut."""

SELVEDGE = Stroke(0.18, dash_mm=(0.6, 0.9))
"""Where the cloth ends, left and right."""

LABEL_LINES, LINE_MM = 2, 4.2
"""Words under a strip stand on one line or two, so far below each other."""

LETTER_MM = 3.4
GAP_MM = 6.5
SHEET_HEIGHT_MM = 150.0
"""A sheet of strips is no higher, so that it finds room on a page beside its table."""

TALLEST_MM = 58.0
"""One strip is drawn no higher: a backing would fill the page, and has little to show."""

TOP_MM = 7.0
LEAST_HEIGHT_MM = 4.5
"""Strips lower than this on paper are drawn this high, so that their cuts can be seen."""


def draw_strips(
    cloth: ClothView,
    usable_width: float,
    width_text: str,
    strips: Sequence[StripView],
    *,
    max_width_mm: float = PAGE_WIDTH_MM,
    max_height_mm: float = SHEET_HEIGHT_MM,
) -> list[str]:
    """The strips of one cloth as SVG, in as many sheets as they need; equal strips once with how many.

    `usable_width` in inches gives the scale, smaller where one strip would be higher than a sheet. Strips
    under each other, cuts from the left, the rest bare. No strips give no sheet.
    """
    if not strips:
        return []
    groups = [(strip, len(list(same))) for strip, same in groupby(strips)]
    longest = max([usable_width, *(sum(c.count * c.along for c in s.cuts) for s in strips)])
    tallest = max(strip.height for strip in strips)
    room = min(TALLEST_MM, max_height_mm - TOP_MM - GAP_MM)
    scale = min((max_width_mm - LABEL_MM - 1.0) / longest, room / tallest)
    return [
        _draw_sheet(cloth, usable_width * scale, width_text, page, scale, max_width_mm)
        for page in _split_pages(groups, scale, max_width_mm, max_height_mm)
    ]


Group = tuple[StripView, int]
"""A strip and how many of it follow each other."""


def _height_of(strip: StripView, scale: float) -> float:
    return max(strip.height * scale, LEAST_HEIGHT_MM)


def _gap_below(strip: StripView, scale: float, sheet_mm: float) -> float:
    lines = _place_labels(strip, scale, sheet_mm)
    return GAP_MM + LINE_MM * max((line for line in lines if line), default=0)


def _split_pages(
    groups: Sequence[Group], scale: float, width_mm: float, max_height_mm: float
) -> list[list[Group]]:
    pages: list[list[Group]] = [[]]
    used = TOP_MM
    for group in groups:
        needed = _height_of(group[0], scale) + _gap_below(group[0], scale, width_mm)
        if pages[-1] and used + needed > max_height_mm:
            pages.append([])
            used = TOP_MM
        pages[-1].append(group)
        used += needed
    return pages


def _draw_sheet(
    cloth: ClothView,
    usable_mm: float,
    width_text: str,
    groups: Sequence[Group],
    scale: float,
    width_mm: float,
) -> str:
    height = TOP_MM + sum(
        _height_of(strip, scale) + _gap_below(strip, scale, width_mm) for strip, _ in groups
    )
    words = describe_strips(groups, width_text)
    sheet = Sheet(width_mm, height, title=f"Strips of {cloth.name}", description=words)
    _draw_usable(sheet, usable_mm, width_text)
    y = TOP_MM
    for strip, count in groups:
        high = _height_of(strip, scale)
        _draw_strip(
            sheet, strip, count, cloth, Lane(y, high, LABEL_MM + usable_mm, scale, high / strip.height)
        )
        y += high + _gap_below(strip, scale, width_mm)
    return sheet.to_svg()


def describe_strips(groups: Sequence[tuple[StripView, int]], width_text: str) -> str:
    """The strips in words."""
    parts = [
        f"{count} of {strip.text} high: "
        + (", ".join(f"{c.count} of {c.text}" for c in strip.cuts) or "kept whole")
        for strip, count in groups
    ]
    return f"Usable width {width_text}. " + "; ".join(parts)


def _draw_usable(sheet: Sheet, width_mm: float, text: str) -> None:
    left, right = LABEL_MM, LABEL_MM + width_mm
    for x in (left, right):
        sheet.line((x, 1.0), (x, 6.5), WITNESS)
    middle, half = (left + right) / 2, measure_words(f"usable width {text}", LETTER_MM) / 2 + 2.0
    sheet.line((left, 3.4), (max(left, middle - half), 3.4), WITNESS)
    sheet.line((min(right, middle + half), 3.4), (right, 3.4), WITNESS)
    write_words(sheet, (middle, 4.5), f"usable width {text}", LETTER_MM, anchor="middle")


@dataclass(frozen=True)
class Lane:
    """Where one strip lies on the sheet: mm, and mm an inch along and across it."""

    top: float
    height: float
    right: float
    along: float
    across: float


def _draw_strip(sheet: Sheet, strip: StripView, count: int, cloth: ClothView, lane: Lane) -> None:
    middle = lane.top + lane.height / 2
    if count > 1:
        write_words(sheet, (0.5, middle - 0.6), f"{count} strips", LETTER_MM, weight=600)
    write_words(sheet, (0.5, middle + (3.4 if count > 1 else 1.2)), strip.text, LETTER_MM, weight=700)
    sheet.box(LABEL_MM, lane.top, lane.right - LABEL_MM, lane.height, stroke=SELVEDGE)
    x = LABEL_MM
    for cut, line in zip(strip.cuts, _place_labels(strip, lane.along, sheet.width_mm), strict=True):
        _draw_cuts(sheet, cut, cloth, x, lane)
        _label_cuts(sheet, cut, x, lane, line)
        x += cut.count * cut.along * lane.along
    for y in (lane.top, lane.top + lane.height):
        sheet.line((LABEL_MM, y), (max(x, lane.right), y), CUT)


def _draw_cuts(sheet: Sheet, cut: CutInStrip, cloth: ClothView, x: float, lane: Lane) -> None:
    """A run of equal cuts side by side, with the diagonals they are cut on afterwards."""
    w, h = cut.along * lane.along, min(lane.height, cut.across * lane.across)
    boxes = [(x + index * w, lane.top, w, h) for index in range(cut.count)]
    shapes = [[[(bx, by), (bx + w, by), (bx + w, by + h), (bx, by + h)]] for bx, by, w, h in boxes]
    fill_cloth(sheet, shapes, cloth)
    draw_edges(sheet, "".join(trace_polygon(ring) for (ring,) in shapes), cloth.colour)
    draw_edges(sheet, trace_lines(_list_diagonals(boxes, cut.diagonals)), cloth.colour)


def _label_cuts(sheet: Sheet, cut: CutInStrip, x: float, lane: Lane, line: int | None) -> None:
    """Count and size below the run, or where there is no room for them the count alone on the cloth."""
    if line is not None:
        y = lane.top + lane.height + 4.0 + line * LINE_MM
        write_words(sheet, (x + 0.3, y), _say_run(cut), LETTER_MM)
        return
    width, height = cut.count * cut.along * lane.along, min(lane.height, cut.across * lane.across)
    size = min(LETTER_MM, height * 0.7)
    draw_tag(sheet, (x + width / 2, lane.top + height / 2), str(cut.count), size)


def _place_labels(strip: StripView, along: float, sheet_mm: float) -> list[int | None]:
    """For each run the line its words go on: the first that is free where the run begins; None without room."""
    free = [0.0] * LABEL_LINES
    lines: list[int | None] = []
    x = LABEL_MM
    for cut in strip.cuts:
        end = x + 0.3 + measure_words(_say_run(cut), LETTER_MM) + 2.0
        line = next((n for n, taken in enumerate(free) if taken <= x and end <= sheet_mm), None)
        if line is not None:
            free[line] = end
        lines.append(line)
        x += cut.count * cut.along * along
    return lines


def _say_run(cut: CutInStrip) -> str:
    return f"{cut.count} of {cut.text}" if cut.count > 1 else cut.text


def _list_diagonals(boxes: Sequence[Box], diagonals: int) -> list[tuple[Point, Point]]:
    rising = [((x, y + h), (x + w, y)) for x, y, w, h in boxes if diagonals >= 1]
    return rising + [((x, y), (x + w, y + h)) for x, y, w, h in boxes if diagonals >= 2]
