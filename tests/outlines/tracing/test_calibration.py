"""The calibration sheet as it is printed, photographed at a slant: scale and perspective come from its marks."""

import functools
import io

import numpy as np
import pikepdf
import pypdfium2
import pytest
import shapely
from PIL import Image

from service.api.calibration import _print
from service.craft.calibration import SHEETS
from service.craft.tracing import CannotTrace, TracingAsked
from tests.outlines.tracing.drawn import blurred, coverage, encode, leaf, star
from tests.outlines.tracing.test_accuracy import compare, polygon_of
from workers.outlines.tracing import trace_picture

PRINTED_DPI = 400
SHAPES = {"leaf": leaf(60, 60), "star": star(140, 70), "box": shapely.box(40, 120, 90, 170)}


@functools.cache
def printed(paper):
    """The sheet rendered from its own PDF, with three black shapes laid on the field. Grey, 0 to 255."""
    sheet = next(one for one in SHEETS if one.paper == paper)
    page = pypdfium2.PdfDocument(_print(sheet))[0]
    values = page.render(scale=PRINTED_DPI / 72, grayscale=True).to_numpy().squeeze().astype(float)
    scale = PRINTED_DPI / 25.4
    for shape in SHAPES.values():
        large = shapely.affinity.scale(shape, scale, scale, origin=(0, 0))
        values *= 1 - 0.85 * coverage(large, values.shape[1], values.shape[0])
    return values


def photographed(values, corners, size, noise=3.0):
    """The page seen so that its corners (clockwise from the upper left) come to lie at `corners` of a picture."""
    rows, columns = values.shape
    page = [(0, 0), (columns, 0), (columns, rows), (0, rows)]
    left = []
    for (x, y), (u, v) in zip(corners, page, strict=True):
        left += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
    back = np.linalg.solve(np.array(left, float), np.array(page, float).ravel())
    soft = Image.fromarray(blurred(values, 0.7).astype(np.float32), "F")
    seen = soft.transform(
        size, Image.Transform.PERSPECTIVE, back.tolist(), Image.Resampling.BICUBIC, fillcolor=225
    )
    grey = np.asarray(seen, float) * 0.92
    grey += np.random.default_rng(5).normal(0, noise, grey.shape)
    return np.clip(np.round(grey), 0, 255).astype(np.uint8)


SLANT = [(180, 120), (2440, 60), (2560, 3420), (60, 3300)]
SIZE = (2650, 3500)


def trace(values, **more):
    return trace_picture(TracingAsked(encode(values), "photo.png", **more)).file


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_perspective_is_taken_out(paper):
    """Shapes lie where they were laid, to a tenth of a millimetre, though one side of the page is 9 % longer."""
    file = trace(photographed(printed(paper), SLANT, SIZE))
    assert len(file.shapes) == len(SHAPES), file.notes
    found = compare(file, SHAPES)
    assert max(off for off, _ in found.values()) < 0.1, found
    assert any(f"({paper})" in note for note in file.notes)
    assert any("square of the calibration sheet measures" in note for note in file.notes)


def test_flat_tones_that_touch_are_parted_on_the_sheet_too():
    """A light box and a dark one side by side in the field, seen at a slant: two shapes within a tenth, no mark among
    them.
    """
    light, dark = shapely.box(50, 60, 90, 120), shapely.box(90, 60, 140, 120)
    page = pypdfium2.PdfDocument(_print(next(one for one in SHEETS if one.paper == "A4")))[0]
    values = page.render(scale=PRINTED_DPI / 72, grayscale=True).to_numpy().squeeze().astype(float)
    for box, tone in ((light, 0.65), (dark, 0.3)):
        large = shapely.affinity.scale(box, PRINTED_DPI / 25.4, PRINTED_DPI / 25.4, origin=(0, 0))
        values *= 1 - (1 - tone) * coverage(large, values.shape[1], values.shape[0])
    file = trace(photographed(values, SLANT, SIZE))
    assert len(file.shapes) == 2, file.notes
    found = compare(file, {"light": light, "dark": dark})
    assert max(off for off, _ in found.values()) < 0.1, found
    assert any("flat tones that touch" in note for note in file.notes)


