"""What is cut for one unit: each square or rectangle with its size, its diagonal cuts and the seams beside them."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely.geometry import LineString, box

from service.craft.drawing.cloth import UNKNOWN_CLOTH, draw_edges, fill_cloth
from service.craft.drawing.lettering import measure_words, write_words
from service.craft.drawing.sheet import Sheet, trace_polygon
from service.craft.drawing.signs import DIMENSION_ROOM_MM, DIMENSION_SIZE_MM, draw_height, draw_width
from service.craft.drawing.styles import CUT, PAPER, SEW, Stroke
from service.craft.drawing.top import PAGE_WIDTH_MM
from service.craft.drawing.views import ClothView
from service.craft.measure import format_length
from service.craft.outlines.affine import Point
from service.craft.units import CuttingRules, HalfSquareTriangle, Need, Unit
from service.craft.units.base import ONCE, TWICE
from service.craft.units.half_square_triangle import EIGHT, FOUR

LARGEST_MM, LEAST_MM = 40.0, 12.0
"""The sides of what is drawn; a strip is drawn shorter than it is."""

SHOWN = 3.0
"""The scale takes a cut as at most so many times as long as wide."""

GAP_MM = 7.0
LEAST_SEAM_MM = 1.2
"""A seam closer to its cut on paper would run into it."""

WORDS_MM, LINE_MM = 3.2, 4.4

Line = tuple[Point, Point]

FALLING: Line = ((0.0, 0.0), (1.0, 1.0))
RISING: Line = ((0.0, 1.0), (1.0, 0.0))
UPRIGHT: Line = ((0.5, 0.0), (0.5, 1.0))
LEVEL: Line = ((0.0, 0.5), (1.0, 0.5))


@dataclass(frozen=True)
class CutView:
    """One cut of a unit: size in inches and in words, its cloth's key, and what is done with it.

    `cuts` are lines in shares of its sides; `beside` says which of them have a seam on both sides, at
    `seam` inches; `around` says that it is sewn all round.
    """

    width: float
    height: float
    width_text: str
    height_text: str
    cloth: str
    words: tuple[str, ...]
    cuts: tuple[Line, ...] = ()
    beside: tuple[Line, ...] = ()
    around: bool = False
    seam: float = 0.0

    @property
    def size(self) -> str:
        """Both sides in words."""
        return f"{self.width_text} by {self.height_text}"


def view_cuts(unit: Unit, rules: CuttingRules, measure: str) -> list[CutView]:
    """The cuts for a unit's own patches, in the order of its cloths; a unit without patches of its own has none."""
    return [_view_cut(need, unit, rules, measure) for need in dict.fromkeys(unit.needs(rules))]


def _view_cut(need: Need, unit: Unit, rules: CuttingRules, measure: str) -> CutView:
    cuts, beside, around = _find_lines(need, unit)
    return CutView(
        width=float(need.width),
        height=float(need.height),
        width_text=format_length(need.width, measure),
        height_text=format_length(need.height, measure),
        cloth=need.fabric,
        words=_say(need),
        cuts=cuts,
        beside=beside,
        around=around,
        seam=float(rules.seam_allowance),
    )


def _find_lines(need: Need, unit: Unit) -> tuple[tuple[Line, ...], tuple[Line, ...], bool]:
    """The cuts across a square, those with seams on both sides, and whether it is sewn all round."""
    if need.then == ONCE:
        return (RISING,), (), False
    if need.then == TWICE:
        return (FALLING, RISING), (), False
    if not need.method:
        return (), (), False
    if isinstance(unit, HalfSquareTriangle) and need.method == FOUR:
        return (FALLING, RISING), (), True
    if isinstance(unit, HalfSquareTriangle) and need.method == EIGHT:
        return (FALLING, RISING, UPRIGHT, LEVEL), (FALLING, RISING), False
    if need.makes == 4 and need.sets == 1:
        # a square for two quarter-square units or four geese: sewn along one diagonal first, then along the other
        return (FALLING, RISING), (RISING,), False
    return (RISING,), (RISING,), False


def _say(need: Need) -> tuple[str, ...]:
    count = f"{need.pieces} of these" if need.makes == 1 and need.pieces > 1 else ""
    gives = f"gives {need.makes}" if need.makes > 1 else ""
    how = f"sewn {need.method}" if need.method else need.then
    return tuple(words for words in (count or gives, how) if words)


