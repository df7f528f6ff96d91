"""Stage pictures show where each seam's allowance lies."""

import re

import pytest
from lxml import etree

from service.craft.drawing import PatchView, SeamView, StageView, draw_stage
from service.craft.drawing.lettering import measure_words
from service.craft.drawing.signs import DIMENSION_SIZE_MM

SVG = "{http://www.w3.org/2000/svg}"


def texts(svg):
    return ["".join(node.itertext()) for node in etree.fromstring(svg.encode()).iter(f"{SVG}text")]


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


def test_in_narrow_strips_a_wedge_stands_beside_the_letters_and_other_wedges(cloths):
    """Three strips 1 1/4 in high and 12 in long: letters stand in the middle, where the wedges would be."""
    rows = [((0, y), (12, y), (12, y + 1.25), (0, y + 1.25)) for y in (0, 1.25, 2.5)]
    patches = tuple(PatchView(row, key) for row, key in zip(rows, ("frost", "leaf", "night"), strict=True))
    seams = (SeamView((0, 1.25), (12, 1.25), "down"), SeamView((0, 2.5), (12, 2.5), "up"))
    svg = draw_stage(StageView("strips", 12, 3.75, cloths, patches, seams))
    letters = [
        (float(node.get("x")), float(node.get("y")))
        for node in etree.fromstring(svg.encode()).iter(f"{SVG}text")
    ]
    wedges = [
        [tuple(map(float, corner.split())) for corner in data.split("L")]
        for data in re.findall(r'd="M([^"]*)Z" fill="#23201c"', svg)
    ]
    tips = [wedge[2] for wedge in wedges]
    assert len(letters) == 3 and len(tips) == 2
    assert all(abs(x - tip) > 2 for x, _ in letters for tip, _ in tips)
    assert abs(tips[0][0] - tips[1][0]) > 3


def test_the_height_of_a_low_stage_is_not_cut_off_above(cloths):
    """Written upwards along the side of a strip 1 1/2 in high, its end stays on the sheet."""
    strip = (PatchView(((0, 0), (22, 0), (22, 1), (0, 1)), "frost"),)
    svg = draw_stage(StageView("sashing", 22, 1, cloths, strip, (), "22 1/2 in", "1 1/2 in"))
    _, y = map(float, svg.partition("rotate(-90 ")[2].partition(")")[0].split())
    assert y - measure_words("1 1/2 in", DIMENSION_SIZE_MM) / 2 >= 0
