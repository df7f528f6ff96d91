"""Strip diagrams: true to the scale they state, cuts from the left in their order, the rest hatched."""

import re
from dataclasses import replace

import pytest
from lxml import etree

from service.craft.drawing import ColumnInStrip, CutInStrip, StripView, draw_strips
from service.craft.drawing.strip_columns import list_column_waste
from service.craft.drawing.strip_lanes import LABEL_MM, Lane, list_waste

SVG = "{http://www.w3.org/2000/svg}"
MM = 25.4
SQUARES = StripView(3.5, "3 1/2 in", (CutInStrip(11, 3.5, 3.5, "3 1/2 in square", letter="b"),))
MIXED = StripView(
    3.875,
    "3 7/8 in",
    (
        CutInStrip(6, 3.875, 3.875, "3 7/8 in square", 1, letter="a"),
        CutInStrip(4, 3.5, 3.5, "3 1/2 in square", letter="b"),
    ),
)
BACK = StripView(90.0, "90 in", (CutInStrip(1, 40.0, 90.0, "40 × 90 in", letter="a"),))
ALONG = StripView(52.0, "52 in", (CutInStrip(4, 2.5, 52.0, "2 1/2 × 52 in", letter="a"),))


def texts(svg):
    return ["".join(node.itertext()) for node in etree.fromstring(svg.encode()).iter(f"{SVG}text")]


def scale_of(svg):
    return float(re.search(r"drawn 1 : ([\d.]+)", "".join(texts(svg)))[1])


def corners(data):
    """Corners of closed figures in a path."""
    return [
        [tuple(map(float, pair.split())) for pair in figure.split("L")]
        for figure in re.findall(r"M([^MZ]*)Z", data)
    ]


def pieces(svg, colour="#eef1ee"):
    """Left, top, width and height in mm of every piece filled with a colour."""
    boxes = []
    for data in re.findall(rf'd="([^"]*)" fill="{colour}"', svg):
        for figure in corners(data):
            xs, ys = zip(*figure, strict=True)
            boxes.append((min(xs), min(ys), max(xs) - min(xs), max(ys) - min(ys)))
    return boxes


def height_of(svg):
    return float(etree.fromstring(svg.encode()).get("viewBox").split()[3])


@pytest.mark.parametrize("strips", [[MIXED, SQUARES], [BACK], [ALONG], [SQUARES]])
def test_every_piece_is_as_long_and_as_high_as_the_scale_says(cloths, strips):
    for svg, strip in zip(draw_strips(cloths["frost"], 40.0, "40 in", strips), strips, strict=True):
        if "drawn" in "".join(texts(svg)):
            scale = scale_of(svg)
        wanted = [(cut.along, cut.across) for cut in strip.cuts for _ in range(cut.count)]
        drawn = [(w * scale / MM, h * scale / MM) for _, _, w, h in pieces(svg)]
        assert [n for pair in drawn for n in pair] == pytest.approx(
            [n for pair in wanted for n in pair], abs=0.02 * scale / MM + 1e-9
        )


def test_pieces_stand_from_the_left_selvedge_on_in_the_order_they_are_cut(cloths):
    (svg,) = draw_strips(cloths["frost"], 40.0, "40 in", [MIXED])
    lefts = [left for left, _, _, _ in pieces(svg)]
    assert lefts[0] == pytest.approx(LABEL_MM) and lefts == sorted(lefts)


def test_equal_strips_are_drawn_once_with_how_many_and_their_numbers(cloths):
    svgs = draw_strips(cloths["frost"], 40.0, "40 in", [MIXED, *[SQUARES] * 4])
    assert len(svgs) == 2
    assert {"Strip 1", "3 7⁄8 in"} <= set(texts(svgs[0]))
    assert {"Strips 2–5", "× 4, each 3 1⁄2 in"} <= set(texts(svgs[1]))