def draw_cuts(
    views: Sequence[CutView],
    cloths: Mapping[str, ClothView],
    *,
    title: str,
    max_width_mm: float = PAGE_WIDTH_MM,
) -> str:
    """Cuts side by side, in lines as they fit, to one scale: cut lines solid, seams dashed, sizes outside.

    A long strip is drawn shorter than it is; its size is written all the same.
    """
    cells, height = _place(views, cloths, max_width_mm)
    said = ". ".join(" ".join([view.size, *_lines_below(view, cloths)]) for view in views)
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
    scale = LARGEST_MM / max(
        (min(max(v.width, v.height), SHOWN * min(v.width, v.height)) for v in views), default=1
    )
    cells: list[_Cell] = []
    x, y, tallest = 0.0, 1.0, 0.0
    for view in views:
        width, height = (min(LARGEST_MM, max(LEAST_MM, side * scale)) for side in (view.width, view.height))
        words = [measure_words(line, WORDS_MM) for line in _lines_below(view, cloths)]
        room = DIMENSION_ROOM_MM + max(width + 2.0, *words, measure_words(view.width_text, DIMENSION_SIZE_MM))
        if x and x + room > max_width_mm:
            x, y, tallest = 0.0, y + tallest, 0.0
        cells.append(_Cell(view, x + DIMENSION_ROOM_MM, y, width, height, scale))
        x += room + GAP_MM
        tallest = max(tallest, height + DIMENSION_ROOM_MM + LINE_MM * len(words) + GAP_MM)
    return cells, y + tallest


def _draw_cell(sheet: Sheet, cell: _Cell, cloths: Mapping[str, ClothView]) -> None:
    view, right, bottom = cell.view, cell.x + cell.width, cell.y + cell.height
    corners = [(cell.x, cell.y), (right, cell.y), (right, bottom), (cell.x, bottom)]
    cloth = cloths.get(view.cloth, UNKNOWN_CLOTH)
    fill_cloth(sheet, [[corners]], cloth)
    draw_edges(sheet, trace_polygon(corners), cloth.colour)
    for line in _seams(cell):
        _rule(sheet, line, SEW)
    for start, end in view.cuts:
        _rule(sheet, (_on(cell, start), _on(cell, end)), CUT)
    draw_width(sheet, cell.x, right, bottom, view.width_text)
    draw_height(sheet, cell.y, bottom, cell.x, view.height_text)
    for number, words in enumerate(_lines_below(view, cloths)):
        place = (cell.x, bottom + DIMENSION_ROOM_MM + LINE_MM * (number + 0.7))
        write_words(sheet, place, words, WORDS_MM)


def _rule(sheet: Sheet, line: Line, stroke: Stroke) -> None:
    """A line that shows on any cloth: on a bed of paper."""
    sheet.line(*line, Stroke(stroke.width_mm * 2.6, PAPER))
    sheet.line(*line, stroke)


def _seams(cell: _Cell) -> Iterator[Line]:
    """The seams of a cut on the sheet: on both sides of lines, or all round."""
    square = box(cell.x, cell.y, cell.x + cell.width, cell.y + cell.height)
    away = max(cell.view.seam * cell.scale, LEAST_SEAM_MM)
    if cell.view.around:
        ring = list(square.buffer(-away, join_style="mitre").exterior.coords)
        yield from pairwise((x, y) for x, y, *_ in ring)
    for start, end in cell.view.beside:
        line = LineString([_on(cell, start), _on(cell, end)])
        for side in (away, -away):
            part = line.parallel_offset(abs(side), "left" if side > 0 else "right").intersection(square)
            if not part.is_empty:
                (x, y, *_), *_, (x2, y2, *_) = part.coords
                yield (x, y), (x2, y2)


def _on(cell: _Cell, share: Point) -> Point:
    return cell.x + share[0] * cell.width, cell.y + share[1] * cell.height


def _lines_below(view: CutView, cloths: Mapping[str, ClothView]) -> list[str]:
    """The cloth with its letter, then what is done."""
    cloth = cloths.get(view.cloth, UNKNOWN_CLOTH)
    return [f"{cloth.letter}  {cloth.name}", *view.words]
