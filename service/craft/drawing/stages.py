"""What one sewing stage makes: patches, seams, where their allowances are pressed, what it measures."""

from __future__ import annotations

import math
from collections.abc import Sequence

from shapely import maximum_inscribed_circle
from shapely.geometry import Polygon
from shapely.ops import unary_union

from service.craft.drawing.cloth import draw_legend, draw_patches, legend_height_mm, used_cloths
from service.craft.drawing.lettering import measure_words, write_words
from service.craft.drawing.sheet import Polygon as Drawn
from service.craft.drawing.sheet import Sheet, trace_polygon
from service.craft.drawing.signs import (
    DIMENSION_ROOM_MM,
    WEDGE_MM,
    draw_height,
    draw_number,
    draw_tag,
    draw_wedge,
    draw_width,
)
from service.craft.drawing.styles import PAPER, PATCH_EDGE, SEW, SEWN, Stroke
from service.craft.drawing.top import PAGE_WIDTH_MM, Fit, fit_into
from service.craft.drawing.views import SeamView, StageView
from service.craft.language import mark, phrase
from service.craft.outlines.affine import Point

STAGE_WIDTH_MM, STAGE_HEIGHT_MM = 66.0, 54.0
DIRECTIONS = {"left": (-1.0, 0.0), "right": (1.0, 0.0), "up": (0.0, -1.0), "down": (0.0, 1.0)}
LETTER_MM = 3.6
FOOT_SHARES = (0.5, 0.62, 0.38, 0.74, 0.26, 0.86, 0.14)
"""Where along a seam its wedge may stand, the best place first."""

CLEAR_MM = (WEDGE_MM + LETTER_MM * 1.25) / 2
"""How far the middles of a wedge and a letter keep apart, across or up and down."""
NOTE_MM = 3.4
KEY_LETTER_MM = 3.2
KEY_WORDS = (
    mark("the seam you sew now"),
    mark("its allowance is pressed to this side"),
    mark("a seam already sewn"),
)

PRESSED = {
    "left": mark("left"),
    "right": mark("right"),
    "up": mark("up"),
    "down": mark("down"),
    "open": mark("open"),
    "spun": mark("spun"),
}
"""The ways of the sewing plan to press a seam, in words."""
ROOM_MM = 0.1
JOIN_MM = 0.01
"""Patches are grown by this much before they are joined, so that rounding leaves no slits."""


def draw_stage(
    view: StageView,
    *,
    max_width_mm: float = STAGE_WIDTH_MM,
    max_height_mm: float = STAGE_HEIGHT_MM,
    legend: bool = False,
    note: str = "",
) -> str:
    """A stage as SVG: patches with their cloth's letter, seams dashed, a wedge where each is pressed.

    A `note` stands below.
    """
    cloths = used_cloths((patch.cloth for patch in view.patches), view.cloths)
    legend_mm = legend_height_mm(cloths, max_width_mm) + 2.0 if legend and cloths else 0.0
    margin = DIMENSION_ROOM_MM if view.width_text or view.height_text else 1.0
    fit = fit_into(view.width, view.height, max_width_mm - 1.0, max_height_mm - legend_mm - 1.0, margin)
    right, bottom = fit.point((view.width, view.height))
    width = max_width_mm if legend_mm else max(right + 1.0, measure_words(note, NOTE_MM) + 1.0)
    noted = NOTE_MM * 1.6 if note else 0.0
    height = bottom + margin + legend_mm + noted
    sheet = Sheet(width, height, title=view.title, description=describe_stage(view))
    placed = [(p.place(fit.point), p.cloth) for p in view.patches]
    draw_patches(sheet, placed, view.cloths, edge=SEWN)
    sheet.path(_trace_outline([rings[0] for rings, _ in placed]), stroke=PATCH_EDGE)
    taken = _write_letters(sheet, view, fit)
    for seam in view.seams:
        _draw_seam(sheet, seam, fit, taken)
    if view.width_text:
        draw_width(sheet, fit.left, right, bottom, view.width_text)
    if view.height_text:
        draw_height(sheet, fit.top, bottom, fit.left, view.height_text)
    if note:
        write_words(sheet, (0.5, height - NOTE_MM * 0.5), note, NOTE_MM)
    if legend_mm:
        draw_legend(sheet, cloths, (1.0, bottom + margin + 2.0), max_width_mm - 1.0)
    return sheet.to_svg()


def describe_stage(view: StageView) -> str:
    """The stage in words."""
    pressed = [seam.press for seam in view.seams if seam.press]
    sentences = [phrase("{count} patches.", count=len(view.patches))]
    if pressed:
        ways = ", ".join(phrase(PRESSED[way]) for way in dict.fromkeys(pressed))
        sentences.append(phrase("{count} seams, pressed {ways}.", count=len(view.seams), ways=ways))
    if view.width_text and view.height_text:
        sentences.append(
            phrase("It measures {width} by {height}.", width=view.width_text, height=view.height_text)
        )
    return " ".join(sentences)


