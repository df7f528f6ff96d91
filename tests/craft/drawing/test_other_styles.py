"""Drawings taken apart, to colour in and of cuts say what they show, hide nothing and lose no patch."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction
from math import dist

import pytest
from hypothesis import HealthCheck, given, settings
from lxml import etree
from shapely import Polygon
from shapely.strtree import STRtree

from service.craft.document import read_document
from service.craft.drawing import (
    draw_cuts,
    draw_exploded,
    draw_lines,
    take_apart,
    view_cloths,
    view_cuts,
    view_unit,
)
from service.craft.units import CuttingRules
from tests.craft.units.conftest import document, tops

SVG = "{http://www.w3.org/2000/svg}"
RULES = CuttingRules(Fraction(1, 4), Fraction(1, 8))
slow = settings(
    deadline=None, max_examples=40, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)


def texts(svg):
    return ["".join(node.itertext()) for node in etree.fromstring(svg.encode()).iter(f"{SVG}text")]


def read(top):
    return read_document(document(top))


def areas(patches, cloth):
    """The areas of all patches of a cloth, the smallest first."""
    return sorted(Polygon(p.points).area for p in patches if p.cloth == cloth)


@slow
@given(tops())
def test_taken_apart_every_patch_keeps_its_cloth_and_its_size(raw):
    """Held against a general geometry library (Shapely)."""
    project = read(raw)
    view = view_unit(project.top, title="x", measure="in", cloths=view_cloths(project.fabrics))
    apart = take_apart(project.top)
    assert len(apart.patches) == len(view.patches)
    for cloth in project.fabrics:
        assert areas(apart.patches, cloth) == pytest.approx(areas(view.patches, cloth))
    xs, ys = zip(*(point for patch in apart.patches for point in patch.points), strict=True)
    assert min(xs) == pytest.approx(0, abs=1e-6) and max(xs) == pytest.approx(apart.width)
    assert min(ys) == pytest.approx(0, abs=1e-6) and max(ys) == pytest.approx(apart.height)


@slow
@given(tops())
def test_taken_apart_no_two_patches_overlap(raw):
    shapes = [Polygon(p.points).buffer(-1e-6) for p in take_apart(read(raw).top).patches]
    tree = STRtree(shapes)
    for i, shape in enumerate(shapes):
        assert [j for j in tree.query(shape, predicate="intersects") if j != i] == []


@pytest.mark.parametrize(
    "places", [["se"], ["nw", "ne"], ["nw", "se"], ["nw", "ne", "se"], ["nw", "ne", "se", "sw"]]
)
def test_every_corner_square_stands_off_its_base_by_the_same_gap(places):
    """However many there are: the base stays where it is. A fiftieth of the longer side."""
    corners = {"size": "1", "fabric": "leaf", "at": places}
    top = {"unit": "corner squares", "size": ["6", "4"], "fabric": "frost", "corners": corners}
    base, *others = (Polygon(patch.points) for patch in take_apart(read(top).top).patches)
    assert [base.distance(corner) for corner in others] == pytest.approx([6 / 50] * len(places))


def test_rows_lie_further_apart_than_the_units_of_a_row():
    """What is sewn last is furthest apart."""
    square = {"unit": "patch", "size": ["2", "2"], "fabric": "leaf"}
    apart = take_apart(read({"unit": "grid", "rows": [[square, square], [square, square]]}).top)
    assert apart.height > apart.width > 4


def test_a_line_drawing_has_no_colour_and_numbers_every_cloth(bed):
    svg = draw_lines(bed)
    assert set(re.findall(r'fill="(#\w+)"', svg)) <= {"#23201c", "#ffffff"}
    assert {"1", "2", "3", "1  frost cloth", "2  leaf cloth", "3  night cloth"} <= set(texts(svg))


def test_blank_it_has_neither_numbers_nor_a_legend(bed):
    assert texts(draw_lines(bed, numbered=False)) == ["8 in", "4 in"]


def test_what_viewers_own_is_a_dashed_box_in_a_public_line_drawing(bed):
    [leek] = bed.pieces
    own = replace(bed, pieces=(replace(leek, bring_own=True),))
    assert "C" not in "".join(re.findall(r' d="([^"]*)"', draw_lines(own)))
    assert "C" in "".join(re.findall(r' d="([^"]*)"', draw_lines(own, public=False)))


def test_an_exploded_drawing_says_so_in_words(bed):
    top = read({"unit": "half-square triangle", "size": ["3", "3"], "fabrics": ["leaf", "frost"]}).top
    view = view_unit(top, title="leek leaf", measure="in", cloths=bed.cloths)
    root = etree.fromstring(draw_exploded(view, take_apart(top)).encode())
    assert root[0].text == "leek leaf, taken apart"
    assert "2 patches moved apart" in root[1].text


@pytest.mark.parametrize(
    ("unit", "cuts", "beside", "around"),
    [
        ({"unit": "half-square triangle", "method": "cut triangles"}, 1, 0, False),
        ({"unit": "half-square triangle", "method": "two at a time"}, 1, 1, False),
        ({"unit": "half-square triangle", "method": "four at a time"}, 2, 0, True),
        ({"unit": "half-square triangle", "method": "eight at a time"}, 4, 2, False),
        ({"unit": "quarter-square triangle", "method": "cut triangles"}, 2, 0, False),
        ({"unit": "quarter-square triangle", "method": "two at a time"}, 2, 1, False),
    ],
)
def test_each_way_of_making_has_its_cuts_and_seams(unit, cuts, beside, around):
    """As the steps say it: one diagonal or both, seams beside them, or all round."""
    count = 2 if unit["unit"].startswith("half") else 4
    raw = unit | {"size": ["3", "3"], "fabrics": ["leaf", "frost", "leaf", "frost"][:count]}
    for view in view_cuts(read(raw).top, RULES, "in"):
        assert (len(view.cuts), len(view.beside), view.around) == (cuts, beside, around)


def test_a_cut_is_drawn_with_its_size_cloth_and_what_it_gives(bed):
    raw = {"unit": "half-square triangle", "size": ["3", "3"], "fabrics": ["leaf", "frost"]}
    words = texts(draw_cuts(view_cuts(read(raw).top, RULES, "in"), bed.cloths, title="cuts"))
    assert words.count("3 7⁄8 in") == 4
    assert {"B  leaf cloth", "A  frost cloth", "gives 2", "sewn two at a time"} <= set(words)


def test_a_unit_without_patches_of_its_own_gives_an_empty_sheet(bed):
    assert texts(draw_cuts([], bed.cloths, title="cuts")) == []


RING = {
    "unit": "fan blade ring",
    "size": ["14", "14"],
    "fabric": "frost",
    "fabrics": ["leaf", "soil"],
    "reach": "6",
    "hole": "1 1/2",
    "centre": {"fabric": "frost", "size": "3 1/2"},
}


@pytest.mark.parametrize("tips", ["pointed", "flat", "round"])
def test_a_ring_taken_apart_shows_its_whole_background_and_hides_nothing(tips):
    """Background, blades and disc lie side by side; 20 blades of two cloths, each by itself."""
    patches = take_apart(read(RING | {"tips": tips}).top).patches
    shapes = [Polygon(patch.points).buffer(-1e-6) for patch in patches]
    tree = STRtree(shapes)
    assert len(patches) == 22
    assert not any(patch.hole for patch in patches)
    assert areas(patches, "frost")[-1] == pytest.approx(14 * 14)
    for i, shape in enumerate(shapes):
        assert [j for j in tree.query(shape, predicate="intersects") if j != i] == []


def test_a_background_is_numbered_beside_what_lies_on_it():
    """In a corner of it, further out than all blades: the middle belongs to the disc, which has a number of its own."""
    project = read(RING | {"fabrics": ["leaf"], "centre": {"fabric": "soil", "size": "3 1/2"}})
    view = view_unit(project.top, title="x", measure="in", cloths=view_cloths(project.fabrics))
    words = {
        "".join(node.itertext()): (float(node.get("x")), float(node.get("y")))
        for node in etree.fromstring(draw_lines(view).encode()).iter(f"{SVG}text")
    }
    background, blade, disc = (words[number] for number in "123")
    assert dist(background, disc) > 1.5 * dist(blade, disc)
