"""What finishes a quilt, drawn: panels of a back, strips on the bias, and the tube that gives one continuous strip."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from service.craft.drawing.cloth import draw_edges, fill_cloth
from service.craft.drawing.lettering import write_words
from service.craft.drawing.sheet import Sheet, trace_lines, trace_polygon
from service.craft.drawing.signs import DIMENSION_ROOM_MM, draw_height, draw_number, draw_tag, draw_width
from service.craft.drawing.stages import STAGE_HEIGHT_MM, STAGE_WIDTH_MM
from service.craft.drawing.styles import CUT, FOLD, PATCH_EDGE, SEW, WITNESS
from service.craft.drawing.top import fit_into
from service.craft.drawing.views import ClothView
from service.craft.language import phrase
from service.craft.outlines.affine import Point

Lines = Sequence[tuple[Point, Point]]

TAG_MM = 3.2
GAP_MM = 4.0
NUMBER_ROOM_MM = 6.0


@dataclass(frozen=True)
class BackView:
    """A back of `width` by `height` inches, its panels by their widths in words, and where the seams lie.

    `seams` are inches from the left edge, or from the upper one where they run `across`.
    """

    cloth: ClothView
    width: float
    height: float
    width_text: str
    height_text: str
    panels: tuple[str, ...]
    seams: tuple[float, ...]
    across: bool = False


def draw_back(
    view: BackView, *, max_width_mm: float = STAGE_WIDTH_MM, max_height_mm: float = STAGE_HEIGHT_MM
) -> str:
    """The back as SVG: its seams, the fold in the middle dotted, and how wide every panel is cut."""
    fit = fit_into(view.width, view.height, max_width_mm - 1.0, max_height_mm - 1.0, DIMENSION_ROOM_MM)
    right, bottom = fit.point((view.width, view.height))
    words = phrase(
        "{count} panels, cut {widths} wide; the dotted line is the fold in the middle.",
        count=len(view.panels),
        widths=", ".join(view.panels),
    )
    sheet = Sheet(
        right + 1.0, bottom + DIMENSION_ROOM_MM, title=phrase("The back and its seams"), description=words
    )
    whole = [fit.point(p) for p in ((0, 0), (view.width, 0), (view.width, view.height), (0, view.height))]
    fill_cloth(sheet, [[whole]], view.cloth)
    draw_edges(sheet, trace_polygon(whole), view.cloth.colour)
    long = view.height if view.across else view.width
    seams = [_across_at(view, place) for place in view.seams]
    draw_edges(sheet, trace_lines([(fit.point(a), fit.point(b)) for a, b in seams]), view.cloth.colour)
    start, end = _across_at(view, long / 2)
    sheet.line(fit.point(start), fit.point(end), FOLD)
    edges = [0.0, *view.seams, long]
    for text, (low, high) in zip(view.panels, pairwise(edges), strict=True):
        draw_tag(sheet, fit.point(_middle(view, (low + high) / 2)), text, TAG_MM)
    draw_width(sheet, fit.left, right, bottom, view.width_text)
    draw_height(sheet, fit.top, bottom, fit.left, view.height_text)
    return sheet.to_svg()


def _across_at(view: BackView, place: float) -> tuple[Point, Point]:
    if view.across:
        return (0.0, place), (view.width, place)
    return (place, 0.0), (place, view.height)


def _middle(view: BackView, place: float) -> Point:
    """Where a panel's words stand: off the fold, which runs through the middle of the back."""
    return (view.width / 2, place) if view.across else (place, view.height / 3)


def draw_bias_strips(
    cloth: ClothView,
    width: float,
    height: float,
    strip: float,
    *,
    max_width_mm: float = STAGE_WIDTH_MM,
    max_height_mm: float = STAGE_HEIGHT_MM,
) -> str:
    """Where a piece of `width` by `height` inches is cut into bias strips: the first cut numbered, corners left bare.

    The first cut runs from the upper right corner down to the left at 45 degrees.
    """
    fit = fit_into(width, height, max_width_mm - 1.0, max_height_mm - 1.0, NUMBER_ROOM_MM / 2)
    right, bottom = fit.point((width, height))
    places = _list_cuts(width, height, strip * math.sqrt(2))
    words = phrase(
        "{count} strips. The first cut is numbered 1; the bare corners are left over.", count=len(places) - 1
    )
    sheet = Sheet(right + 1.0, bottom + 1.0, title=phrase("Cutting on the bias"), description=words)
    band = [p for place in (places[0], places[-1]) for p in _slant(width, height, place)]
    used = _order_band(band, width, height, places)
    shape = [fit.point(p) for p in used]
    fill_cloth(sheet, [[shape]], replace(cloth, hatched=False))
    outline = [fit.point(p) for p in ((0, 0), (width, 0), (width, height), (0, height))]
    sheet.polygon(outline, stroke=PATCH_EDGE)
    cuts = [tuple(fit.point(p) for p in _slant(width, height, place)) for place in places]
    draw_edges(sheet, trace_lines([(a, b) for a, b in cuts]), cloth.colour)
    first = tuple(fit.point(p) for p in _slant(width, height, width))
    sheet.line(first[0], first[1], CUT)
    draw_number(sheet, ((first[0][0] + first[1][0]) / 2, (first[0][1] + first[1][1]) / 2), 1)
    return sheet.to_svg()


def _list_cuts(width: float, height: float, step: float) -> list[float]:
    """Where x + y is on each cut: from the first, at `width`, both ways while a strip of use is left."""
    before = _count_in_corner(width, step)
    after = int((height - width) / step + 1e-9)
    rest = width + after * step
    return [width - step * k for k in range(before, 0, -1)] + [
        *(width + step * k for k in range(after + 1)),
        *(rest + step * k for k in range(1, before + 1)),
    ]


