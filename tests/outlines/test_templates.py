"""The template PDF: true size, measured by an outside reader; what is printed, and what is not."""

from __future__ import annotations

import ctypes
import io
import math
import re
from collections.abc import Callable
from typing import Any

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
import pytest

from service.craft.outlines import find_outline
from workers.outlines.templates import make_templates
from workers.recipe import CannotMake, JobInput

Job = Callable[..., JobInput]
Make = Callable[..., dict[str, Any]]

POINT_MM = 25.4 / 72


def print_templates(job: JobInput) -> pypdfium2.PdfDocument:
    return pypdfium2.PdfDocument(io.BytesIO(make_templates(job)[0].data))


def read_text(document: pypdfium2.PdfDocument, page: int) -> str:
    return re.sub(r"\s+", " ", document[page].get_textpage().get_text_bounded())


def list_boxes_mm(document: pypdfium2.PdfDocument, page: int) -> list[tuple[float, float]]:
    """Width and height of every drawn path on a page, between the middles of its lines, as pdfium reads them."""
    paths = document[page].get_objects(filter=[pdfium.FPDF_PAGEOBJ_PATH], max_depth=15)
    return [tuple(np.ptp(trace_points_mm(path), axis=0)) for path in paths]


def trace_points_mm(path: pypdfium2.PdfObject) -> np.ndarray:
    """Points along a path in mm on the page: corners, and 200 places on every curve."""
    points: list[np.ndarray] = []
    handles: list[np.ndarray] = []
    for n in range(pdfium.FPDFPath_CountSegments(path.raw)):
        segment, x, y = pdfium.FPDFPath_GetPathSegment(path.raw, n), ctypes.c_float(), ctypes.c_float()
        assert pdfium.FPDFPathSegment_GetPoint(segment, ctypes.byref(x), ctypes.byref(y))
        handles.append(np.array(path.get_matrix().on_point(x.value, y.value)) * POINT_MM)
        if pdfium.FPDFPathSegment_GetType(segment) != pdfium.FPDF_SEGMENT_BEZIERTO:
            points, handles = points + handles, []
        elif len(handles) == 3:
            t = np.linspace(0, 1, 200)[:, None]
            a, (b, c, d) = points[-1], handles
            curve = (1 - t) ** 3 * a + 3 * t * (1 - t) ** 2 * b + 3 * t**2 * (1 - t) * c + t**3 * d
            points, handles = points + list(curve), []
    return np.array(points)


def has_box(boxes: list[tuple[float, float]], width: float, height: float, *, off: float = 0.05) -> bool:
    return any(abs(w - width) <= off and abs(h - height) <= off for w, h in boxes)


def test_printed_squares_measure_100_mm_50_mm_and_1_in(job: Job, piece: Make) -> None:
    document = print_templates(job(piece("bed", "leek.svg#bed"), track="by hand"))
    boxes = list_boxes_mm(document, 0)
    assert has_box(boxes, 100, 100)
    for page in range(len(document)):
        boxes = list_boxes_mm(document, page)
        assert has_box(boxes, 50, 50)
        assert has_box(boxes, 25.4, 25.4)


def test_every_page_says_how_to_print_it_and_is_a4(job: Job, piece: Make) -> None:
    document = print_templates(job(piece("ring", "leek.svg#ring", scale=5), track="by hand"))
    assert len(document) == 5
    for page in range(len(document)):
        assert "Print at 100 %, actual size" in read_text(document, page)
        assert document[page].get_size() == pytest.approx((595.276, 841.890), abs=0.01)
    assert "test square, 100 mm: measure before you cut" in read_text(document, 0)


def test_reader_programs_are_asked_not_to_scale(job: Job) -> None:
    """Source: ISO 32000-1, table 150: PrintScaling None."""
    data = make_templates(job(track="by hand"))[0].data
    document = pypdfium2.PdfDocument(io.BytesIO(data))
    assert not pdfium.FPDF_VIEWERREF_GetPrintScaling(document.raw)


