"""A picture traced: from its bytes to named outlines in millimetres. Found by the web side through its entry point."""

from __future__ import annotations

import hashlib
from collections.abc import Sequence

import numpy as np

from service.craft.faults import Fault
from service.craft.outlines import Outline, OutlineFile, OutlineUnreadable, Ring
from service.craft.outlines.cuttable import say_thin_parts
from service.craft.outlines.limits import SMALLEST_SIDE_MM, Limits
from service.craft.outlines.regions import find_regions
from service.craft.tracing import CannotTrace, TracedPicture, TracingAsked
from workers.outlines.tracing.curves import TOLERANCE_MM, draw_contour
from workers.outlines.tracing.edges import find_edges, find_iso_lines_of
from workers.outlines.tracing.flat_tones import find_tones
from workers.outlines.tracing.ink import first_level, is_stepped, soften, soften_steps
from workers.outlines.tracing.layer_shapes import find_layer_shapes
from workers.outlines.tracing.layers import Layer, part_layers
from workers.outlines.tracing.overlay import draw_overlay
from workers.outlines.tracing.paper import even_out, light_of_tiles, paper_map, spread_paper
from workers.outlines.tracing.pdf_page import open_pdf_page
from workers.outlines.tracing.picture import Picture, open_picture
from workers.outlines.tracing.places import name_by_place
from workers.outlines.tracing.plane import MM_PER_INCH, Plane, no_scale, scaled, stated_plane
from workers.outlines.tracing.points import Points
from workers.outlines.tracing.shapes import Found, find_shapes
from workers.outlines.tracing.sheet_field import measured_square, part_by_field, say_square
from workers.outlines.tracing.sheet_marks import FoundSheet, find_marks, find_sheet
from workers.outlines.tracing.tone_words import say_tones

LIMITS = Limits()

TOLERANCE_PX, STEPPED_TOLERANCE_PX = 0.25, 0.4
"""Shares of a pixel that curves may leave the edges by; of a picture in two colours, whose edges go in stairs of one
pixel, less than half."""

Laid = tuple[Plane, FoundSheet | None, list[Points]]


def trace_picture(asked: TracingAsked) -> TracedPicture:
    """The shapes in a picture; `CannotTrace` says what is wrong, at which field, and what would be right."""
    picture = _open(asked)
    plane = stated_plane(asked, picture.width, picture.height)
    tiles = light_of_tiles(picture.grey)
    light, spread = paper_map(tiles), spread_paper(tiles)
    evened = even_out(picture.grey, light)
    field = soften(evened)
    level = first_level(field)
    notes = list(picture.notes)
    stepped = level is not None and is_stepped(evened, level)
    if stepped:
        field = soften_steps(field)
    tones = find_tones(picture, spread, level, notes)
    if level is None and tones is None:
        right = "dark shapes on light paper: more contrast, or an even light"
        raise CannotTrace([Fault("/file", "nothing in the picture is clearly darker than its paper", right)])
    lines = [] if level is None else find_iso_lines_of(field, level)
    sheet = None
    if plane is None:
        plane, sheet, lines = _laid_on_the_sheet(picture, lines, notes)
    found: list[Found] = []
    if tones is not None:
        parted = part_layers(picture, spread, tones, level, plane, notes)
        lines = parted.others(lines)
        found = find_layer_shapes(_in_the_field(parted.layers, sheet, plane), notes)
    edges = find_edges(field, lines, picture, plane, notes)
    tolerance = tolerance_for(picture, plane, stepped=stepped)
    shapes = _outlines(found + find_shapes(edges, notes), tolerance, notes)
    file = OutlineFile(
        asked.name, hashlib.sha256(asked.data).hexdigest(), shapes, tuple(dict.fromkeys(notes))
    )
    return TracedPicture(file, draw_overlay(picture, plane, file))


def _open(asked: TracingAsked) -> Picture:
    """The picture that is asked about; a page is only chosen of a PDF, which states its own size."""
    if not asked.data.startswith(b"%PDF"):
        if asked.page is not None:
            raise CannotTrace([Fault("/page", "a picture has no pages", "leave page out")])
        return open_picture(asked.data)
    if asked.dpi is not None:
        raise CannotTrace([Fault("/dpi", "a PDF page states its own size", "leave dpi out")])
    return open_pdf_page(asked.data, asked.page)


def _laid_on_the_sheet(picture: Picture, lines: list[Points], notes: list[str]) -> Laid:
    """The plane of the calibration sheet in the picture, the sheet, and the lines within its field."""
    in_file = [(line + 0.5) * picture.reduced for line in lines]
    marks = find_marks(in_file)
    # A page of known size needs no sheet: fewer rings than marks on it are shapes.
    found = find_sheet(marks) if picture.dpi is None or len(marks) >= 4 else None
    if found is None:
        if picture.dpi is None:
            raise no_scale()
        return scaled(MM_PER_INCH / picture.dpi), None, lines
    notes += found.plane.notes
    notes += say_square(measured_square(found, in_file))
    inside, crossing = part_by_field(found, in_file)
    if crossing:
        notes.append(f"left out: {crossing} that lie over the border of the sheet's field")
    return found.plane, found, [lines[i] for i in inside]


def _in_the_field(layers: Sequence[Layer], sheet: FoundSheet | None, plane: Plane) -> list[Layer]:
    """The layers that lie in the field of the calibration sheet, where there is one."""
    if sheet is None:
        return list(layers)
    inside, _ = part_by_field(sheet, [plane.to_pixels(layer.edges[0].points) for layer in layers])
    return [layers[i] for i in inside]


def tolerance_for(picture: Picture, plane: Plane, *, stepped: bool = False) -> float:
    """How near, in mm, curves follow the edges of a picture: a coarse one shows no more than a share of its pixel."""
    size = plane.mm_per_pixel(np.array([picture.width, picture.height]) / 2) * picture.reduced
    return max(TOLERANCE_MM, (STEPPED_TOLERANCE_PX if stepped else TOLERANCE_PX) * size)


def _outlines(shapes: list[Found], tolerance: float, notes: list[str]) -> tuple[Outline, ...]:
    """The shapes as outlines of our own model, named; notes on what was put right and what is too thin."""
    found: list[Outline] = []
    tones: dict[tuple[Ring, ...], str] = {}
    for shape in shapes:
        try:
            regions = find_regions(
                [draw_contour(ring, tolerance=tolerance) for ring in shape.rings],
                by_parity=True,
                limits=LIMITS,
            )
        except OutlineUnreadable as why:
            raise CannotTrace([Fault("/file", why.detail, why.right)]) from why
        notes += regions.notes
        found += [Outline("", rings) for rings in regions.rings]
        tones |= dict.fromkeys(regions.rings, shape.tone)
    thick = [one for one in found if min(one.width_mm, one.height_mm) >= SMALLEST_SIDE_MM]
    if len(thick) < len(found):
        notes.append(f"{len(found) - len(thick)} thinner than {SMALLEST_SIDE_MM} mm left out")
    if not thick:
        listed = f" ({'; '.join(notes)})" if notes else ""
        right = "a dark shape that lies wholly in the picture; of light ones on a dark ground, the picture inverted"
        raise CannotTrace([Fault("/file", f"no shape was found{listed}", right)])
    named = name_by_place(thick)
    notes += say_tones([(outline.name, tones[outline.rings]) for outline in named])
    notes += say_thin_parts(named)
    return named