def _count_in_corner(side: float, step: float) -> int:
    """How many strips a corner triangle of that side gives: the middle of each at least twice as long as it is wide.

    The first is shorter than the triangle's long side by a strip's width, each further one by two.
    """
    return math.floor((2 * side / step - 1) / 2 + 1e-9)


def _slant(width: float, height: float, place: float) -> tuple[Point, Point]:
    """The line x + y = place inside the piece, from its upper end to its lower one."""
    return (min(width, place), place - min(width, place)), (max(0.0, place - height), min(height, place))


def _order_band(ends: Sequence[Point], width: float, height: float, places: Sequence[float]) -> list[Point]:
    """The part of the piece between the first and the last cut, its corners in order."""
    (a, b), (c, d) = (ends[0], ends[1]), (ends[2], ends[3])
    upper = [(width, 0.0)] if places[0] < width < places[-1] else []
    lower = [(0.0, height)] if places[0] < height < places[-1] else []
    return [a, *upper, c, d, *lower, b]


def draw_bias_tube(
    cloth: ClothView, side: float, strip: float, *, max_width_mm: float = STAGE_WIDTH_MM
) -> str:
    """Three pictures: the square cut on its diagonal, the leaning piece with its lines, its edges moved on by one."""
    cloth = replace(cloth, hatched=False)
    mm = (max_width_mm - 2 * GAP_MM - 2.0) / 3
    top = NUMBER_ROOM_MM
    sheet = Sheet(
        max_width_mm,
        top + 2 * mm + 1.0,
        title=phrase("From a square to one continuous strip"),
        description=phrase(
            "1: cut on the diagonal. 2: a sewn to a, and lines drawn. 3: b sewn to b, moved on by one line."
        ),
    )
    lefts = [1.0 + index * (mm + GAP_MM) for index in range(3)]
    for number, left in enumerate(lefts, start=1):
        draw_number(sheet, (left + 2.4, 2.8), number)
    _draw_square(sheet, cloth, (lefts[0], top), mm)
    _draw_leaning(sheet, cloth, (lefts[1], top), mm, strip * math.sqrt(2) * mm / side)
    _draw_moved_on(sheet, cloth, (lefts[2], top), mm)
    return sheet.to_svg()


def _draw_square(sheet: Sheet, cloth: ClothView, at: Point, mm: float) -> None:
    x, y = at
    square = [(x, y), (x + mm, y), (x + mm, y + mm), (x, y + mm)]
    fill_cloth(sheet, [[square]], cloth)
    draw_edges(sheet, trace_polygon(square), cloth.colour)
    draw_edges(sheet, trace_lines([((x, y), (x + mm, y + mm))]), cloth.colour, edge=CUT)
    draw_tag(sheet, (x + mm / 2, y + 2.2), "a", TAG_MM)
    draw_tag(sheet, (x + mm / 2, y + mm - 2.2), "a", TAG_MM)


def _draw_leaning(sheet: Sheet, cloth: ClothView, at: Point, mm: float, step: float) -> None:
    """The two halves sewn together along a; lines beside the slanting edges, and bare what is too narrow at the end."""
    x, y = at
    whole = [(x, y), (x + mm, y + mm), (x + mm, y + 2 * mm), (x, y + mm)]
    used = step * int(mm / step + 1e-9)
    fill_cloth(sheet, [[[*whole[:2], (x + mm, y + mm + used), (x, y + used)]]], cloth)
    draw_edges(sheet, trace_polygon(whole), cloth.colour)
    count = int(mm / step + 1e-9)
    lines = [
        ((x, y + step * k), (x + mm, y + mm + step * k)) for k in range(1, count + 1) if step * k < mm - 1e-6
    ]
    draw_edges(sheet, trace_lines(lines), cloth.colour, edge=WITNESS)
    draw_edges(sheet, trace_lines([((x, y + mm), (x + mm, y + mm))]), cloth.colour, edge=SEW)
    draw_tag(sheet, (x + 2.0, y + mm * 0.62), "b", TAG_MM)
    draw_tag(sheet, (x + mm - 2.0, y + mm * 1.38), "b", TAG_MM)


def _draw_moved_on(sheet: Sheet, cloth: ClothView, at: Point, mm: float) -> None:
    """A close look at the seam of the tube: every line meets the next one, and a strip's width stands out."""
    (x, y), half = at, mm / 2
    step, lines = mm * 0.25, 3
    seam, first = x + half, y + half

    def left(number: int) -> tuple[Point, Point]:
        return (x, first + number * step - half), (seam, first + number * step)

    def right(number: int) -> tuple[Point, Point]:
        return (seam, first + number * step), (x + mm, first + number * step + half)

    for side, low in ((left, 0), (right, 1)):
        (a, b), (c, d) = side(low), side(low + lines)
        fill_cloth(sheet, [[[a, b, d, c]]], cloth)
    drawn = [left(k) for k in range(1, lines)] + [right(k) for k in range(2, lines + 1)]
    draw_edges(sheet, trace_lines(drawn), cloth.colour, edge=WITNESS)
    ends = [(left(k)[1], left(k + 1)[1]) for k in (0, lines)]
    edges = [left(0), left(lines), right(1), right(lines + 1), *ends]
    draw_edges(sheet, trace_lines(edges), cloth.colour)
    draw_edges(sheet, trace_lines([(left(1)[1], left(lines)[1])]), cloth.colour, edge=SEW)
    write_words(sheet, (seam - 1.6, first + lines * step + 3.6), "b", TAG_MM, weight=600, anchor="end")
    write_words(sheet, (seam + 1.6, first + step - 1.6), "b", TAG_MM, weight=600)
