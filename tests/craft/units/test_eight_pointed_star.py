"""An eight-pointed star: one length in all its short edges, and what is cut for it."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from math import sqrt
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Polygon

from service.craft.faults import DocumentFaults
from service.craft.measure import ROOT_2
from service.craft.units import CuttingRules, EightPointedStar

from .conftest import read

RULES = CuttingRules(Fraction(1, 4), Fraction(1, 8))


def star(side: object = 12, diamonds: tuple[str, str] = ("leaf", "soil")) -> EightPointedStar:
    return EightPointedStar(side=Fraction(str(side)), diamonds=diamonds, background="frost")


def raw(**more: Any) -> dict[str, Any]:
    return {
        "unit": "eight-pointed star",
        "size": ["12", "12"],
        "diamonds": ["leaf", "soil"],
        "background": "frost",
    } | more


def squared(p: Any, q: Any) -> Any:
    return (p[0] - q[0]) * (p[0] - q[0]) + (p[1] - q[1]) * (p[1] - q[1])


def test_every_short_edge_is_the_side_of_a_diamond_exactly():
    """Diamonds and squares all round, triangles along their two short sides; the long one is √2 of it."""
    whole = star()
    lengths: Counter[Any] = Counter()
    for patch in whole.own_patches():
        lengths.update(
            squared(p, q) for p, q in zip(patch.points, patch.points[1:] + patch.points[:1], strict=True)
        )
    side = whole.diamond_side
    assert lengths == {side * side: 8 * 4 + 4 * 4 + 4 * 2, side * side * 2: 4}


def test_every_diamond_has_45_degrees_in_the_middle():
    """cos 45° = 1/√2: scalar product of the two edges that meet there, over the side squared."""
    for patch in star().own_patches()[:8]:
        middle, a, _, b = patch.points
        product = (a[0] - middle[0]) * (b[0] - middle[0]) + (a[1] - middle[1]) * (b[1] - middle[1])
        assert product * ROOT_2 == squared(a, middle)


def test_the_cloths_of_the_diamonds_take_turns():
    assert [p.fabric for p in star().own_patches()] == ["leaf", "soil"] * 4 + ["frost"] * 8
    assert [p.fabric for p in read(raw(diamonds=["leaf"])).top.patches()][:8] == ["leaf"] * 8


def test_squares_and_triangles_of_a_12_in_star_are_cut_by_the_rules_of_the_trade():
    """Side 12/3.4142 = 3.515: square 4.015 up to 4 1/8; triangles of long side 4.971, + 1 1/4 = 6.221 up to 6 1/4."""
    diamonds, more, triangles, squares = star().needs(RULES)
    assert (squares.width, squares.height, squares.pieces, squares.makes) == (
        Fraction(33, 8),
        Fraction(33, 8),
        4,
        1,
    )
    assert (triangles.width, triangles.pieces, triangles.makes) == (Fraction(25, 4), 4, 4)
    assert triangles.then == "cut twice on the diagonal"
    assert [(need.fabric, need.pieces) for need in (diamonds, more)] == [("leaf", 4), ("soil", 4)]


def test_the_diamonds_of_a_12_in_star_come_from_strips_of_3_in():
    """3.515/√2 + 1/2 = 2.985 up to 3 in; four of them take 3 x (4√2 + 1) = 19.97 in of strip."""
    need = star().needs(RULES)[0]
    assert (need.height, need.width, need.makes) == (3, 20, 4)


@pytest.mark.parametrize(("side", "makes"), [(12, 4), (20, 4), (24, 2), (48, 1)])
def test_no_piece_of_strip_is_longer_than_a_yard_where_diamonds_can_be_cut_by_fewer(side, makes):
    need = star(side).needs(RULES)[0]
    assert need.makes == makes and need.width <= 36


def test_one_cloth_gives_all_eight_diamonds():
    needs = star(diamonds=("leaf", "leaf")).needs(RULES)
    assert [(need.fabric, need.pieces) for need in needs] == [("leaf", 8), ("frost", 4), ("frost", 4)]


@given(st.integers(8, 200).map(lambda n: Fraction(n, 4)))
def test_diamonds_with_their_allowance_fit_on_the_strip_as_the_list_says(side):
    """Held against a general geometry library (Shapely): slanting cuts a strip width apart, diamonds grown by the seam.

    Cut out side by side on the piece, each holds the finished diamond with 1/4 in beyond every edge.
    """
    whole = star(side)
    need = whole.needs(RULES)[0]
    width, strip = float(need.width), float(need.height)
    finished = float(whole.diamond_side)
    for i in range(need.makes):
        left = i * strip * sqrt(2)
        cut = Polygon(
            [
                (left, strip),
                (left + strip * sqrt(2), strip),
                (left + strip * (sqrt(2) + 1), 0),
                (left + strip, 0),
            ]
        )
        assert cut.bounds[2] <= width + 1e-9
        # the strip's own cuts are as far apart as its long sides
        slanting = LineString([(left, strip), (left + strip, 0)])
        other = LineString([(left + strip * sqrt(2), strip), (left + strip * (sqrt(2) + 1), 0)])
        assert slanting.distance(other) == pytest.approx(strip)
        middle, high = cut.centroid, finished / sqrt(2)
        small = Polygon(
            [
                (middle.x - (finished + high) / 2, middle.y + high / 2),
                (middle.x + (finished - high) / 2, middle.y + high / 2),
                (middle.x + (finished + high) / 2, middle.y - high / 2),
                (middle.x - (finished - high) / 2, middle.y - high / 2),
            ]
        )
        assert cut.buffer(1e-9).contains(small)
        assert cut.exterior.distance(small.exterior) >= 0.25 - 1e-9


@pytest.mark.parametrize(
    ("change", "pointer", "detail"),
    [
        ({"size": ["12", "9"]}, "/top/size", "square"),
        ({"diamonds": []}, "/top/diamonds", "empty"),
        ({"diamonds": ["leaf", "soil", "frost"]}, "/top/diamonds", "3 cloths"),
        ({"diamonds": ["leaf", "chard"]}, "/top/diamonds/1", "not among the fabrics"),
        ({"background": "chard"}, "/top/background", "not among the fabrics"),
    ],
)
def test_a_star_that_cannot_be_read_names_the_place_and_what_is_wrong(change, pointer, detail):
    with pytest.raises(DocumentFaults) as faults:
        read(raw(**change))
    [fault] = faults.value.faults
    assert fault.pointer == pointer
    assert detail in fault.detail
    assert fault.right
