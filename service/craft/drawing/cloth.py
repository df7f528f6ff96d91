"""Cloth on a sheet: colour and hatch, patch edges that also show on dark cloth, and the legend."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from service.craft.drawing.hatch import hatch_lines
from service.craft.drawing.lettering import write_words
from service.craft.drawing.sheet import Polygon, Sheet, trace_lines, trace_polygon
from service.craft.drawing.signs import (
    LEGEND_SIZE_MM,
    SWATCH_MM,
    measure_legend,
    place_legend,
    trace_swatch,
)
from service.craft.drawing.styles import (
    CASING_SHARE,
    HATCH_ANGLES,
    PAPER,
    PATCH_EDGE,
    Stroke,
    hatch_spacing_mm,
    hatch_stroke,
)
from service.craft.drawing.views import ClothView
from service.craft.language import phrase
from service.look.palette import compute_lightness, mix

DARK_CLOTH = 45.0
"""Below this lightness (L*) a dark edge would drown, so it gets a lighter casing."""

UNKNOWN_CLOTH = ClothView("", "cloth not named in the document", "#ffffff", 0)


def fill_cloth(sheet: Sheet, shapes: Sequence[Sequence[Polygon]], cloth: ClothView, traced: str = "") -> None:
    """Fill shapes (lists of rings, mm) with a cloth's colour and hatch; `traced` gives their true curves."""
    outline = traced or "".join(trace_polygon(ring) for rings in shapes for ring in rings)
    if cloth.filled:
        sheet.path(outline, fill=cloth.colour)
    spacing = hatch_spacing_mm(cloth.colour) if cloth.hatched else None
    if spacing is not None:
        degrees = HATCH_ANGLES[cloth.order % len(HATCH_ANGLES)]
        lines = hatch_lines(shapes, spacing_mm=spacing, degrees=degrees)
        sheet.path(trace_lines(lines), stroke=hatch_stroke(cloth.colour))


def draw_edges(sheet: Sheet, traced: str, colour: str, *, edge: Stroke = PATCH_EDGE) -> None:
    """Draw the edges of patches of one colour; on dark cloth with a lighter casing under the line."""
    if compute_lightness(colour) < DARK_CLOTH:
        sheet.path(traced, stroke=Stroke(edge.width_mm * 2.6, mix(colour, PAPER, CASING_SHARE)))
    sheet.path(traced, stroke=edge)


def draw_patches(
    sheet: Sheet,
    patches: Iterable[tuple[Sequence[Polygon], str]],
    cloths: Mapping[str, ClothView],
    *,
    edge: Stroke = PATCH_EDGE,
) -> None:
    """Fill and edge patches (rings in mm, cloth key): fills first, then dark casings, then every edge."""
    by_cloth: dict[str, list[Sequence[Polygon]]] = defaultdict(list)
    for rings, key in patches:
        by_cloth[key].append(rings)
    for key, shapes in by_cloth.items():
        fill_cloth(sheet, shapes, cloths.get(key, UNKNOWN_CLOTH))
    traced = {
        key: "".join(trace_polygon(ring) for rings in shapes for ring in rings)
        for key, shapes in by_cloth.items()
    }
    for key, data in traced.items():
        colour = cloths.get(key, UNKNOWN_CLOTH).colour
        if compute_lightness(colour) < DARK_CLOTH:
            sheet.path(data, stroke=Stroke(edge.width_mm * 2.6, mix(colour, PAPER, CASING_SHARE)))
    sheet.path("".join(traced.values()), stroke=edge)


def legend_height_mm(cloths: Sequence[ClothView], width_mm: float) -> float:
    """How high the legend of these cloths is."""
    return measure_legend([_legend_words(cloth) for cloth in cloths], width_mm)[1]


def draw_legend(sheet: Sheet, cloths: Sequence[ClothView], at: tuple[float, float], width_mm: float) -> None:
    """A swatch, a letter and a name for every cloth, in as many columns as fit."""
    names = [_legend_words(cloth) for cloth in cloths]
    for cloth, (corner, words) in zip(cloths, place_legend(names, *at, width_mm), strict=True):
        swatch = trace_swatch(corner)
        if cloth.sample:
            sheet.picture(*corner, *SWATCH_MM, cloth.sample)
        else:
            fill_cloth(sheet, [[swatch]], replace(cloth, filled=True))
        sheet.polygon(swatch, stroke=PATCH_EDGE)
        x, y = corner[0] + SWATCH_MM[0] + 1.6, corner[1] + SWATCH_MM[1] / 2 + LEGEND_SIZE_MM * 0.34
        write_words(sheet, (x, y), words, LEGEND_SIZE_MM)


def used_cloths(keys: Iterable[str], cloths: Mapping[str, ClothView]) -> list[ClothView]:
    """The cloths with these keys, each once, by letter."""
    return sorted({key: cloths[key] for key in keys if key in cloths}.values(), key=lambda cloth: cloth.order)


def _legend_words(cloth: ClothView) -> str:
    return f"{cloth.letter}  {cloth.name}"


def draw_cloth_swatch(cloth: ClothView) -> str:
    """A swatch of one cloth, as a small SVG of its own."""
    sheet = Sheet(SWATCH_MM[0] + 0.4, SWATCH_MM[1] + 0.4, title=cloth.name)
    swatch = trace_swatch((0.2, 0.2))
    fill_cloth(sheet, [[swatch]], cloth)
    sheet.polygon(swatch, stroke=PATCH_EDGE)
    return sheet.to_svg()


def draw_swatch(colour: str, name: str) -> str:
    """A swatch of one plain colour, such as a thread's, as a small SVG of its own."""
    sheet = Sheet(SWATCH_MM[0] + 0.4, SWATCH_MM[1] + 0.4, title=name)
    sheet.polygon(trace_swatch((0.2, 0.2)), fill=colour, stroke=PATCH_EDGE)
    return sheet.to_svg()


def draw_cloth_legend(cloths: Sequence[ClothView], *, max_width_mm: float) -> str:
    """The legend by itself, for pages that show several drawings."""
    height = legend_height_mm(cloths, max_width_mm) + 1.0
    names = ", ".join(_legend_words(cloth) for cloth in cloths)
    sheet = Sheet(max_width_mm, height, title=phrase("Cloths by letter"), description=names)
    draw_legend(sheet, cloths, (0.5, 0.5), max_width_mm - 0.5)
    return sheet.to_svg()