def test_each_size_has_its_letter_on_every_piece_and_its_words_below(cloths):
    words = texts(draw_strips(cloths["frost"], 40.0, "40 in", [MIXED])[0])
    assert (words.count("a"), words.count("b")) == (6, 4)
    assert {"a  6 of 3 7⁄8 in square", "b  4 of 3 1⁄2 in square"} <= set(words)


def test_the_cloths_letter_its_usable_width_and_both_selvedges_stand_over_the_first_strip(cloths):
    first, second = draw_strips(cloths["leaf"], 40.0, "40 in", [MIXED, SQUARES])
    assert texts(first).count("selvedge") == 2
    assert {"B", "usable width 40 in"} <= set(texts(first))
    assert "usable width 40 in" not in texts(second)
    cut_edges = draw_strips(cloths["leaf"], 18.0, "18 in", [SQUARES], selvedges=False)[0]
    assert "selvedge" not in texts(cut_edges)


def test_what_is_left_over_is_hatched_and_nothing_else():
    """40 in by 3 7/8 in less 6 squares of 3 7/8 and 4 of 3 1/2 in leaves what the boxes add up to."""
    lane = Lane(10.0, 38.75, 400.0, 10.0)
    boxes = list_waste(MIXED, lane)
    area = sum(w * h for _, _, w, h in boxes) / 100
    assert area == pytest.approx(40 * 3.875 - 6 * 3.875**2 - 4 * 3.5**2)
    assert (
        list_waste(StripView(2.0, "2 in", (CutInStrip(1, 40.0, 2.0, "all"),)), replace(lane, height=20.0))
        == []
    )


def test_diagonal_cuts_are_drawn_one_or_two_a_square(cloths):
    def count_diagonals(diagonals):
        strip = StripView(4.0, "4 in", (CutInStrip(3, 4.0, 4.0, "4 in square", diagonals),))
        edges = re.findall(
            r'd="([^"]*)" stroke="#23201c" stroke-width="0.35"',
            draw_strips(cloths["frost"], 40.0, "40 in", [strip])[0],
        )
        return sum(data.count("M") for data in edges if "Z" not in data)

    # the selvedges are drawn with lines of that width too
    assert [count_diagonals(n) - count_diagonals(0) for n in (0, 1, 2)] == [0, 3, 6]


def test_a_strip_for_diamonds_shows_its_slanting_cuts_at_45_degrees(cloths):
    """Three diamonds of a strip take four cuts, each as far across as along."""
    run = CutInStrip(1, 2.5 * (1 + 3 * 2**0.5), 2.5, "for diamonds", diamonds=3)
    (svg,) = draw_strips(cloths["frost"], 40.0, "40 in", [StripView(2.5, "2 1/2 in", (run,))])
    found = re.findall(r"M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)", svg)
    slants = [
        (x0, y0, x1, y1)
        for x0, y0, x1, y1 in (map(float, line) for line in found)
        if x1 > x0 and y1 < y0 and abs((x1 - x0) - (y0 - y1)) < 0.03 and y0 - y1 > 5
    ]
    assert len(set(slants)) == 4


def test_diamonds_of_a_strip_that_lies_along_the_length_are_cut_inside_it(cloths):
    run = CutInStrip(1, 2.5, 2.5 * (1 + 3 * 2**0.5), "for diamonds", diamonds=3)
    (svg,) = draw_strips(cloths["frost"], 40.0, "40 in", [StripView(20.0, "20 in", (run,))])
    [(left, top, wide, high)] = pieces(svg)
    edges = "".join(re.findall(r'd="([^"]*)" stroke="#23201c" stroke-width="0.35"', svg))
    found = [
        tuple(map(float, line)) for line in re.findall(r"M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)(?!L)", edges)
    ]
    slants = [line for line in found if line[2] - line[0] == pytest.approx(line[3] - line[1], abs=0.02)]
    assert all(x0 == left and x1 - left == pytest.approx(wide, abs=0.02) for x0, _, x1, _ in slants)
    assert len(slants) == 4
    assert all(top - 0.02 <= y0 < y1 <= top + high + 0.02 for _, y0, _, y1 in slants)


