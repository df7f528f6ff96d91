"""What is cut for a unit is drawn for every kind of unit: slanting cuts, templates and folded corners too."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise

import pytest
from lxml import etree
from shapely import Polygon

from service.craft.document import read_document
from service.craft.drawing import draw_cuts, take_apart, view_cloths, view_cuts
from service.craft.units import CuttingRules
from tests.block_shapes import BASE, DARK, MAIN, box, corners_cut
from tests.craft.units.conftest import document
from tests.straight_blocks import unit

SVG = "{http://www.w3.org/2000/svg}"
RULES = CuttingRules(Fraction(1, 4), Fraction(1, 8))
STAR = {
    "unit": "eight-pointed star",
    "size": ["12", "12"],
    "diamonds": ["leaf", "soil"],
    "background": "frost",
}
FIELD = {"unit": "hexagons", "side": "2", "rows": [["leaf", "soil"], ["leaf"]], "edge": "frost"}
KITE = {"unit": "kite", "size": ["4", "4"], "kite": "leaf", "background": "frost"}
RING = {
    "unit": "fan blade ring",
    "size": ["14", "14"],
    "fabric": "frost",
    "fabrics": ["leaf"],
    "reach": "6",
    "hole": "1 1/2",
    "centre": {"fabric": "soil", "size": "3 1/2"},
}


def read(top):
    return read_document(document(top))


def draw(top):
    project = read(top)
    return draw_cuts(view_cuts(project.top, RULES, "in"), view_cloths(project.fabrics), title="cuts")


def cut_lines(svg):
    """Straight lines drawn as a line to cut, in mm."""
    found = re.findall(r'd="M([\d.]+) ([\d.]+)L([\d.]+) ([\d.]+)" stroke="#23201c" stroke-width="0.5"', svg)
    return [tuple(map(float, line)) for line in found]


def test_the_strips_of_a_star_show_a_slanting_cut_before_and_after_every_diamond():
    """Four diamonds to a strip: five cuts at 45 degrees, √2 strip widths apart along it (geometry)."""
    views = view_cuts(read(STAR).top, RULES, "in")
    assert [view.diamonds for view in views] == [4, 4, 0, 0]
    slants = [line for line in cut_lines(draw(STAR)) if line[3] < line[1] and line[2] - line[0] < 45]
    strips = [slants[:5], slants[5:10]]
    for strip in strips:
        assert all(x1 - x0 == pytest.approx(y0 - y1, abs=0.02) for x0, y0, x1, y1 in strip)
        steps = [after[0] - before[0] for before, after in pairwise(strip)]
        height = strip[0][1] - strip[0][3]
        assert steps == pytest.approx([height * 2**0.5] * 4, abs=0.1)


@pytest.mark.parametrize("top", [FIELD, KITE, RING], ids=["hexagons", "kite", "ring"])
def test_what_a_template_cuts_is_drawn_in_its_shape_with_the_seam_inside(top):
    views = [view for view in view_cuts(read(top).top, RULES, "in") if "template" in " ".join(view.words)]
    assert views
    for view in views:
        cut = Polygon([(x * view.width, y * view.height) for x, y in view.shape])
        seam = Polygon([(x * view.width, y * view.height) for x, y in view.seam_line])
        assert cut.contains(seam)
        assert cut.exterior.distance(seam) == pytest.approx(0.25, abs=0.01)


def test_a_hexagon_is_cut_with_six_long_sides():
    """2 in finished sides come to 2 + 2 x 1/4 x tan 30 in each (geometry)."""
    hexagon = view_cuts(read(FIELD).top, RULES, "in")[0]
    points = [(x * hexagon.width, y * hexagon.height) for x, y in hexagon.shape]
    assert Polygon(points).exterior.length == pytest.approx(6 * (2 + 0.5 / 3**0.5), rel=0.01)


def test_a_template_turned_over_is_drawn_as_its_mirror_image():
    halves = [view for view in view_cuts(read(KITE).top, RULES, "in") if view.cloth == "frost"]
    one, other = (Polygon(view.shape) for view in halves)
    widest = max(x for x, _ in one.exterior.coords)
    mirrored = Polygon([(widest - x, y) for x, y in one.exterior.coords])
    assert {"cut with template B", "cut with template B, turned over"} == {view.words[-1] for view in halves}
    assert mirrored.symmetric_difference(other).area < 0.001


@pytest.mark.parametrize(
    "top",
    [
        {
            "unit": "flying geese",
            "size": ["4", "2"],
            "goose": "leaf",
            "sky": "frost",
            "method": "corner squares",
        },
        {
            "unit": "corner squares",
            "size": ["4", "4"],
            "fabric": "leaf",
            "corners": {"size": "1 1/2", "fabric": "frost", "at": ["nw"]},
        },
        {
            "unit": "square in a square",
            "inside": "leaf",
            "size": ["4", "4"],
            "fabric": "frost",
            "method": "corner squares",
        },
    ],
)
def test_a_square_folded_over_a_corner_is_sewn_on_its_diagonal_and_cut_beside_it(top):
    base, corner = view_cuts(read(top).top, RULES, "in")
    assert (base.folded, len(corner.folded)) == ((), 1)
    assert "sewn on a diagonal, then trimmed" in corner.words
    assert len(cut_lines(draw(top))) == 1


def test_a_corner_square_of_a_block_given_by_its_corners_is_folded_too():
    """A plain square of the block is not, though it is cut as large."""
    shapes = [
        *corners_cut(3, 1, MAIN, BASE),
        *box(3, 0, 3, 3, DARK),
        *box(6, 0, 1, 1, MAIN),
        *box(6, 1, 1, 2, BASE),
    ]
    views = view_cuts(read(unit(shapes, 7, 3)).top, RULES, "in")
    assert {(view.cloth, view.size) for view in views if view.folded} == {(BASE, "1 1/2 in by 1 1/2 in")}
    assert len([view for view in views if view.size == "1 1/2 in by 1 1/2 in" and not view.folded]) == 1


def test_a_long_strip_says_that_it_is_drawn_shorter_and_others_do_not():
    strips = [{"width": "2", "fabric": "leaf"}, {"width": "2", "fabric": "frost"}]
    raw = {"unit": "strip set", "strips": strips, "length": "30", "cut_into": "4"}
    said = ["".join(node.itertext()) for node in etree.fromstring(draw(raw).encode()).iter(f"{SVG}text")]
    assert said.count("drawn shorter than it is") == 2
    assert "shorter" not in draw(STAR)


def test_small_cuts_beside_a_large_one_keep_their_shape():
    """Drawn larger than to scale on both sides alike; only what is far longer than wide is drawn shorter."""
    small = [
        *box(18, 0, 2, 2, MAIN),
        *box(18, 2, 2, 4, MAIN),
        *box(18, 6, 2, 5, MAIN),
        *box(18, 11, 2, 7, BASE),
    ]
    assert "shorter" not in draw(unit([*box(0, 0, 18, 18, DARK), *small], 20, 18))
    strip = [*box(18, 0, 2, 18, MAIN)]
    assert (
        draw(unit([*box(0, 0, 18, 18, DARK), *strip], 20, 18)).count("drawn shorter than it is</text>") == 1
    )


def test_the_patches_of_a_star_are_taken_apart_evenly():
    """Neighbours come to lie apart by much the same everywhere, and none touches another."""
    shapes = [Polygon(patch.points) for patch in take_apart(read(STAR).top).patches]
    gaps = [min(shape.distance(other) for other in shapes if other is not shape) for shape in shapes]
    assert min(gaps) > 0.2 and max(gaps) < 2.5 * min(gaps)