@pytest.mark.parametrize("shape", ["bed", "stalk", "ring"])
def test_a_template_is_printed_at_true_size(job: Job, piece: Make, shape: str) -> None:
    asked = job(piece("one", f"leek.svg#{shape}", scale=1.5), track="by hand")
    outline = find_outline(asked.outlines, f"leek.svg#{shape}")
    boxes = list_boxes_mm(print_templates(asked), 1)
    assert has_box(boxes, 1.5 * outline.width_mm, 1.5 * outline.height_mm)


def test_one_shape_is_one_template_however_its_pieces_are_turned(job: Job, piece: Make) -> None:
    pieces = [piece(f"pea {n}", "pod.svg", turn=30 * n) for n in range(4)]
    document = print_templates(job(*pieces, piece("dark pea", "pod.svg", fabric="soil"), track="by hand"))
    text = read_text(document, 1)
    assert len(document) == 2
    assert text.count("Cut 4 from leek green, 1 from soil brown dot") == 1
    assert "For pea 0, pea 1, pea 2, pea 3, dark pea." in text


def test_a_lopsided_shape_is_drawn_mirrored_and_its_mirrored_pieces_apart(job: Job, piece: Make) -> None:
    pieces = [piece("left", "leek.svg#stalk"), piece("right", "leek.svg#stalk", mirror=True)]
    text = read_text(print_templates(job(*pieces, track="by hand")), 1)
    assert text.count("Drawn mirrored: trace it onto the paper side of fusible web") == 2
    assert "stalk, for mirrored pieces" in text


def test_an_even_shape_needs_no_second_template_for_its_mirrored_pieces(job: Job, piece: Make) -> None:
    pieces = [piece("left", "leek.svg#ring"), piece("right", "leek.svg#ring", mirror=True)]
    text = read_text(print_templates(job(*pieces, track="by hand")), 1)
    assert "Cut 2 from leek green" in text
    assert "The same both ways round" in text


def test_turned_pieces_of_a_cloth_with_a_direction_get_arrows_of_their_own(job: Job, piece: Make) -> None:
    pieces = [piece(f"bed {turn}", "leek.svg#bed", turn=turn, fabric="print") for turn in (0, 90)]
    text = read_text(print_templates(job(*pieces, track="by hand")), 1)
    assert text.count("Cut 1 from seed print") == 2


def test_trim_in_place_is_drawn_as_it_lies_and_says_what_to_do(job: Job, piece: Make) -> None:
    text = read_text(print_templates(job(piece("s", "leek.svg#stalk", fabric="fleece"), track="by hand")), 1)
    assert "Trimmed in place: no piece is cut beforehand" in text
    assert "mirrored" not in text


def test_a_large_template_comes_in_sheets_that_overlap(job: Job, piece: Make) -> None:
    """300 mm wide and high: two by two sheets of 190 mm that overlap by 10 mm."""
    document = print_templates(job(piece("ring", "leek.svg#ring", scale=5), track="by hand"))
    places = [
        re.search(r"row (\d) of 2, column (\d) of 2", read_text(document, page)) for page in range(1, 5)
    ]
    assert [found and found.groups() for found in places] == [("1", "1"), ("1", "2"), ("2", "1"), ("2", "2")]


def test_more_sheets_than_anybody_joins_are_refused(job: Job, piece: Make) -> None:
    with pytest.raises(CannotMake, match="would take") as caught:
        make_templates(job(piece("ring", "leek.svg#ring", scale=40), track="by hand"))
    assert caught.value.pointer == "/pieces/0/scale"