COLUMNS = StripView(
    6.0,
    "6 in",
    columns=(
        ColumnInStrip(
            4.0,
            "4 in",
            (
                CutInStrip(1, 4.0, 3.5, "4 × 3 1/2 in", letter="a"),
                CutInStrip(1, 3.0, 2.0, "3 × 2 in", letter="b"),
            ),
        ),
        ColumnInStrip(2.0, "2 in", (CutInStrip(3, 2.0, 2.0, "2 in square", letter="c"),)),
    ),
)


def test_pieces_of_a_stacked_strip_lie_one_above_the_other_in_their_columns_to_scale(cloths):
    (svg,) = draw_strips(cloths["frost"], 40.0, "40 in", [COLUMNS])
    scale = scale_of(svg) / MM
    drawn = [
        (round((x - LABEL_MM) * scale, 1), round(w * scale, 1), round(h * scale, 1))
        for x, _, w, h in pieces(svg)
    ]
    assert drawn == [(0, 4, 3.5), (0, 3, 2), *[(4, 2, 2)] * 3]
    tops = [y for _, y, _, _ in pieces(svg)]
    assert tops[1] > tops[0] and tops[4] > tops[3] > tops[2]
    assert {"a", "b", "c", "4 in", "2 in"} <= set(texts(svg))


def test_what_is_left_over_of_a_stacked_strip_is_hatched():
    """6 by 40 in less 4 x 3 1/2, 3 x 2 and three of 2 x 2 in."""
    boxes = list_column_waste(COLUMNS, Lane(0.0, 60.0, 400.0, 10.0))
    assert sum(w * h for _, _, w, h in boxes) / 100 == pytest.approx(240 - 14 - 6 - 12)


def test_words_of_narrow_cuts_take_a_second_line_and_where_that_is_full_count_and_letter_stay(cloths):
    narrow = [CutInStrip(2, 1.0, 2.0, f"1 × 2 in, {name}", letter="a") for name in ("leek", "bean")]
    strip = StripView(2.0, "2 in", (*narrow, CutInStrip(8, 0.5, 2.0, "here", letter="c")))
    words = texts(draw_strips(cloths["frost"], 40.0, "40 in", [strip])[0])
    assert words.count("8 c") == 1
    assert {"a  2 of 1 × 2 in, leek", "a  2 of 1 × 2 in, bean"} <= set(words)


def test_no_strips_give_no_drawing(cloths):
    assert draw_strips(cloths["frost"], 40.0, "40 in", []) == []


def test_each_set_of_equal_strips_is_a_drawing_of_its_own_so_that_a_page_may_break(cloths):
    strips = [replace(SQUARES, height=3.5 + n / 8, text=f"{n} high") for n in range(40)]
    svgs = draw_strips(cloths["frost"], 40.0, "40 in", strips)
    assert [w for svg in svgs for w in texts(svg) if w.endswith("high")] == [f"{n} high" for n in range(40)]
    assert max(map(height_of, svgs)) < 60


@pytest.mark.parametrize("strip", [BACK, ALONG])
def test_a_strip_much_higher_than_the_others_has_a_scale_of_its_own_and_says_it(cloths, strip):
    high, low = draw_strips(cloths["frost"], 40.0, "40 in", [strip, SQUARES])
    assert scale_of(high) > scale_of(low)
    assert height_of(high) <= 110


def test_strips_along_the_length_stay_wide_enough_for_their_letters(cloths):
    (svg,) = draw_strips(cloths["frost"], 40.0, "40 in", [ALONG])
    assert min(w for _, _, w, _ in pieces(svg)) >= 3
    assert texts(svg).count("a") == 4
