"""Every unit covers its finished size exactly, however it is nested, turned or set on point."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely import Polygon, box, unary_union

from service.craft.measure import Exact
from service.craft.units import CuttingRules

from .conftest import document, on_point, read, sides, tops, units

RULES = CuttingRules(Fraction(1, 4), Fraction(1, 8))
slow = settings(
    deadline=None, max_examples=60, suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large]
)


def area(points) -> Exact:
    """The shoelace formula in exact numbers; patches may run round either way (a mirror turns them)."""
    doubled = Exact(0)
    for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
        doubled = doubled + x0 * y1 - x1 * y0
    return abs(doubled) / 2


@slow
@given(tops())
def test_the_area_of_all_patches_is_width_times_height_exactly(raw):
    top = read(raw).top
    total = sum((area(p.points) for p in top.patches()), Exact(0))
    assert total == top.width * top.height


@slow
@given(tops())
def test_patches_lie_side_by_side_and_fill_the_top(raw):
    """Held against a general geometry library (Shapely)."""
    top = read(raw).top
    shapes = [Polygon([(float(x), float(y)) for x, y in p.points]) for p in top.patches()]
    assert all(shape.is_valid for shape in shapes)
    whole = box(0, 0, float(top.width), float(top.height))
    joined = unary_union([shape.buffer(1e-7, join_style="mitre") for shape in shapes])
    assert abs(joined.area - whole.area) < 1e-3
    assert joined.buffer(1e-6).contains(whole)


@slow
@given(tops())
def test_no_patch_names_a_corner_twice(raw):
    for patch in read(raw).top.patches():
        assert len(set(patch.points)) == len(patch.points) >= 3


@slow
@given(tops())
def test_every_patch_has_a_need_and_every_need_a_cut(raw):
    top = read(raw).top
    drawn = sum(1 for _ in top.patches())
    needs = [need for unit in top.walk() for need in unit.needs(RULES)]
    assert sum(need.pieces for need in needs) == drawn
    assert all(need.width > 0 and need.height > 0 and need.makes > 0 for need in needs)


@slow
@given(st.data())
def test_a_unit_has_the_size_it_was_given(data):
    width, height = data.draw(sides), data.draw(sides)
    top = read(data.draw(units(width, height, 3))).top
    assert (top.width, top.height) == (width, height)


def as_set(top):
    return {(frozenset(p.points), p.fabric) for p in top.patches()}


@slow
@given(st.data())
def test_four_quarter_turns_are_none(data):
    raw = data.draw(units(data.draw(sides), data.draw(sides), 2))
    four = raw
    for _ in range(4):
        four = {"unit": "turned", "turn": 90, "inside": four}
    assert as_set(read(four).top) == as_set(read(raw).top)


@slow
@given(st.data())
def test_two_mirrors_are_none_and_turns_add_up(data):
    raw = data.draw(units(data.draw(sides), data.draw(sides), 1))

    def turn(inside, degrees):
        return {"unit": "turned", "turn": degrees, "inside": inside}

    twice = {"unit": "mirrored", "inside": {"unit": "mirrored", "inside": raw}}
    assert as_set(read(twice).top) == as_set(read(raw).top)
    assert as_set(read(turn(turn(raw, 90), 90)).top) == as_set(read(turn(raw, 180)).top)
    assert as_set(read(turn(turn(raw, 180), 90)).top) == as_set(read(turn(raw, 270)).top)
    assert as_set(read(turn(turn(raw, 90), 270)).top) == as_set(read(raw).top)


def test_a_turn_goes_clockwise():
    """The first cloth of a half-square triangle is top left; a quarter turn clockwise brings it to the top right."""
    triangle = {"unit": "half-square triangle", "size": ["2", "2"], "fabrics": ["frost", "leaf"]}
    corner = {0: (0, 0), 90: (2, 0), 180: (2, 2), 270: (0, 2)}
    for degrees, right_angle in corner.items():
        raw = {"unit": "turned", "turn": degrees, "inside": triangle} if degrees else triangle
        [frost] = [p for p in read(raw).top.patches() if p.fabric == "frost"]
        assert right_angle in frost.points
        assert (2 - right_angle[0], 2 - right_angle[1]) not in frost.points


def test_a_mirror_changes_left_and_right_only():
    raw = {
        "unit": "mirrored",
        "inside": {
            "unit": "corner squares",
            "size": ["4", "2"],
            "fabric": "frost",
            "corners": {"size": "1", "fabric": "leaf", "at": ["nw"]},
        },
    }
    [leaf] = [p for p in read(raw).top.patches() if p.fabric == "leaf"]
    assert set(leaf.points) == {(4, 0), (4, 1), (3, 0)}


def test_a_unit_on_its_corner_has_its_upper_left_corner_at_the_middle_of_the_top():
    inside = {
        "unit": "grid",
        "rows": [
            [{"unit": "patch", "size": ["2", "2"], "fabric": f} for f in row]
            for row in (("leaf", "frost"), ("frost", "frost"))
        ],
    }
    top = read({"unit": "square in a square", "fabric": "soil", "inside": inside}).top
    [leaf] = [p for p in top.patches() if p.fabric == "leaf"]
    assert min(leaf.points, key=lambda p: p[1]) == (top.width / 2, 0)
    assert top.width * top.width == 32


@slow
@given(on_point())
def test_a_setting_on_point_is_as_wide_as_its_diagonals(raw):
    """c blocks of side b come to c b √2 (geometry)."""
    top = read(raw).top
    side = top.block_side
    assert top.width * top.width == 2 * side * side * len(raw["rows"][0]) ** 2
    assert top.height * top.height == 2 * side * side * len(raw["rows"]) ** 2


@pytest.mark.parametrize(("at", "corners"), [(["nw"], 4), (["nw", "ne"], 3), (["nw", "se"], 4)])
def test_a_corner_square_as_large_as_can_be_leaves_a_base_without_doubled_corners(at, corners):
    """A leg as long as the side: what is left of a square is a triangle, a goose or a slanted strip."""
    width = "2" if at == ["nw"] else "4"
    raw = {
        "unit": "corner squares",
        "size": [width, "2"],
        "fabric": "frost",
        "corners": {"size": "2", "fabric": "leaf", "at": at},
    }
    base = next(p for p in read(raw).top.patches() if p.fabric == "frost")
    assert len(set(base.points)) == len(base.points) == (3 if at == ["nw"] else corners)


@slow
@given(
    tops(),
    st.sampled_from([Fraction(1, 4), Fraction(75, 254)]),
    st.sampled_from([Fraction(1, 8), Fraction(1, 16), Fraction(5, 127)]),
)
def test_rectangles_lose_two_allowances_and_triangles_the_diagonal_ones(raw, seam, step):
    """cut - 2s = finished, up to the grid; cut once: s(2 + √2), cut twice: s(2 + 2√2) at least (geometry)."""
    rules = CuttingRules(seam, step)
    for unit in read(raw).top.walk():
        if unit.kind == "patch":
            [need] = unit.needs(rules)
            for cut, finished in ((need.width, unit.width), (need.height, unit.height)):
                assert 0 <= cut - 2 * seam - finished < step
        for need in unit.needs(rules):
            assert (need.width / step).denominator == (need.height / step).denominator == 1


@slow
@given(st.data())
def test_an_unrelated_unit_beside_it_changes_no_need(data):
    width, height = data.draw(sides), data.draw(sides)
    raw, other = data.draw(units(width, height, 2)), data.draw(units(width, height, 1))
    alone = [n for u in read(raw).top.walk() for n in u.needs(RULES)]
    row = read({"unit": "grid", "rows": [[raw, other]]}).top
    first = row.children()[0][0]
    assert [n for u in first.walk() for n in u.needs(RULES)] == alone


def test_a_block_is_read_once_and_shared():
    raw = document(
        {"unit": "grid", "rows": [["bean", "bean"]]},
        blocks={"bean": {"unit": "patch", "size": ["1", "1"], "fabric": "leaf"}},
    )
    first, second = (u for u, _ in read(raw["top"], blocks=raw["blocks"]).top.children())
    assert first is second and first.block == "bean" and first.pointer == "/blocks/bean"
