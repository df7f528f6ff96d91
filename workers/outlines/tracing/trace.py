"""A picture traced: from its bytes to named outlines in millimetres. Found by the web side through its entry point."""

from __future__ import annotations

import hashlib

from service.craft.faults import Fault
from service.craft.outlines import Outline, OutlineFile, OutlineUnreadable
from service.craft.outlines.limits import SMALLEST_SIDE_MM, Limits
from service.craft.outlines.naming import name_apart
from service.craft.outlines.regions import find_regions
from service.craft.tracing import CannotTrace, TracedPicture, TracingAsked
from workers.outlines.tracing.corners import trace_corners
from workers.outlines.tracing.curves import draw_contour
from workers.outlines.tracing.edges import PaperEdge, find_edges, find_iso_edges
from workers.outlines.tracing.overlay import draw_overlay
from workers.outlines.tracing.pdf_page import open_pdf_page
from workers.outlines.tracing.picture import Picture, open_picture
from workers.outlines.tracing.plane import MM_PER_INCH, no_scale, scaled, stated_plane

LIMITS = Limits()


def trace_picture(asked: TracingAsked) -> TracedPicture:
    """The shapes in a picture; `CannotTrace` says what is wrong, at which field, and what would be right."""
    picture = _open(asked)
    plane = stated_plane(asked, picture.width, picture.height)
    if plane is None and picture.dpi is not None:
        plane = scaled(MM_PER_INCH / picture.dpi)
    field, lines = find_iso_edges(picture)
    if plane is None:
        raise no_scale()
    notes = [*picture.notes, *plane.notes]
    edges = find_edges(field, lines, picture, plane, notes)
    shapes = _shapes(edges, notes)
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


def _shapes(edges: list[PaperEdge], notes: list[str]) -> tuple[Outline, ...]:
    contours = [draw_contour(trace_corners(edge.points, blur_mm=edge.blur_mm)) for edge in edges]
    try:
        regions = find_regions(contours, by_parity=True, limits=LIMITS)
    except OutlineUnreadable as why:
        raise CannotTrace([Fault("/file", why.detail, why.right)]) from why
    notes += regions.notes
    found = [Outline("", rings) for rings in regions.rings]
    thick = [one for one in found if min(one.width_mm, one.height_mm) >= SMALLEST_SIDE_MM]
    if len(thick) < len(found):
        notes.append(f"{len(found) - len(thick)} thinner than {SMALLEST_SIDE_MM} mm left out")
    if not thick:
        listed = f" ({'; '.join(notes)})" if notes else ""
        right = "at least one dark shape that lies wholly in the picture"
        raise CannotTrace([Fault("/file", f"no shape was found{listed}", right)])
    return tuple(name_apart(thick))
