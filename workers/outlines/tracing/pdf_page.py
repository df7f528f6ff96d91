"""One page of a PDF as a picture. A page has a size of its own, so nothing else need say its scale."""

from __future__ import annotations

import io

from PIL import Image

from service.craft.faults import Fault
from service.craft.tracing import MOST_PIXELS, CannotTrace
from workers.outlines.tracing.picture import Picture, check_size, picture_of

DPI = 300
POINTS_PER_INCH = 72

LARGEST_UNIT = 1000
"""So many points a unit: a page of A2 is then 1.2 x 1.7 units."""

WHOLE_PDF = "a PDF without a password, whole, or the page as a PNG picture"


def open_pdf_page(data: bytes, page: int | None) -> Picture:
    """A page rendered at 300 dots an inch; `CannotTrace` where there is no such page, or it is too large."""
    # Loaded here alone: a picture needs none of it.
    import pypdfium2

    try:
        document = pypdfium2.PdfDocument(data)
    except pypdfium2.PdfiumError as why:
        raise CannotTrace([Fault("/file", "the PDF cannot be read", WHOLE_PDF)]) from why
    try:
        index = _choose(len(document), page)
        return _render(document, index, _unit_of(data, index))
    except pypdfium2.PdfiumError as why:
        raise CannotTrace([Fault("/file", "the page of the PDF cannot be read", WHOLE_PDF)]) from why
    finally:
        document.close()


def _choose(count: int, page: int | None) -> int:
    if page is None and count > 1:
        raise CannotTrace([Fault("/page", f"the PDF has {count} pages", "page=1 for the first")])
    if page is not None and page > count:
        raise CannotTrace([Fault("/page", f"there is no page {page}", f"a page from 1 to {count}")])
    if count == 0:
        raise CannotTrace([Fault("/file", "the PDF has no page", "a PDF with a page")])
    return (page or 1) - 1


def _unit_of(data: bytes, index: int) -> float:
    """How many points a unit of the page is: its `UserUnit` (ISO 32000-1, table 30), which PDFium passes over."""
    if b"UserUnit" not in data and b"ObjStm" not in data:
        return 1.0
    import pikepdf

    try:
        with pikepdf.open(io.BytesIO(data)) as document:
            unit = float(document.pages[index].obj.get("/UserUnit", 1))
    except (pikepdf.PdfError, ValueError, TypeError, IndexError) as why:
        raise CannotTrace([Fault("/file", "the scale of the PDF page cannot be read", WHOLE_PDF)]) from why
    if not 0 < unit <= LARGEST_UNIT:
        detail = f"the PDF page states a unit of {unit:g} points"
        raise CannotTrace([Fault("/file", detail, f"more than 0, up to {LARGEST_UNIT:,}")])
    return unit


def _render(document: object, index: int, unit: float) -> Picture:
    page = document[index]  # type: ignore[index]  # pypdfium2 has no types
    width, height = page.get_size()
    scale = DPI / POINTS_PER_INCH * unit
    if width * scale * height * scale > MOST_PIXELS:
        size = f"the page is {width * unit / 72 * 25.4:,.0f} x {height * unit / 72 * 25.4:,.0f} mm"
        raise CannotTrace([Fault("/file", size, "a page up to A2: 420 x 594 mm")])
    check_size(round(width * scale), round(height * scale))
    bitmap = page.render(scale=scale, grayscale=True)
    # a copy: the bitmap's memory goes with the document
    grey = Image.fromarray(bitmap.to_numpy().squeeze().copy())
    return picture_of(grey, [], dpi=float(DPI))
