"""Outer rings, holes, and contours that cross, against an outside renderer and shapely."""

from __future__ import annotations

import io
import math
from collections.abc import Callable

import numpy as np
import pypdfium2
import pytest
import weasyprint
from hypothesis import given, settings
from hypothesis import strategies as st

from service.craft.outlines import Cubic, OutlineFile, OutlineUnreadable, read_svg

Read = Callable[[str], OutlineFile]

RINGS = "M0 0H40V40H0z M5 5H35V35H5z M10 10H30V30H10z"
ALTERNATING = "M0 0H40V40H0z M5 5V35H35V5z M10 10H30V30H10z"


@pytest.mark.parametrize(
    ("data", "rule", "areas"),
    [
        (RINGS, "nonzero", [1600]),
        (RINGS, "evenodd", [1600 - 900, 400]),
        (ALTERNATING, "nonzero", [1600 - 900, 400]),
        (ALTERNATING, "evenodd", [1600 - 900, 400]),
        ("M0 0H40V40H0z M0 0H40V40H0z", "nonzero", [1600]),
        ("M0 0H40V40H0z M20 0H60V40H20z", "nonzero", [2400]),
        ("M0 0H40V40H0z M20 0H60V40H20z", "evenodd", [800, 800]),
        ("M0 0H40V40H0z M40 10H60V30H40z", "nonzero", [2000]),
        ("M0 0H20V20H0z M20 20H40V40H20z", "nonzero", [400, 400]),
    ],
)
def test_fill_rules_decide_what_is_inside(read: Read, data: str, rule: str, areas: list[float]) -> None:
    """Source: SVG 2, 13.4.2, counted by hand on squares."""
    shapes = read(f'<path fill-rule="{rule}" d="{data}"/>').shapes
    assert sorted(shape.area_mm2 for shape in shapes) == pytest.approx(sorted(areas))


def test_holes_run_against_their_outer_ring(read: Read) -> None:
    shape = read(f'<path fill-rule="evenodd" d="{RINGS}"/>').shapes[0]
    assert [np.sign(ring.area_mm2) for ring in shape.rings] == [1, -1]


def test_an_inner_contour_that_is_no_hole_is_left_out_with_a_note(read: Read) -> None:
    assert "no hole" in read(f'<path d="{RINGS}"/>').notes[0]


def test_a_contour_that_crosses_itself_is_put_right_and_said(read: Read) -> None:
    file = read('<path id="bow" d="M0 0L20 20V0L0 20z"/>')
    assert [shape.area_mm2 for shape in file.shapes] == pytest.approx([100, 100])
    assert "crosses itself" in file.notes[0]


def test_what_does_not_cross_keeps_its_curves_beside_one_that_does(read: Read) -> None:
    file = read('<circle id="moon" cx="60" cy="60" r="9"/><path id="bow" d="M0 0L20 20V0L0 20z"/>')
    moon = next(shape for shape in file.shapes if shape.name == "moon")
    assert all(isinstance(segment, Cubic) for segment in moon.rings[0].segments)


def test_ends_a_little_apart_are_joined_and_said(read: Read) -> None:
    file = read('<polyline points="0,0 30,0 30,40 0,0.3"/>')
    assert "0.30 mm apart, were joined" in file.notes[0]


def test_a_contour_that_runs_back_on_itself_encloses_nothing(read: Read) -> None:
    with pytest.raises(OutlineUnreadable, match="no closed shape"):
        read('<path d="M0 0L30 10L0 0z"/>')


corner = st.tuples(st.integers(0, 12), st.integers(0, 12)).map(lambda p: (p[0] * 7 + 3, p[1] * 7 + 3))
contours = st.lists(
    st.lists(corner, min_size=3, max_size=6).filter(lambda c: turns_everywhere(c)), min_size=1, max_size=3
)


def turns_everywhere(contour: list[tuple[int, int]]) -> bool:
    """No corner runs straight on or back: of that, renderers paint a hair line and the area is nothing."""
    corners = zip(contour[-1:] + contour[:-1], contour, contour[1:] + contour[:1], strict=True)
    return all((bx - ax) * (cy - by) != (by - ay) * (cx - bx) for (ax, ay), (bx, by), (cx, cy) in corners)


@settings(max_examples=40, deadline=None)
@given(contours, st.sampled_from(["nonzero", "evenodd"]))
def test_any_tangle_covers_what_a_renderer_paints(drawn: list[list[tuple[int, int]]], rule: str) -> None:
    """Source: the same path painted by WeasyPrint and pdfium; black pixels counted at 1/8 mm."""
    data = " ".join("M" + "L".join(f"{x} {y}" for x, y in contour) + "z" for contour in drawn)
    page = (
        '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">{}</svg>'
    )
    path = f'<path fill-rule="{rule}" d="{data}"/>'
    try:
        shapes = read_svg(page.format(path).encode(), "tangle.svg").shapes
    except OutlineUnreadable:
        shapes = ()
    # A pixel that an edge runs through is painted a little too dark: a fortieth of a millimetre along all edges.
    edges = sum(
        math.dist(a, b) for contour in drawn for a, b in zip(contour, contour[1:] + contour[:1], strict=True)
    )
    assert sum(s.area_mm2 for s in shapes) == pytest.approx(
        painted_mm2(page.format(path)), abs=1 + edges / 25
    )


def painted_mm2(svg: str) -> float:
    html = f"<style>@page{{size:100mm;margin:0}}body{{margin:0}}svg{{display:block}}</style>{svg}"
    document = pypdfium2.PdfDocument(io.BytesIO(weasyprint.HTML(string=html).write_pdf()))
    dots_a_mm = 8
    grey = document[0].render(scale=dots_a_mm * 25.4 / 72, grayscale=True).to_numpy()
    return float((1 - grey / 255).sum()) / dots_a_mm**2