@pytest.mark.parametrize("turns", [1, 2, 3])
def test_the_sheet_may_lie_any_way_round(turns):
    """The dot says which mark is the first: shapes come out upright."""
    turned = np.rot90(photographed(printed("A4"), SLANT, SIZE), turns)
    found = compare(trace(np.ascontiguousarray(turned)), SHAPES)
    assert max(off for off, _ in found.values()) < 0.1, found


def test_the_turn_a_camera_notes_is_honoured():
    """EXIF orientation 6: the picture is stored on its side."""
    upright = photographed(printed("A4"), SLANT, SIZE)
    stored = Image.fromarray(np.ascontiguousarray(np.rot90(upright)))
    exif = Image.Exif()
    exif[0x0112] = 6
    out = io.BytesIO()
    stored.save(out, "JPEG", quality=92, exif=exif)
    asked = TracingAsked(out.getvalue(), "photo.jpg")
    file = trace_picture(asked).file
    assert "turned upright" in file.notes[0]
    assert max(off for off, _ in compare(file, SHAPES).values()) < 0.1


def test_a_missing_mark_is_said():
    """Three of four: where the fourth lay, nothing is."""
    values = photographed(printed("A4"), SLANT, SIZE).copy()
    values[-420:, -420:] = 225
    with pytest.raises(CannotTrace) as refused:
        trace(values)
    assert "3 of the 4 marks" in refused.value.faults[0].detail
    assert "all four marks" in refused.value.faults[0].right


def test_a_stated_scale_needs_no_sheet():
    """With dpi the sheet is a picture like any other: its words and marks are traced too."""
    assert len(trace(printed("A4").astype(np.uint8), dpi=PRINTED_DPI).shapes) > len(SHAPES)


def test_a_scanned_sheet_in_a_pdf_is_found():
    """A page of a PDF that shows the sheet: its shapes alone, at 300 dots an inch."""
    out = io.BytesIO()
    Image.fromarray(printed("A4").astype(np.uint8)).save(out, "PDF", resolution=PRINTED_DPI)
    file = trace_picture(TracingAsked(out.getvalue(), "scan.pdf")).file
    assert len(file.shapes) == len(SHAPES)
    assert max(off for off, _ in compare(file, SHAPES).values()) < 0.08


@pytest.mark.parametrize("packed", [False, True])
def test_a_unit_of_a_pdf_page_is_its_own(packed):
    """ISO 32000-1, table 30: `UserUnit` is the size of a unit in 1/72 inch; a square of 36 units of 2 is 1 inch."""
    with pikepdf.new() as pdf:
        page = pdf.add_blank_page(page_size=(144, 144))
        page.obj.UserUnit = 2
        page.obj.Contents = pdf.make_stream(b"0 g 40 40 36 36 re f")
        out = io.BytesIO()
        mode = pikepdf.ObjectStreamMode
        pdf.save(out, object_stream_mode=mode.generate if packed else mode.disable)
    [square] = trace_picture(TracingAsked(out.getvalue(), "unit.pdf")).file.shapes
    assert (square.width_mm, square.height_mm) == pytest.approx((25.4, 25.4), abs=0.03)


def test_pages_of_a_pdf_are_chosen():
    """A PDF of two pages asks which; a page that is not there is refused; a vector page is traced in true size."""
    pdf = pypdfium2.PdfDocument.new()
    for width in (40, 60):
        page = pdf.new_page(300, 300)
        path = pypdfium2.raw.FPDFPageObj_CreateNewRect(50, 50, width / 25.4 * 72, width / 25.4 * 72)
        pypdfium2.raw.FPDFPageObj_SetFillColor(path, 0, 0, 0, 255)
        pypdfium2.raw.FPDFPath_SetDrawMode(path, 1, 0)
        pypdfium2.raw.FPDFPage_InsertObject(page, path)
        page.gen_content()
    out = io.BytesIO()
    pdf.save(out)
    data = out.getvalue()
    with pytest.raises(CannotTrace, match="2 pages"):
        trace_picture(TracingAsked(data, "two.pdf"))
    with pytest.raises(CannotTrace, match="no page 3"):
        trace_picture(TracingAsked(data, "two.pdf", page=3))
    [square] = trace_picture(TracingAsked(data, "two.pdf", page=2)).file.shapes
    assert polygon_of(square).area == pytest.approx(60 * 60, rel=0.001)
