"""One strip on paper: its cuts from the left, each size with its letter, what is left over cross-hatched."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from service.craft.drawing.cloth import draw_edges, fill_cloth
from service.craft.drawing.hatch import hatch_lines
from service.craft.drawing.lettering import measure_words, write_words
from service.craft.drawing.sheet import Polygon, Sheet, trace_lines, trace_polygon
from service.craft.drawing.signs import draw_tag
from service.craft.drawing.styles import CUT, PAPER, PATCH_EDGE, WASTE, Stroke
from service.craft.drawing.views import ClothView, CutInStrip, StripView
from service.craft.language import phrase
from service.craft.outlines.affine import Point

Box = tuple[float, float, float, float]
"""Left, top, width, height in mm."""

LABEL_MM = 27.0
"""Room on the left for which strips these are, how many and how high."""

SELVEDGE = Stroke(0.35, dash_mm=(0.7, 0.7))
"""Where the cloth ends, left and right."""

LABEL_LINES, LINE_MM = 2, 4.2
"""Words under a strip stand on one line or two, so far below each other."""

LETTER_MM = 3.4
GAP_MM = 6.5
LEAST_BELOW_MM = 3.0
WASTE_MM, WASTE_ANGLES = 2.2, (45.0, 135.0)
SMALLEST_TAG_MM = 1.7
HAIR_MM = 0.05
"""Less than this on paper is nothing."""


@dataclass(frozen=True)
class Lane:
    """Where one strip lies on its sheet: mm, and mm an inch, the same both ways."""

    top: float
    height: float
    usable: float
    scale: float


def draw_lane(sheet: Sheet, strip: StripView, cloth: ClothView, lane: Lane) -> None:
    """The strip with its cuts, sizes below them, and the rest of the cloth hatched."""
    draw_waste(sheet, list_waste(strip, lane))
    x = LABEL_MM
    lines = _place_labels(strip, lane, sheet.width_mm)
    for cut, line in zip(strip.cuts, lines, strict=True):
        _draw_cuts(sheet, cut, cloth, x, lane)
        _label_cuts(sheet, cut, x, lane, line)
        x += cut.count * cut.along * lane.scale
    draw_frame(sheet, lane, x)


def draw_frame(sheet: Sheet, lane: Lane, end: float) -> None:
    """The cuts that part a strip from the cloth, as far as its pieces (`end`, mm) or the cloth; and its edges."""
    right = max(end, LABEL_MM + lane.usable)
    for y in (lane.top, lane.top + lane.height):
        sheet.line((LABEL_MM, y), (right, y), CUT)
    for edge in (LABEL_MM, LABEL_MM + lane.usable):
        sheet.line((edge, lane.top), (edge, lane.top + lane.height), SELVEDGE)


def gap_below(strip: StripView, lane: Lane, sheet_mm: float) -> float:
    """Room for the words under a strip, and the air to the next; enough for the words on its left."""
    lines = _place_labels(strip, lane, sheet_mm)
    words = GAP_MM + LINE_MM * max((line for line in lines if line), default=0)
    return max(words if strip.cuts or strip.columns else LEAST_BELOW_MM, 9.0 - lane.height)


def say_run(cut: CutInStrip) -> str:
    """A run of cuts in words, its letter first.

    >>> say_run(CutInStrip(3, 4.0, 4.0, "4 in square", letter="b")), say_run(CutInStrip(1, 4.0, 4.0, "4 in square"))
    ('b  3 of 4 in square', '4 in square')
    """
    words = phrase("{count} of {size}", count=cut.count, size=cut.text) if cut.count > 1 else cut.text
    return f"{cut.letter}  {words}" if cut.letter else words


def list_waste(strip: StripView, lane: Lane) -> list[Box]:
    """What is left over of a strip, as boxes on paper: above lower cuts, and behind the last."""
    left: list[Box] = []
    x = LABEL_MM
    for cut in strip.cuts:
        wide, high = cut.count * cut.along * lane.scale, cut.across * lane.scale
        left.append((x, lane.top + high, wide, lane.height - high))
        x += wide
    left.append((x, lane.top, LABEL_MM + lane.usable - x, lane.height))
    return [box for box in left if box[2] > HAIR_MM and box[3] > HAIR_MM]


def draw_waste(sheet: Sheet, boxes: Sequence[Box]) -> None:
    """What is left over, cross-hatched on paper."""
    shapes = [[corners_of(box)] for box in boxes]
    sheet.open_part("waste")
    sheet.path("".join(trace_polygon(ring) for (ring,) in shapes), fill=PAPER)
    for degrees in WASTE_ANGLES:
        sheet.path(trace_lines(hatch_lines(shapes, spacing_mm=WASTE_MM, degrees=degrees)), stroke=WASTE)
    sheet.close_part()


def _draw_cuts(sheet: Sheet, cut: CutInStrip, cloth: ClothView, x: float, lane: Lane) -> None:
    """A run of equal cuts side by side, with the diagonals they are cut on afterwards."""
    w, h = cut.along * lane.scale, cut.across * lane.scale
    boxes = [(x + index * w, lane.top, w, h) for index in range(cut.count)]
    shapes = [[corners_of(box)] for box in boxes]
    fill_cloth(sheet, shapes, cloth)
    draw_edges(sheet, "".join(trace_polygon(ring) for (ring,) in shapes), cloth.colour)
    lines = [*_list_diagonals(boxes, cut.diagonals), *_list_slants(boxes, cut.diamonds)]
    draw_edges(sheet, trace_lines(lines), cloth.colour)
    if h < lane.height - HAIR_MM:
        sheet.line((x, lane.top + h), (x + cut.count * w, lane.top + h), PATCH_EDGE)
    _write_letters(sheet, cut, boxes)


def _write_letters(sheet: Sheet, cut: CutInStrip, boxes: Sequence[Box]) -> None:
    """The letter of the size on each cut, or, where it finds no room there, once in the middle of the run."""
    if not cut.letter:
        return
    left, top, w, h = boxes[0]
    size = min(LETTER_MM, h * 0.62, w * 0.8)
    if size >= SMALLEST_TAG_MM:
        for x, y, _, _ in boxes:
            draw_tag(sheet, (x + w / 2, y + h / 2), cut.letter, size)
        return
    size = min(LETTER_MM, max(h * 0.75, SMALLEST_TAG_MM))
    draw_tag(sheet, (left + w * len(boxes) / 2, top + h / 2), cut.letter, size)


def _label_cuts(sheet: Sheet, cut: CutInStrip, x: float, lane: Lane, line: int | None) -> None:
    """Count and size below the run, or where there is no room for them the count alone on the cloth."""
    if line is not None:
        y = lane.top + lane.height + 4.0 + line * LINE_MM
        write_words(sheet, (x + 0.3, y), say_run(cut), LETTER_MM)
        return
    width, height = cut.count * cut.along * lane.scale, cut.across * lane.scale
    size = min(LETTER_MM, height * 0.7)
    words = f"{cut.count} {cut.letter}" if cut.letter else str(cut.count)
    draw_tag(sheet, (x + width / 2, lane.top + height / 2), words, size)


def _place_labels(strip: StripView, lane: Lane, sheet_mm: float) -> list[int | None]:
    """For each run the line its words go on: the first that is free where the run begins; None without room."""
    free = [0.0] * LABEL_LINES
    lines: list[int | None] = []
    x = LABEL_MM
    for cut in strip.cuts:
        end = x + 0.3 + measure_words(say_run(cut), LETTER_MM) + 2.0
        line = next((n for n, taken in enumerate(free) if taken <= x and end <= sheet_mm), None)
        if line is not None:
            free[line] = end
        lines.append(line)
        x += cut.count * cut.along * lane.scale
    return lines


def corners_of(box: Box) -> Polygon:
    """The corners of a box."""
    x, y, w, h = box
    return [(x, y), (x + w, y), (x + w, y + h), (x, y + h)]


def _list_diagonals(boxes: Sequence[Box], diagonals: int) -> list[tuple[Point, Point]]:
    rising = [((x, y + h), (x + w, y)) for x, y, w, h in boxes if diagonals >= 1]
    return rising + [((x, y), (x + w, y + h)) for x, y, w, h in boxes if diagonals >= 2]


def _list_slants(boxes: Sequence[Box], diamonds: int) -> Iterator[tuple[Point, Point]]:
    """Cuts at 45 degrees across each box between so many diamonds, from the corner on where the first is cut."""
    for x, y, w, h in boxes if diamonds else ():
        step = abs(w - h) / diamonds
        for n in range(diamonds + 1):
            if w >= h:
                yield (x + n * step, y + h), (x + n * step + h, y)
            else:
                yield (x, y + n * step), (x + w, y + n * step + w)