def draw_key(*, max_width_mm: float = PAGE_WIDTH_MM) -> str:
    """What the lines and signs of a stage picture mean, as a small SVG of its own."""
    said = [phrase(words) for words in KEY_WORDS]
    sheet = Sheet(max_width_mm, 7.0, title=phrase("Signs in the drawings"), description=", ".join(said))
    x = 0.5
    for words, draw in zip(said, (_key_sew, _key_wedge, _key_sewn), strict=True):
        draw(sheet, x)
        write_words(sheet, (x + 10.6, 4.7), words, KEY_LETTER_MM)
        x += 10.6 + measure_words(words, KEY_LETTER_MM) + 6.0
    return sheet.to_svg()


def _key_sew(sheet: Sheet, x: float) -> None:
    sheet.line((x, 3.5), (x + 9.0, 3.5), SEW)


def _key_wedge(sheet: Sheet, x: float) -> None:
    sheet.line((x, 3.5), (x + 9.0, 3.5), SEW)
    draw_wedge(sheet, (x + 4.5, 3.5), (0.0, 1.0))


def _key_sewn(sheet: Sheet, x: float) -> None:
    sheet.line((x, 3.5), (x + 9.0, 3.5), SEWN)


def _trace_outline(polygons: Sequence[Drawn]) -> str:
    """The outer edge of patches that lie side by side, holes with it."""
    whole = unary_union([Polygon(points).buffer(JOIN_MM, join_style="mitre") for points in polygons])
    parts = [whole] if isinstance(whole, Polygon) else list(getattr(whole, "geoms", []))
    rings = [ring for part in parts for ring in (part.exterior, *part.interiors)]
    return "".join(trace_polygon(list(ring.coords)[:-1]) for ring in rings)


def _draw_seam(sheet: Sheet, seam: SeamView, fit: Fit, taken: list[Point]) -> None:
    """The seam with its wedge, whose place is taken for those that come after it."""
    start, end = fit.point(seam.start), fit.point(seam.end)
    sheet.line(start, end, Stroke(SEW.width_mm * 2.6, PAPER))
    sheet.line(start, end, SEW)
    towards = _find_side(seam.press, start, end)
    if towards is not None:
        foot = _find_foot(start, end, towards, taken)
        taken.append(_middle_of_wedge(foot, towards))
        draw_wedge(sheet, foot, towards)
    elif seam.press in ("open", "spun"):
        draw_tag(sheet, _along(start, end, 0.5), seam.press, 2.6)
    if seam.number is not None:
        draw_number(sheet, _along(start, end, 0.18), seam.number)


def _along(start: Point, end: Point, share: float) -> Point:
    return start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share


def _find_foot(start: Point, end: Point, towards: Point, taken: Sequence[Point]) -> Point:
    """Where on a seam its wedge stands: in the middle, or as near to it as it covers no letter and no other wedge."""
    for share in FOOT_SHARES:
        foot = _along(start, end, share)
        middle = _middle_of_wedge(foot, towards)
        if all(max(abs(middle[0] - x), abs(middle[1] - y)) >= CLEAR_MM for x, y in taken):
            return foot
    return _along(start, end, 0.5)


def _middle_of_wedge(foot: Point, towards: Point) -> Point:
    return foot[0] + towards[0] * WEDGE_MM / 2, foot[1] + towards[1] * WEDGE_MM / 2


def _find_side(
    press: str, start: tuple[float, float], end: tuple[float, float]
) -> tuple[float, float] | None:
    """The direction square to the seam that lies on the side `press` names, or None where it names none."""
    if press not in DIRECTIONS:
        return None
    length = math.dist(start, end) or 1.0
    square = (-(end[1] - start[1]) / length, (end[0] - start[0]) / length)
    wanted = DIRECTIONS[press]
    facing = square[0] * wanted[0] + square[1] * wanted[1]
    return square if facing >= 0 else (-square[0], -square[1])


def _write_letters(sheet: Sheet, view: StageView, fit: Fit) -> list[Point]:
    """A letter on every patch that has room for it; where they stand."""
    places = []
    for patch in view.patches:
        rings = patch.place(fit.point)
        cloth = view.cloths.get(patch.cloth)
        if cloth is None or measure_room(rings) < LETTER_MM * 1.7:
            continue
        places.append(_find_middle(rings))
        draw_tag(sheet, places[-1], cloth.letter, LETTER_MM)
    return places


def _find_middle(rings: Sequence[Drawn]) -> tuple[float, float]:
    """Where a letter stands: in the middle of the corners, beside a hole where most room is."""
    corners = rings[0]
    if len(rings) > 1:
        return find_room(rings)[0]
    return sum(x for x, _ in corners) / len(corners), sum(y for _, y in corners) / len(corners)


def find_room(rings: Sequence[Drawn]) -> tuple[tuple[float, float], float]:
    """The middle and the diameter (mm) of the largest circle inside a shape, its outer ring first."""
    circle = maximum_inscribed_circle(Polygon(rings[0], rings[1:]), tolerance=ROOM_MM)
    x, y = circle.coords[0]
    return (x, y), 2 * circle.length


def measure_room(rings: Sequence[Drawn]) -> float:
    """A patch's area over half its outline: the side of a square that has its room; beside a hole, what is left."""
    if len(rings) > 1:
        return find_room(rings)[1]
    corners = rings[0]
    pairs = list(zip(corners, [*corners[1:], corners[0]], strict=True))
    area = abs(sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs)) / 2
    around = sum(math.dist(a, b) for a, b in pairs)
    return 4 * area / around if around else 0.0
