"""The top is drawn to one scale, with true curves, its size in words, and without what is not ours to show."""

import re
from dataclasses import replace

import pytest
from lxml import etree

from service.craft.drawing import draw_top, draw_unit
from service.craft.drawing.cloth import draw_patches
from service.craft.drawing.sheet import Sheet

SVG = "{http://www.w3.org/2000/svg}"


def texts(svg):
    return ["".join(node.itertext()) for node in etree.fromstring(svg.encode()).iter(f"{SVG}text")]


def test_the_same_view_gives_the_same_bytes(bed):
    assert draw_top(bed) == draw_top(bed)


def test_size_and_cloths_are_written_beside_the_picture(bed):
    words = texts(draw_top(bed))
    assert "8 in" in words and "4 in" in words
    assert [word for word in words if word.endswith("cloth")] == [
        "A  frost cloth",
        "B  leaf cloth",
        "C  night cloth",
    ]


def test_a_metric_project_is_measured_in_metric(bed):
    assert {"20.3 cm", "10.2 cm"} <= set(texts(draw_top(replace(bed, measure="cm"))))


def test_patches_keep_their_proportions(bed):
    """An 8 x 4 in top is twice as wide as high on the sheet, whatever the room."""
    for room in ((172, 150), (60, 60), (300, 40)):
        svg = draw_top(bed, max_width_mm=room[0], max_height_mm=room[1], legend=False)
        edges = re.findall(r'd="(M[^"C]*)" stroke="#23201c"', svg)
        numbers = [float(n) for n in re.findall(r"-?[\d.]+", next(d for d in edges if d.count("Z") == 2))]
        xs, ys = numbers[::2], numbers[1::2]
        assert (max(xs) - min(xs)) / (max(ys) - min(ys)) == pytest.approx(2, rel=0.001)


def test_nothing_is_drawn_outside_the_sheet(bed):
    for svg in (draw_top(bed), draw_unit(bed), draw_top(bed, max_width_mm=40, max_height_mm=60)):
        root = etree.fromstring(svg.encode())
        width, height = (float(n) for n in root.get("viewBox").split()[2:])
        for node in root.iter(f"{SVG}path"):
            numbers = [float(n) for n in re.findall(r"-?[\d.]+", node.get("d"))]
            assert min(numbers) >= 0
            assert max(numbers[::2]) <= width
            assert max(numbers[1::2]) <= height


def test_a_piece_is_drawn_as_its_true_curve(bed):
    assert re.search(r'd="M[^"]*C[^"]*Z" fill="#5f8f4e"', draw_top(bed))


def test_what_viewers_must_own_is_a_dashed_box_in_public_and_itself_in_the_studio(bed, leek):
    owned = replace(bed, pieces=(replace(leek, bring_own=True),))
    public = draw_top(owned)
    assert "C" not in "".join(re.findall(r'd="([^"]*)"', public))
    assert "bring your own" in " ".join(texts(public))
    assert "leek (bring your own)" in public
    assert draw_top(owned, public=False) == draw_top(bed, public=False)


def test_dark_neighbours_are_told_apart_by_a_lighter_casing(bed, cloths):
    def count_strokes(key):
        sheet = Sheet(20, 20, title="t")
        draw_patches(sheet, [([[(1, 1), (9, 1), (9, 9)]], key)], cloths)
        return sheet.to_svg().count('stroke-width="0.91"')

    assert count_strokes("night") == 1
    assert count_strokes("frost") == 0


def test_an_unnamed_cloth_is_drawn_bare_rather_than_failing(bed):
    assert "<svg" in draw_top(replace(bed, cloths={}))
