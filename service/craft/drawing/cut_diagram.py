"""What is cut for one unit, drawn: each cut with its size, the lines to cut on and to sew on, or its template."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely.geometry import LineString, Polygon, box

from service.craft.drawing.cloth import UNKNOWN_CLOTH, draw_edges, fill_cloth
from service.craft.drawing.cut_views import CutView, Line
from service.craft.drawing.lettering import measure_words, write_words
from service.craft.drawing.sheet import Sheet, trace_polygon
from service.craft.drawing.signs import DIMENSION_ROOM_MM, DIMENSION_SIZE_MM, draw_height, draw_width
from service.craft.drawing.styles import CUT, PAPER, SEW, WITNESS, Stroke
from service.craft.drawing.top import PAGE_WIDTH_MM
from service.craft.drawing.views import ClothView
from service.craft.language import mark, phrase
from service.craft.outlines.affine import Point

LARGEST_MM, LEAST_MM = 40.0, 12.0
"""The sides of what is drawn; a strip is drawn shorter than it is, unless it is cut at a slant."""

LONGEST_MM = 130.0
"""A strip that is cut into diamonds is drawn as long as it is, up to here."""

SHOWN = 3.0
"""The scale takes a cut as at most so many times as long as wide."""

GAP_MM = 7.0
LEAST_SEAM_MM = 1.2
"""A seam closer to its cut on paper would run into it."""

WORDS_MM, LINE_MM = 3.2, 4.4

ROOT_2 = 2**0.5
SHORTER = mark("drawn shorter than it is")


def draw_cuts(
    views: Sequence[CutView],
    cloths: Mapping[str, ClothView],
    *,
    title: str,
    max_width_mm: float = PAGE_WIDTH_MM,
) -> str:
    """Cuts side by side, in lines as they fit, to one scale, small ones larger: cut lines solid, seams dashed.

    A long strip is drawn shorter than it is, and says so; its size is written all the same.
    """
    cells, height = _place(views, cloths, max_width_mm)
    said = ". ".join(" ".join([c.view.size, *_lines_below(c.view, cloths, c.scale)]) for c in cells)
    sheet = Sheet(max_width_mm, height, title=title, description=said)
    for cell in cells:
        _draw_cell(sheet, cell, cloths)
    return sheet.to_svg()


@dataclass(frozen=True)
class _Cell:
    """One cut where it lies on the sheet: the corner of its box, its sides and its scale, in mm."""

    view: CutView
    x: float
    y: float
    width: float
    height: float
    scale: float


def _place(
    views: Sequence[CutView], cloths: Mapping[str, ClothView], max_width_mm: float
) -> tuple[list[_Cell], float]:
    """Every cell, line after line, and the height of the whole."""
    common = min((_find_scale(view) for view in views), default=1.0)
    cells: list[_Cell] = []
    x, y, tallest = 0.0, 1.0, 0.0
    for view in views:
        scale = _scale_up(view, common)
        width, height = _measure_cell(view, scale)
        words = [measure_words(line, WORDS_MM) for line in _lines_below(view, cloths, scale)]
        room = DIMENSION_ROOM_MM + max(width + 2.0, *words, measure_words(view.width_text, DIMENSION_SIZE_MM))
        if x and x + room > max_width_mm:
            x, y, tallest = 0.0, y + tallest, 0.0
        cells.append(_Cell(view, x + DIMENSION_ROOM_MM, y, width, height, scale))
        x += room + GAP_MM
        tallest = max(tallest, height + DIMENSION_ROOM_MM + LINE_MM * len(words) + GAP_MM)
    return cells, y + tallest


def _find_scale(view: CutView) -> float:
    """Millimetres an inch at which one cut fills its cell."""
    long, short = max(view.width, view.height), min(view.width, view.height)
    if view.diamonds:
        return min(LARGEST_MM / short, LONGEST_MM / long)
    return LARGEST_MM / min(long, SHOWN * short)


def _scale_up(view: CutView, common: float) -> float:
    """The scale of one cut among others: theirs, or a larger one where it would be too small to see."""
    slanting = view.diamonds or view.shape
    return common if slanting else max(common, LEAST_MM / min(view.width, view.height))


def _measure_cell(view: CutView, scale: float) -> tuple[float, float]:
    """A cut's sides on paper in mm: angles stay true where there is something slanting in it."""
    if view.diamonds or view.shape:
        return view.width * scale, view.height * scale
    return min(LARGEST_MM, view.width * scale), min(LARGEST_MM, view.height * scale)


