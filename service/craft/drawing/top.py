"""The finished top, or one unit of it: patches, pieces laid on them, overall size, legend."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from service.craft.drawing.cloth import (
    UNKNOWN_CLOTH,
    draw_edges,
    draw_legend,
    draw_patches,
    fill_cloth,
    legend_height_mm,
    used_cloths,
)
from service.craft.drawing.crosses import CrossView, draw_cross
from service.craft.drawing.lettering import measure_words
from service.craft.drawing.sheet import Sheet, trace_ring
from service.craft.drawing.signs import DIMENSION_ROOM_MM, draw_height, draw_number, draw_tag, draw_width
from service.craft.drawing.styles import BRING, EARTH, PAPER, Stroke
from service.craft.drawing.views import ClothView, PieceView, TopView
from service.craft.language import mark, phrase
from service.craft.measure import MM_PER_INCH, format_label, round_nearest
from service.craft.outlines import flatten
from service.craft.outlines.affine import Affine, Point

BRING_WORDS = mark("bring your own")
PAGE_WIDTH_MM, PAGE_HEIGHT_MM = 172.0, 150.0
"""The room a drawing has by default: the text width of an A4 page, and a good half of its height."""


SPLIT_HALO, SPLIT = Stroke(0.9, PAPER), Stroke(0.4, EARTH, dash_mm=(2.4, 1.2))
"""A line along which a piece is split, and the white under it that keeps it apart from any cloth."""


@dataclass(frozen=True)
class Fit:
    """How inches on the top become millimetres on the sheet."""

    scale: float
    left: float
    top: float

    def point(self, point: tuple[float, float]) -> tuple[float, float]:
        """A point in inches, on the sheet."""
        return self.left + point[0] * self.scale, self.top + point[1] * self.scale

    @property
    def from_mm(self) -> Affine:
        """From millimetres on the top to the sheet, for outlines."""
        factor = self.scale / float(MM_PER_INCH)
        return Affine.moving(self.left, self.top) @ Affine.scaling(factor, factor)


def fit_into(width: float, height: float, room_width_mm: float, room_height_mm: float, margin: float) -> Fit:
    """The largest scale at which `width` x `height` inches fit the room, `margin` mm kept left and top."""
    scale = min((room_width_mm - margin) / width, (room_height_mm - margin) / height)
    return Fit(scale, margin, 1.0)


@dataclass(frozen=True)
class TopLayout:
    """Where a top and what belongs to it lie in a room: its fit, and the size of the whole in mm."""

    fit: Fit
    width_mm: float
    height_mm: float
    legend_at: tuple[float, float] | None
    dimensions: bool


def lay_out_top(
    view: TopView,
    *,
    at: tuple[float, float] = (0.0, 0.0),
    max_width_mm: float = PAGE_WIDTH_MM,
    max_height_mm: float = PAGE_HEIGHT_MM,
    legend: bool = True,
    dimensions: bool = True,
) -> TopLayout:
    """Fit the top, its dimensions outside and its legend below into a room whose corner is `at`."""
    cloths = list_cloths(view) if legend else []
    legend_mm = legend_height_mm(cloths, max_width_mm) + 3.0 if cloths else 0.0
    margin = DIMENSION_ROOM_MM if dimensions else 1.0
    fit = fit_into(view.width, view.height, max_width_mm - 1.0, max_height_mm - legend_mm - 1.0, margin)
    width_mm, height_mm = view.width * fit.scale, view.height * fit.scale
    whole = max_width_mm if cloths else width_mm + margin + 1.0
    left = margin + max(0.0, (whole - width_mm - margin - 1.0) / 2)
    below = (at[0] + 1.0, at[1] + height_mm + margin + 4.0)
    return TopLayout(
        fit=Fit(fit.scale, at[0] + left, at[1] + 1.0),
        width_mm=whole,
        height_mm=height_mm + margin + 1.0 + legend_mm,
        legend_at=below if cloths else None,
        dimensions=dimensions,
    )


def put_top(
    sheet: Sheet,
    view: TopView,
    layout: TopLayout,
    *,
    public: bool = True,
    numbered: bool = False,
    crosses: Sequence[CrossView] = (),
    splits: Sequence[tuple[Point, Point]] = (),
) -> None:
    """Draw a top that was laid out: patches, pieces (`numbered` in laying order), the middles of hoopings, the lines
    along which pieces are split (mm from the finished corner), overall dimensions, legend.
    """
    fit = layout.fit
    if view.ground:
        sheet.picture(fit.left, fit.top, view.width * fit.scale, view.height * fit.scale, view.ground)
    draw_patches(sheet, [(p.place(fit.point), p.cloth) for p in view.patches], view.cloths)
    for piece in view.pieces:
        draw_piece(sheet, piece, view, fit, public=public)
    for start, end in splits:
        for stroke in (SPLIT_HALO, SPLIT):
            sheet.line(fit.from_mm.apply(start), fit.from_mm.apply(end), stroke)
    numbers = [fit.from_mm.apply(_find_middle(p, public=public)) for p in view.pieces] if numbered else []
    taken = list(numbers)
    for cross in crosses:
        taken.append(draw_cross(sheet, fit.from_mm.apply(cross.at_mm), cross, taken))
    for number, at in enumerate(numbers, start=1):
        draw_number(sheet, at, number)
    if layout.dimensions:
        draw_overall(sheet, view, fit)
    if layout.legend_at:
        draw_legend(sheet, list_cloths(view), layout.legend_at, layout.width_mm - 1.0)


def draw_top(
    view: TopView,
    *,
    public: bool = True,
    max_width_mm: float = PAGE_WIDTH_MM,
    max_height_mm: float = PAGE_HEIGHT_MM,
    legend: bool = True,
    dimensions: bool = True,
    numbered: bool = False,
    crosses: Sequence[CrossView] = (),
    splits: Sequence[tuple[Point, Point]] = (),
) -> str:
    """The top as SVG: patches, pieces, overall dimensions outside, legend below.

    In a public picture a piece that viewers must own is a dashed box with words, without its outline.
    """
    layout = lay_out_top(
        view, max_width_mm=max_width_mm, max_height_mm=max_height_mm, legend=legend, dimensions=dimensions
    )
    sheet = Sheet(
        layout.width_mm, layout.height_mm, title=view.title, description=describe(view, public=public)
    )
    put_top(sheet, view, layout, public=public, numbered=numbered, crosses=crosses, splits=splits)
    return sheet.to_svg()


def list_cloths(view: TopView) -> list[ClothView]:
    """The cloths that a top shows, by letter."""
    keys = [patch.cloth for patch in view.patches] + [piece.cloth for piece in view.pieces]
    return used_cloths(keys, view.cloths)


def draw_unit(
    view: TopView, *, max_width_mm: float = 60.0, max_height_mm: float = 60.0, legend: bool = False
) -> str:
    """One unit or block by itself, with its finished size."""
    return draw_top(view, max_width_mm=max_width_mm, max_height_mm=max_height_mm, legend=legend)


def _find_middle(piece: PieceView, *, public: bool) -> Point:
    """Where a piece is numbered: the words of one that viewers bring stand in the middle of its box."""
    left, top, right, bottom = piece.box_mm
    return (left, top) if piece.bring_own and public else ((left + right) / 2, (top + bottom) / 2)


def draw_piece(sheet: Sheet, piece: PieceView, view: TopView, fit: Fit, *, public: bool) -> None:
    """One piece as its true curves, or as the dashed box of what a viewer brings."""
    if piece.bring_own and public:
        left, top, right, bottom = piece.box_mm
        (x, y), (x2, y2) = fit.from_mm.apply((left, top)), fit.from_mm.apply((right, bottom))
        sheet.box(x, y, x2 - x, y2 - y, fill=PAPER, stroke=BRING)
        _write_bring(sheet, ((x + x2) / 2, (y + y2) / 2), x2 - x)
        return
    rings = [ring.moved(fit.from_mm) for ring in piece.rings]
    traced = "".join(map(trace_ring, rings))
    polygons = [[(float(x), float(y)) for x, y in flatten(ring, tolerance_mm=0.05)] for ring in rings]
    cloth = view.cloths.get(piece.cloth, UNKNOWN_CLOTH)
    fill_cloth(sheet, [polygons], cloth, traced)
    draw_edges(sheet, traced, cloth.colour)


def draw_overall(sheet: Sheet, view: TopView, fit: Fit) -> None:
    """The overall width below and the overall height on the left."""
    right, bottom = fit.point((view.width, view.height))
    draw_width(sheet, fit.left, right, bottom, format_side(view.width, view.measure))
    draw_height(sheet, fit.top, bottom, fit.left, format_side(view.height, view.measure))


def format_side(inches: float, measure: str) -> str:
    """An overall size as a person says it: to the nearest eighth of an inch, or millimetre."""
    step = Fraction(1, 8) if measure == "in" else 1 / MM_PER_INCH
    return format_label(round_nearest(Fraction(inches), step), measure)


def describe(view: TopView, *, public: bool) -> str:
    """The drawing in words, for who cannot see it."""
    width, height = (format_side(side, view.measure) for side in (view.width, view.height))
    bring = phrase(BRING_WORDS)
    names = ", ".join(f"{p.name} ({bring})" if p.bring_own and public else p.name for p in view.pieces)
    made = phrase(
        "{width} wide, {height} high, made of {count} patches.",
        width=width,
        height=height,
        count=len(view.patches),
    )
    return " ".join([made, phrase("Laid on it: {names}.", names=names)]) if names else made


def _write_bring(sheet: Sheet, at: tuple[float, float], width: float) -> None:
    size, bring = 3.4, phrase(BRING_WORDS)
    if measure_words(bring, size, weight=600) + size < width:
        draw_tag(sheet, at, bring, size)
        return
    words = bring.split()
    size = min(3.0, width / max(measure_words(word, 1.0, weight=600) + 0.5 for word in words))
    for row, word in enumerate(words):
        draw_tag(sheet, (at[0], at[1] + (row - (len(words) - 1) / 2) * size * 1.2), word, size)