def test_what_a_viewer_must_own_is_named_and_not_drawn(job: Job, piece: Make) -> None:
    source = {"name": "a bought pattern", "covers": ["pod.svg"], "rights": "viewer must own"}
    asked = job(piece("pea", "pod.svg"), piece("bed", "leek.svg#bed"), track="by hand", sources=(source,))
    made = make_templates(asked)
    document = pypdfium2.PdfDocument(io.BytesIO(made[0].data))
    assert made[0].public
    assert "Bring your own: a bought pattern, for pea." in read_text(document, 0)
    assert not any(has_box(list_boxes_mm(document, page), 24, 24, off=1) for page in range(len(document)))


def test_a_project_without_pieces_gets_one_page_that_says_so(job: Job) -> None:
    document = print_templates(job(track="by hand"))
    assert len(document) == 1
    assert "no applique pieces" in read_text(document, 0)


def test_a_project_of_borrowed_outlines_alone_gets_a_page_that_says_so(job: Job, piece: Make) -> None:
    source = {"name": "a bought pattern", "covers": ["pod.svg"], "rights": "viewer must own"}
    document = print_templates(job(piece("pea", "pod.svg"), track="by hand", sources=(source,)))
    assert len(document) == 1
    assert "nothing to trace here" in read_text(document, 0)


def test_a_long_list_runs_on_to_pages_of_its_own(job: Job, piece: Make) -> None:
    pieces = [piece(f"pea {n}", "pod.svg", scale=f"1.{n:02}") for n in range(40)]
    document = print_templates(job(*pieces, track="by hand"))
    text = " ".join(read_text(document, page) for page in range(3))
    assert all(f"(pea {n})" in text for n in range(40))


def test_same_input_gives_the_same_bytes(job: Job, piece: Make) -> None:
    asked = job(piece("bed", "leek.svg#bed"), piece("stalk", "leek.svg#stalk", turn=12), track="by hand")
    assert make_templates(asked) == make_templates(asked)


def test_file_is_named_after_the_track(job: Job) -> None:
    made = make_templates(job(track="by hand"))[0]
    assert (made.name, made.media_type, made.kind) == (
        "templates-by-hand.pdf",
        "application/pdf",
        "templates",
    )


@pytest.mark.parametrize(
    ("track", "outline", "pointer"),
    [("by foot", "pod.svg", "/tracks"), ("by hand", "kale.svg#leaf", "/pieces/0/outline")],
)
def test_what_is_missing_is_said_with_where(
    job: Job, piece: Make, track: str, outline: str, pointer: str
) -> None:
    with pytest.raises(CannotMake) as caught:
        make_templates(job(piece("one", outline), track=track))
    assert caught.value.pointer == pointer
    assert caught.value.right


def test_blades_and_the_centre_of_a_ring_are_printed_at_true_size() -> None:
    """20 blades out to 6 in, by geometry; a disc of 3 1/2 in and two allowances; their seam lines.

    A pointed blade is cut straight across 1/4 in beyond its point, and its sides 1/4 in outside their seams.
    """
    ring = {
        "unit": "fan blade ring",
        "size": ["14", "14"],
        "fabric": "frost",
        "fabrics": ["leaf"],
        "reach": "6",
        "hole": "1 1/2",
        "centre": {"fabric": "leaf", "size": "3 1/2"},
    }
    cloths = {"frost": {}, "leaf": {}}
    raw = {
        "title": "Rhubarb crown",
        "fabrics": cloths,
        "top": ring,
        "tracks": [{"name": "by hand", "has": []}],
    }
    boxes = list_boxes_mm(print_templates(JobInput("templates", raw, track="by hand")), 1)
    half = math.radians(9)
    narrow = 1.5 * math.cos(half)
    wide = 2 * (6.25 * math.tan(half) + 0.25 / math.cos(half))
    assert has_box(boxes, 25.4 * wide, 25.4 * (6.25 - (narrow - 0.25)))
    assert has_box(boxes, 25.4 * 2 * 6 * math.tan(half), 25.4 * (6 - narrow))
    assert has_box(boxes, 25.4 * 4, 25.4 * 4)
    assert has_box(boxes, 25.4 * 3.5, 25.4 * 3.5)