def _draw_cell(sheet: Sheet, cell: _Cell, cloths: Mapping[str, ClothView]) -> None:
    view, right, bottom = cell.view, cell.x + cell.width, cell.y + cell.height
    cloth = cloths.get(view.cloth, UNKNOWN_CLOTH)
    box_corners = [(cell.x, cell.y), (right, cell.y), (right, bottom), (cell.x, bottom)]
    corners = [_on(cell, share) for share in view.shape] or box_corners
    fill_cloth(sheet, [[corners]], cloth)
    draw_edges(sheet, trace_polygon(corners), cloth.colour)
    if view.shape:
        sheet.polygon(box_corners, stroke=WITNESS)
        sheet.polygon(corners, stroke=CUT)
    for line in _seams(cell):
        _rule(sheet, line, SEW)
    for line in _cuts(cell):
        _rule(sheet, line, CUT)
    draw_width(sheet, cell.x, right, bottom, view.width_text)
    draw_height(sheet, cell.y, bottom, cell.x, view.height_text)
    for number, words in enumerate(_lines_below(view, cloths, cell.scale)):
        place = (cell.x, bottom + DIMENSION_ROOM_MM + LINE_MM * (number + 0.7))
        write_words(sheet, place, words, WORDS_MM)


def _rule(sheet: Sheet, line: Line, stroke: Stroke) -> None:
    """A line that shows on any cloth: on a bed of paper."""
    sheet.line(*line, Stroke(stroke.width_mm * 2.6, PAPER))
    sheet.line(*line, stroke)


def _cuts(cell: _Cell) -> Iterator[Line]:
    """The lines to cut on: across squares, at a slant across strips, beside the seam of a corner folded back."""
    for start, end in cell.view.cuts:
        yield _on(cell, start), _on(cell, end)
    yield from _slants(cell)
    for start, end in cell.view.folded:
        yield from _beside(cell, (_on(cell, start), _on(cell, end)), sides=(1.0,))


def _slants(cell: _Cell) -> Iterator[Line]:
    """Cuts at 45 degrees between the diamonds of a strip, whose short side is its width."""
    count, (left, top, width, height) = cell.view.diamonds, (cell.x, cell.y, cell.width, cell.height)
    if not count:
        return
    long, short = max(width, height), min(width, height)
    # slanting cuts as far apart as the strip is wide are √2 times that along it; the rest is left over at the end
    step = min(short * ROOT_2, (long - short) / count)
    for n in range(count + 1):
        if width >= height:
            yield (left + n * step, top + height), (left + n * step + height, top)
        else:
            yield (left, top + n * step), (left + width, top + n * step + width)


def _seams(cell: _Cell) -> Iterator[Line]:
    """The seams of a cut on the sheet: on a line, on both sides of one, all round, or inside a template."""
    if cell.view.around:
        ring = list(_box(cell).buffer(-_away(cell), join_style="mitre").exterior.coords)
        yield from pairwise((x, y) for x, y, *_ in ring)
    for start, end in cell.view.beside:
        yield from _beside(cell, (_on(cell, start), _on(cell, end)), sides=(1.0, -1.0))
    for start, end in cell.view.folded:
        yield _on(cell, start), _on(cell, end)
    inner = [_on(cell, share) for share in cell.view.seam_line]
    yield from pairwise([*inner, *inner[:1]])


def _beside(cell: _Cell, line: Line, *, sides: Sequence[float]) -> Iterator[Line]:
    """Lines in the cell at the seam allowance from a line, on one side of it or on both."""
    square = _box(cell)
    for side in sides:
        part = (
            LineString(line)
            .parallel_offset(_away(cell), "left" if side > 0 else "right")
            .intersection(square)
        )
        if not part.is_empty:
            (x, y, *_), *_, (x2, y2, *_) = part.coords
            yield (x, y), (x2, y2)


def _away(cell: _Cell) -> float:
    return max(cell.view.seam * cell.scale, LEAST_SEAM_MM)


def _box(cell: _Cell) -> Polygon:
    return box(cell.x, cell.y, cell.x + cell.width, cell.y + cell.height)


def _on(cell: _Cell, share: Point) -> Point:
    return cell.x + share[0] * cell.width, cell.y + share[1] * cell.height


def _lines_below(view: CutView, cloths: Mapping[str, ClothView], scale: float) -> list[str]:
    """The cloth with its letter, then what is done; and whether it is not drawn true."""
    cloth = cloths.get(view.cloth, UNKNOWN_CLOTH)
    width, height = _measure_cell(view, scale)
    true = math.isclose(width / height, view.width / view.height, rel_tol=0.01)
    return [f"{cloth.letter}  {cloth.name}", *view.words, *([] if true else [phrase(SHORTER)])]
