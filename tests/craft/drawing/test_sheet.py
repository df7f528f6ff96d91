"""A sheet writes well-formed SVG with true sizes, escaped words and nothing that needs an id."""

import pytest
from lxml import etree

from service.craft.drawing import Sheet
from service.craft.drawing.lettering import fit_words, measure_words, write_words
from service.craft.drawing.sheet import trace_ring
from service.craft.drawing.styles import CUT, FOLD, PATCH_EDGE, SEW, SEWN, WITNESS
from service.craft.outlines import Cubic, Line, Ring

SVG = "{http://www.w3.org/2000/svg}"
NASTY = "<script>&\"' ]]>"


def read(sheet):
    return etree.fromstring(sheet.to_svg().encode())


def test_the_sheet_is_as_large_in_millimetres_as_its_coordinates():
    """width="50mm" with viewBox 50 makes a user unit a millimetre (CSS: 1in = 25.4mm = 96px)."""
    root = read(Sheet(50, 20, title="bed"))
    assert (root.get("width"), root.get("height"), root.get("viewBox")) == ("50mm", "20mm", "0 0 50 20")


def test_words_from_outside_are_escaped_everywhere():
    sheet = Sheet(50, 20, title=NASTY, description=NASTY)
    write_words(sheet, (1, 5), NASTY, 3)
    root = read(sheet)
    assert root.findtext(f"{SVG}title") == root.findtext(f"{SVG}desc") == root.get("aria-label") == NASTY
    assert "".join(root.find(f"{SVG}text").itertext()) == NASTY
    assert root.find(f"{SVG}script") is None


def test_title_comes_first_so_that_readers_find_it():
    sheet = Sheet(50, 20, title="bed", description="of leeks")
    sheet.box(0, 0, 5, 5, stroke=CUT)
    assert [child.tag for child in read(sheet)] == [f"{SVG}title", f"{SVG}desc", f"{SVG}path"]


def test_a_fraction_is_built_of_small_figures_and_reads_in_order():
    sheet = Sheet(50, 20, title="t")
    write_words(sheet, (1, 5), "3 7/8 in", 10)
    text = read(sheet).find(f"{SVG}text")
    assert "".join(text.itertext()) == "3 7⁄8 in"
    sizes = {span.text: float(span.get("font-size")) for span in text}
    assert sizes["7"] == sizes["8"] < 7
    lifts = {span.text: float(span.get("dy", 0)) for span in text}
    assert lifts["7"] < 0 < lifts["⁄"] == -lifts["7"]


def test_anchored_words_end_or_centre_where_they_are_put():
    for anchor, share in (("start", 0), ("middle", 0.5), ("end", 1)):
        sheet = Sheet(50, 20, title="t")
        write_words(sheet, (30, 5), "2 1/2 in", 4, anchor=anchor)
        x = float(read(sheet).find(f"{SVG}text").get("x"))
        assert x == pytest.approx(30 - share * measure_words("2 1/2 in", 4), abs=0.01)


def test_words_are_cut_to_fit_and_say_so():
    assert fit_words("soil", 3, 50) == "soil"
    short = fit_words("soil brown dot", 3, 12)
    assert short.endswith("…")
    assert measure_words(short, 3) <= 12
    assert fit_words("soil", 3, 1) == ""


def test_the_lines_look_as_the_look_says():
    assert PATCH_EDGE.width_mm == 0.35
    assert not CUT.dash_mm and not SEWN.dash_mm
    assert SEW.dash_mm[0] == SEW.dash_mm[1]
    assert FOLD.dash_mm[0] == 0 and FOLD.round_ends
    assert WITNESS.width_mm < SEWN.width_mm < PATCH_EDGE.width_mm < CUT.width_mm


def test_curves_are_written_as_curves():
    ring = Ring((0.0, 0.0), (Line((1.0, 0.0)), Cubic((2, 0), (2, 1), (1.5, 1.255))))
    assert trace_ring(ring) == "M0 0L1 0C2 0 2 1 1.5 1.25Z"


def test_a_file_that_stands_alone_carries_its_fonts_and_names_no_other_place():
    sheet = Sheet(50, 20, title="t")
    alone = sheet.to_svg(embed_fonts=True)
    assert alone.count("@font-face") == 3
    assert "http" not in alone.replace("http://www.w3.org/2000/svg", "")
    etree.fromstring(alone.encode())
