import re
from dataclasses import replace

import pytest
from lxml import etree

from service.craft.drawing.lettering import measure_words
from service.look.palette import compute_contrast
from workers.stitches.preview import CLOTH, draw_preview, take_drawing
from workers.stitches.preview_png import draw_png

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


def test_words_are_wrapped_and_never_cut_off(drawing):
    """Every line ends inside the sheet, and what is said is said to its end."""
    lines = ["".join(text.itertext()) for text in drawing.iter(f"{SVG}text")]
    assert not [line for line in lines if "…" in line]
    width = float(drawing.get("viewBox").split()[2])
    for text, line in zip(drawing.iter(f"{SVG}text"), lines, strict=True):
        assert float(text.get("x")) + measure_words(line, float(text.get("font-size"))) < width
    said = " ".join(lines)
    assert "Order for each piece: placement line, stop, tack-down, stop, edge finish." in said


def test_the_drawing_can_be_taken_without_its_words(write, drawing):
    """The same stitches in the same place, no lettering, and a sheet that ends below the field."""
    alone = etree.fromstring(take_drawing(draw_preview(write("square")[0]), 140))
    assert not list(alone.iter(f"{SVG}text"))
    assert alone.get("viewBox") == "0 0 116 156" and alone.get("height") == "156mm"
    ds = [path.get("d") for path in alone.iter(f"{SVG}path")]
    assert ds[0] == "M0 0L116 0L116 156L0 156Z"
    assert ds[1:] == [path.get("d") for path in drawing.iter(f"{SVG}path")][1 : len(ds)]
    ys = [float(y) for d in ds for y in re.findall(r"[ML]-?[\d.]+ (-?[\d.]+)", d)]
    assert max(ys) == 156


def test_a_thicker_thread_is_drawn_thicker(write, settings):
    """12 wt lies 0.73 mm thick where 40 wt lies 0.4 mm (by the root of the weight; E. Campbell, disputed)."""
    checked, _ = write("star")
    (sewn,) = checked.hooping.sewn
    thick = replace(sewn, piece=replace(sewn.piece, settings=replace(settings, thread_mm=0.73)))
    hooping = replace(checked.hooping, sewn=(thick,), sequence=checked.hooping.passes)
    drawn = draw_preview(replace(checked, hooping=hooping)).decode()
    assert 'stroke-width="0.73"' in drawn and 'stroke-width="0.4"' not in drawn
    assert len(draw_png(replace(checked, hooping=hooping))) != len(draw_png(checked))


def test_another_picture_is_left_as_it_is():
    assert take_drawing(b"<svg/>", 100) == b"<svg/>"
