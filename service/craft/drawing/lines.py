"""A line drawing to colour in: edges alone, patches and pieces numbered by cloth or left blank."""

from __future__ import annotations

from collections.abc import Sequence

from shapely.geometry import Polygon as Area

from service.craft.drawing.lettering import measure_words, write_words
from service.craft.drawing.sheet import Polygon, Sheet, trace_polygon, trace_ring
from service.craft.drawing.signs import (
    DIMENSION_ROOM_MM,
    LEGEND_SIZE_MM,
    SWATCH_MM,
    measure_legend,
    place_legend,
    trace_swatch,
)
from service.craft.drawing.stages import find_room, measure_room
from service.craft.drawing.styles import PAPER, PATCH_EDGE
from service.craft.drawing.top import (
    PAGE_HEIGHT_MM,
    PAGE_WIDTH_MM,
    Fit,
    describe,
    draw_overall,
    draw_piece,
    fit_into,
    list_cloths,
)
from service.craft.drawing.views import ClothView, PieceView, TopView
from service.craft.language import phrase
from service.craft.outlines import flatten
from service.craft.outlines.affine import Point

LARGEST_MM, SMALLEST_MM = 3.2, 1.3
"""Letter sizes of the numbers; where not even the smallest fits, a patch stays blank."""

FLAT_MM = 0.1
"""How near a curve is followed to find room for a number."""


def draw_lines(
    view: TopView,
    *,
    numbered: bool = True,
    public: bool = True,
    max_width_mm: float = PAGE_WIDTH_MM,
    max_height_mm: float = PAGE_HEIGHT_MM,
) -> str:
    """A top or a unit as edges without any colour; with `numbered` each patch has its cloth's number.

    A legend below says which number is which cloth, with an empty field each to try a colour in. In a public
    picture a piece that viewers must own is a dashed box.
    """
    cloths = list_cloths(view) if numbered else []
    names = [f"{_number(cloth)}  {cloth.name}" for cloth in cloths]
    legend_mm = measure_legend(names, max_width_mm)[1] + 3.0 if names else 0.0
    room_mm = max_height_mm - legend_mm - 1.0
    fit = fit_into(view.width, view.height, max_width_mm - 1.0, room_mm, DIMENSION_ROOM_MM)
    right, bottom = fit.point((view.width, view.height))
    sheet = Sheet(
        max_width_mm if names else right + 1.0,
        bottom + DIMENSION_ROOM_MM + legend_mm,
        title=phrase("{title}, to colour in", title=view.title),
        description=describe(view, public=public),
    )
    _draw_patches(sheet, view, fit, numbered=numbered)
    for piece in view.pieces:
        _draw_piece(sheet, piece, view, fit, numbered=numbered, public=public)
    draw_overall(sheet, view, fit)
    _draw_legend(sheet, names, bottom + DIMENSION_ROOM_MM + 2.0, max_width_mm - 1.0)
    return sheet.to_svg()


def _number(cloth: ClothView) -> str:
    return str(cloth.order + 1)


def _draw_patches(sheet: Sheet, view: TopView, fit: Fit, *, numbered: bool) -> None:
    placed = [(patch.place(fit.point), patch.cloth) for patch in view.patches]
    sheet.path("".join(trace_polygon(ring) for rings, _ in placed for ring in rings), stroke=PATCH_EDGE)
    for rings, key in placed if numbered else []:
        _write_number(sheet, rings, view.cloths.get(key))


def _draw_piece(
    sheet: Sheet, piece: PieceView, view: TopView, fit: Fit, *, numbered: bool, public: bool
) -> None:
    """A piece hides what lies under it: bare paper inside its own edge."""
    if piece.bring_own and public:
        draw_piece(sheet, piece, view, fit, public=public)
        return
    rings = [ring.moved(fit.from_mm) for ring in piece.rings]
    sheet.path("".join(map(trace_ring, rings)), fill=PAPER, stroke=PATCH_EDGE)
    if numbered:
        flat = [[(float(x), float(y)) for x, y in flatten(ring, tolerance_mm=FLAT_MM)] for ring in rings]
        _write_number(sheet, flat, view.cloths.get(piece.cloth))


def _write_number(sheet: Sheet, rings: Sequence[Polygon], cloth: ClothView | None) -> None:
    """The cloth's number inside a shape (outer ring first, mm), as large as there is room for it."""
    if cloth is None:
        return
    text, shape = _number(cloth), Area(rings[0], rings[1:])
    if not shape.is_valid:
        return
    room = measure_room(rings)
    size = min(LARGEST_MM, room / 1.6, room / 1.4 / measure_words(text, 1.0))
    if size >= SMALLEST_MM:
        x, y = find_room(rings)[0] if len(rings) > 1 else _find_middle(shape)
        write_words(sheet, (x, y + size * 0.34), text, size, anchor="middle")


def _find_middle(shape: Area) -> Point:
    """The middle of a shape; that of a bent one may lie outside it."""
    middle = shape.centroid if shape.contains(shape.centroid) else shape.representative_point()
    return float(middle.x), float(middle.y)


def _draw_legend(sheet: Sheet, names: Sequence[str], top: float, width_mm: float) -> None:
    for corner, words in place_legend(names, 1.0, top, width_mm) if names else []:
        sheet.polygon(trace_swatch(corner), stroke=PATCH_EDGE)
        x, y = corner[0] + SWATCH_MM[0] + 1.6, corner[1] + SWATCH_MM[1] / 2 + LEGEND_SIZE_MM * 0.34
        write_words(sheet, (x, y), words, LEGEND_SIZE_MM)
