"""Strip diagrams are to scale, and stage pictures show where each seam's allowance lies."""

import re
from dataclasses import replace

import pytest
from lxml import etree

from service.craft.drawing import (
    CutInStrip,
    PatchView,
    SeamView,
    StageView,
    StripView,
    draw_stage,
    draw_strips,
)

SVG = "{http://www.w3.org/2000/svg}"
SQUARES = StripView(3.5, "3 1/2 in", (CutInStrip(11, 3.5, 3.5, "3 1/2 in square"),))
MIXED = StripView(
    3.875,
    "3 7/8 in",
    (CutInStrip(6, 3.875, 3.875, "3 7/8 in square", 1), CutInStrip(4, 3.5, 3.5, "3 1/2 in square")),
)


def texts(svg):
    return ["".join(node.itertext()) for node in etree.fromstring(svg.encode()).iter(f"{SVG}text")]


def draw_one(*given):
    (svg,) = draw_strips(*given)
    return svg


def test_equal_strips_are_drawn_once_with_how_many(cloths):
    words = texts(draw_one(cloths["frost"], 40.0, "40 in", [MIXED, SQUARES, SQUARES]))
    assert words.count("11 of 3 1⁄2 in square") == 1
    assert "2 strips" in words
    assert "usable width 40 in" in words


def test_cuts_are_to_scale(cloths):
    """Eleven squares of 3 1/2 in fill 38.5 of 40 in."""
    svg = draw_one(cloths["frost"], 40.0, "40 in", [SQUARES])
    filled = re.search(r'd="([^"]*)" fill="#eef1ee"', svg)[1]
    xs = [float(n) for n in re.findall(r"-?[\d.]+", filled)[::2]]
    usable = re.search(r'd="M([\d.]+) 1L[^"]*"[^>]*/>\n<path d="M([\d.]+) 1L', svg)
    assert (max(xs) - min(xs)) / (float(usable[2]) - float(usable[1])) == pytest.approx(38.5 / 40, rel=0.001)


def test_diagonal_cuts_are_drawn_one_or_two_a_square(cloths):
    def count_diagonals(diagonals):
        strip = StripView(4.0, "4 in", (CutInStrip(3, 4.0, 4.0, "4 in square", diagonals),))
        edges = re.findall(
            r'd="([^"]*)" fill="none" stroke="#23201c" stroke-width="0.35"',
            draw_one(cloths["frost"], 40.0, "40 in", [strip]),
        )
        return sum(data.count("M") for data in edges if "Z" not in data)

    assert [count_diagonals(n) for n in (0, 1, 2)] == [0, 3, 6]


def test_words_of_narrow_cuts_take_a_second_line_and_where_that_is_full_the_count_stays(cloths):
    narrow = [CutInStrip(2, 1.0, 2.0, f"1 × 2 in, {name}") for name in ("leek", "bean")]
    strip = StripView(
        2.0, "2 in", (*narrow, CutInStrip(8, 0.5, 2.0, "here"), CutInStrip(3, 4.0, 2.0, "1 1/2 × 2 in"))
    )
    words = texts(draw_one(cloths["frost"], 40.0, "40 in", [strip]))
    assert words.count("8") == 1
    assert {"2 of 1 × 2 in, leek", "2 of 1 × 2 in, bean", "3 of 1 1⁄2 × 2 in"} <= set(words)


@pytest.mark.parametrize(("press", "sign"), [("left", -1), ("right", 1)])
def test_the_wedge_points_to_where_the_allowance_lies(cloths, press, sign):
    patches = (
        PatchView(((0, 0), (3, 0), (3, 3), (0, 3)), "frost"),
        PatchView(((3, 0), (6, 0), (6, 3), (3, 3)), "frost"),
    )
    svg = draw_stage(StageView("pair", 6, 3, cloths, patches, (SeamView((3, 0), (3, 3), press),)))
    wedge = re.search(r'd="M([^"]*)Z" fill="#23201c"', svg)[1]
    (foot, _), _, (tip, _) = ([float(n) for n in corner.split()] for corner in wedge.split("L"))
    assert (tip - foot) * sign > 0


def test_open_seams_say_so_and_unpressed_seams_show_no_wedge(cloths):
    patches = (PatchView(((0, 0), (6, 0), (6, 3), (0, 3)), "frost"),)
    view = StageView(
        "pair", 6, 3, cloths, patches, (SeamView((2, 0), (2, 3), "open"), SeamView((4, 0), (4, 3), ""))
    )
    svg = draw_stage(view)
    assert "open" in texts(svg)
    assert 'Z" fill="#23201c"' not in svg


def test_a_stage_says_its_size_and_the_letters_of_its_cloths(cloths):
    patches = (PatchView(((0, 0), (3, 0), (3, 3), (0, 3)), "leaf"),)
    words = texts(draw_stage(StageView("square", 3, 3, cloths, patches, (), "3 1/2 in", "3 1/2 in")))
    assert words.count("3 1⁄2 in") == 2
    assert "B" in words


def test_no_strips_give_no_sheet(cloths):
    assert draw_strips(cloths["frost"], 40.0, "40 in", []) == []


def test_many_strips_take_several_sheets_and_none_is_lost(cloths):
    strips = [replace(SQUARES, height=3.5 + n / 8, text=f"{n} high") for n in range(40)]
    sheets = draw_strips(cloths["frost"], 40.0, "40 in", strips, max_height_mm=100.0)
    heights = [float(etree.fromstring(svg.encode()).get("viewBox").split()[3]) for svg in sheets]
    assert len(sheets) > 1
    assert max(heights) <= 100.0
    assert [w for svg in sheets for w in texts(svg) if w.endswith("high")] == [f"{n} high" for n in range(40)]


def test_a_backing_longer_than_wide_still_fits_a_sheet(cloths):
    back = StripView(90.0, "90 in", (CutInStrip(1, 40.0, 90.0, "40 × 90 in"),))
    (svg,) = draw_strips(cloths["frost"], 40.0, "40 in", [back], max_height_mm=150.0)
    assert float(etree.fromstring(svg.encode()).get("viewBox").split()[3]) <= 150.0
