import re

import pytest
from lxml import etree

from service.look.palette import compute_contrast
from workers.stitches.preview import CLOTH, draw_preview

SVG = "{http://www.w3.org/2000/svg}"


@pytest.fixture
def drawing(write):
    return etree.fromstring(draw_preview(write("square")[0]))


def test_the_preview_is_true_size(drawing):
    """W3C SVG 2: with a viewBox as many units as millimetres, one user unit is one millimetre."""
    _, _, width, height = (float(v) for v in drawing.get("viewBox").split())
    assert drawing.get("width") == f"{width:g}mm" and drawing.get("height") == f"{height:g}mm"
    assert width == 100 + 2 * 8


def test_thread_is_drawn_four_tenths_of_a_millimetre_wide_in_passes_of_true_extent(drawing):
    wide = [p for p in drawing.iter(f"{SVG}path") if p.get("stroke-width") == "0.4"]
    xs = [float(x) for p in wide for x in re.findall(r"[ML](-?[\d.]+) ", p.get("d"))]
    assert len(wide) >= 4
    assert max(xs) - min(xs) == pytest.approx(43.9, abs=0.15)


def test_the_words_give_field_thread_scale_and_the_order_of_passes(drawing):
    words = " ".join("".join(t.itertext()) for t in drawing.iter(f"{SVG}text"))
    for said in ("100 × 140 mm", "white", "true size", "placement line", "tack-down"):
        assert said in words


def test_white_thread_stands_out_from_the_cloth_by_its_shade():
    assert compute_contrast(CLOTH, "#ffffff") > 1.4


def test_the_same_file_gives_the_same_preview(write):
    assert draw_preview(write("square")[0]) == draw_preview(write("square")[0])
