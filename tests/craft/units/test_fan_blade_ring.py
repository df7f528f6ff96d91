"""Rings of blades: what is seen covers the background exactly, templates keep the angle, faults come all at once."""

from __future__ import annotations

from collections import Counter
from fractions import Fraction
from math import atan2, cos, degrees, dist, hypot, pi, radians, sin, tan
from typing import Any

import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from service.craft.faults import DocumentFaults
from service.craft.measure import Exact, round_up
from service.craft.planar.round_shapes import TIPS, BladeTemplate, DiscTemplate
from service.craft.units import CuttingRules, FanBladeRing

from .conftest import read
from .test_geometry import area

RULES = CuttingRules(Fraction(1, 4), Fraction(1, 8))

UNEVEN = [{"angle": angle} for angle in (14, 22)] * 10
"""Ten of 14 and ten of 22 degrees make 360."""


def raw(**more: Any) -> dict[str, Any]:
    unit = {
        "unit": "fan blade ring",
        "size": ["14", "14"],
        "fabric": "frost",
        "fabrics": ["leaf", "soil"],
        "reach": "6",
        "hole": "1 1/2",
        "centre": {"fabric": "frost", "size": "3 1/2"},
    }
    return unit | more


def ring(**more: Any) -> FanBladeRing:
    unit = read(raw(**more)).top
    assert isinstance(unit, FanBladeRing)
    return unit


def templates_of(unit: FanBladeRing) -> list[BladeTemplate]:
    return list(dict.fromkeys(blade.template for blade in unit.blades))


def shapes_of(unit: FanBladeRing) -> list[shapely.Polygon]:
    def floats(points):
        return [(float(x), float(y)) for x, y in points]

    return [shapely.Polygon(floats(p.points), [floats(p.hole)] if p.hole else []) for p in unit.own_patches()]


@st.composite
def rings(draw) -> dict[str, Any]:
    """Any ring: equal blades, or blades of two angles that make 360 degrees together."""
    count = draw(st.integers(5, 40))
    blades: Any = count
    if count % 2 == 0 and draw(st.booleans()):
        pair = Fraction(720, count)
        first = pair * draw(st.sampled_from([Fraction(2, 5), Fraction(1, 3), Fraction(9, 20)]))
        blades = [{"angle": str(a)} for a in (first, pair - first)] * (count // 2)
    reach = draw(st.integers(16, 96).map(lambda n: Fraction(n, 8)))
    hole = reach * draw(st.sampled_from([Fraction(1, 10), Fraction(1, 4), Fraction(2, 5)]))
    sides = [
        2 * reach + draw(st.integers(1, 40).map(lambda n: Fraction(n, 8))),
        2 * reach + Fraction(1, 3),
    ]
    centre = {"fabric": "frost", "size": str(hole * draw(st.sampled_from([2, Fraction(5, 2)])))}
    return raw(
        size=[str(s) for s in sides],
        blades=blades,
        reach=str(reach),
        hole=str(hole),
        centre=centre,
        tips=draw(st.sampled_from(TIPS)),
    )


@settings(deadline=None, max_examples=60)
@given(rings())
def test_what_is_seen_covers_the_background_exactly_once(raw_ring):
    """The background stays whole under the ring; what is seen of it, of the blades and of the disc comes to its area,
    in exact numbers, and nothing lies over anything else (Shapely)."""
    unit = read(raw_ring).top
    seen = [area(p.points) - (area(p.hole) if p.hole else Exact(0)) for p in unit.own_patches()]
    assert all(part > 0 for part in seen)
    assert sum(seen, Exact(0)) == unit.width * unit.height
    shapes = shapes_of(unit)
    assert all(shape.is_valid for shape in shapes)
    assert abs(shapely.union_all(shapes).area - float(unit.width * unit.height)) < 1e-6


@settings(deadline=None, max_examples=40)
@given(rings())
def test_every_corner_of_a_blade_lies_on_a_grid_near_its_true_place(raw_ring):
    """The tips lie within 1/20,000 in of the reach, the round edge of the disc as near to its radius."""
    unit = read(raw_ring).top
    x, y = float(unit.width) / 2, float(unit.height) / 2
    _, *blades, disc = unit.own_patches()
    far = max(hypot(float(a) - x, float(b) - y) for patch in blades for a, b in patch.points)
    assert far == pytest.approx(float(unit.sizes.reach), abs=5e-5)
    for a, b in disc.points:
        assert hypot(float(a) - x, float(b) - y) == pytest.approx(float(unit.sizes.core), abs=5e-5)


@pytest.mark.parametrize("tips", TIPS)
@pytest.mark.parametrize("blades", [5, 7, 20, UNEVEN], ids=["5", "7", "20", "uneven"])
def test_a_cut_blade_has_the_angle_it_has_when_it_is_sewn(tips, blades):
    """Both long sides of the cut line run parallel to the seam lines, an allowance outside them."""
    for template in templates_of(ring(tips=tips, blades=blades)):
        half = radians(float(template.angle) / 2)
        cut, seam = template.cut_line(Fraction(1, 4)), template.seam_line
        for line, off in ((cut, 0.25), (seam, 0.0)):
            (x0, y0), (x1, y1) = line[-1], line[-2]
            assert degrees(atan2(x1 - x0, y0 - y1)) == pytest.approx(float(template.angle) / 2, abs=1e-9)
            # how far the long side lies beside the line from the middle of the ring
            assert x0 * cos(half) + y0 * sin(half) == pytest.approx(off, abs=1e-12)
        assert shapely.Polygon(cut).contains(shapely.Polygon(seam))


@pytest.mark.parametrize(
    ("tips", "top"),
    [("pointed", 6 + 0.25), ("flat", 6 * cos(radians(9)) + 0.25), ("round", 6 + 0.25)],
)
def test_a_blade_is_cut_an_allowance_longer_at_both_ends(tips, top):
    """Pointed and round ones to the reach; a flat end lies inside it, for its corners reach so far."""
    [template] = templates_of(ring(tips=tips))
    ys = [y for _, y in template.cut_line(Fraction(1, 4))]
    assert -min(ys) == pytest.approx(top, abs=1e-12)
    assert -max(ys) == pytest.approx(1.5 * cos(radians(9)) - 0.25, abs=1e-12)
    [need] = [n for n in ring(tips=tips).needs(RULES) if n.template and n.fabric == "leaf"]
    assert need.height == round_up(Fraction(max(ys) - min(ys)), Fraction(1, 8))
    assert need.height - Fraction(1, 8) < max(ys) - min(ys) <= need.height


def test_a_turned_point_is_half_as_long_as_its_blade_is_wide_there():
    """The edges slant by 45 degrees, for the end was sewn square to the fold (tourmalinethymequilts.com)."""
    unit = ring()
    points = [(float(x) - 7, float(y) - 7) for x, y in unit.own_patches()[1].points]
    first, tip, last = points[:3]
    width, turn = dist(first, last), radians(9)
    along = (sin(turn), -cos(turn))
    base = [(first[0] + last[0]) / 2, (first[1] + last[1]) / 2]
    assert dist(tip, base) == pytest.approx(width / 2, abs=1e-4)
    assert hypot(*tip) == pytest.approx(6, abs=5e-5)
    assert (tip[0] * along[0] + tip[1] * along[1]) == pytest.approx(6, abs=5e-5)


def test_a_rounded_end_runs_into_the_long_sides_without_a_corner():
    """The half circle ends where it touches them: edge by edge the direction turns by little."""
    [template] = templates_of(ring(tips="round"))
    line = template.seam_line
    turns = []
    for a, b, c in zip(line[:-2], line[1:-1], line[2:], strict=True):
        turn = atan2(c[1] - b[1], c[0] - b[0]) - atan2(b[1] - a[1], b[0] - a[0])
        turns.append(abs((turn + pi) % (2 * pi) - pi))
    assert max(turns) < radians(2)


def test_a_disc_is_cut_as_wide_as_it_is_and_two_allowances():
    unit = ring(centre={"fabric": "frost", "size": "3 7/8"})
    assert isinstance(unit.disc, DiscTemplate)
    for line, radius in ((unit.disc.seam_line, 31 / 16), (unit.disc.cut_line(Fraction(1, 4)), 35 / 16)):
        assert [hypot(x, y) for x, y in line] == pytest.approx([radius] * len(line))
    assert unit.needs(RULES)[-1].width == Fraction(35, 8)


def test_every_patch_is_counted_once_and_the_background_stays_whole():
    unit = ring(blades=20, fabrics=["leaf", "soil", "frost"])
    counts: Counter[str] = Counter()
    for need in unit.needs(RULES):
        counts[need.fabric] += need.pieces
    drawn = Counter(patch.fabric for patch in unit.own_patches())
    assert counts == drawn == {"frost": 1 + 6 + 1, "leaf": 7, "soil": 7}
    background = unit.needs(RULES)[0]
    assert (background.width, background.height, background.template) == (
        Fraction(29, 2),
        Fraction(29, 2),
        "",
    )
    assert unit.weight == 22


def test_blades_of_one_shape_share_a_template_and_the_disc_has_its_own():
    """So they do in two rings of one project; another reach makes another template."""
    even, uneven = ring(), ring(blades=UNEVEN)
    assert {(n.template, n.pieces) for n in even.needs(RULES)} == {("", 1), ("A", 10), ("B", 1)}
    assert Counter(n.template for n in uneven.needs(RULES)) == {"": 1, "A": 1, "B": 1, "C": 1}
    three = [[raw(), raw(blades=[{"angle": 18, "fabric": "soil"}] * 20), raw(reach="5")]]
    project = read({"unit": "grid", "rows": three})
    found = {(t.letter, fabric): count for (t, fabric, _), count in project.patch_templates.items()}
    assert found == {
        ("A", "leaf"): 10,
        ("A", "soil"): 30,
        ("B", "frost"): 3,
        ("C", "leaf"): 10,
        ("C", "soil"): 10,
    }


@pytest.mark.parametrize("tips", TIPS)
def test_blades_of_nearly_one_angle_name_no_corner_twice(tips):
    """Neighbours whose sides end on one place of the grid, and the smallest ring that can be."""
    angles = [Fraction(18) + Fraction(sign, 10**9) for sign in (1, -1)] * 10
    small = {"reach": "1", "hole": "1/8", "centre": {"fabric": "frost", "size": "1/4"}}
    for more in ({}, small):
        unit = ring(tips=tips, blades=[{"angle": str(angle)} for angle in angles], **more)
        for patch in unit.own_patches():
            assert len(set(patch.points)) == len(patch.points)
            assert len(set(patch.hole)) == len(patch.hole)
        assert all(shape.is_valid for shape in shapes_of(unit))


def test_blades_begin_at_noon_and_go_clockwise():
    """The second patch lies right of the upper middle, the last blade left of it."""
    unit = ring(fabrics=["leaf", "soil", "frost", "leaf"], blades=20)
    _, first, second, *_, last, _ = unit.own_patches()
    assert [first.fabric, second.fabric, last.fabric] == ["leaf", "soil", "leaf"]
    middles = [sum(float(x) for x, _ in p.points) / len(p.points) for p in (first, second, last)]
    assert 7 < middles[0] < middles[1]
    assert middles[2] < 7


def test_a_mirrored_ring_is_the_ring_in_the_opposite_order():
    fabrics = ["leaf", "soil", "frost", "leaf", "soil"]
    mirrored = read({"unit": "mirrored", "inside": raw(blades=5, fabrics=fabrics)}).top
    other = ring(blades=5, fabrics=fabrics[::-1])
    seen, wanted = (
        {(frozenset(p.points), frozenset(p.hole), p.fabric) for p in top.patches()}
        for top in (mirrored, other)
    )
    assert seen == wanted


@pytest.mark.parametrize("tips", TIPS)
def test_turned_four_times_it_is_itself(tips):
    once = raw(tips=tips, blades=7, size=["14", "13"])
    four = once
    for _ in range(4):
        four = {"unit": "turned", "turn": 90, "inside": four}
    seen, wanted = ([(p.points, p.hole, p.fabric) for p in read(unit).top.patches()] for unit in (four, once))
    assert seen == wanted


def test_the_narrow_end_is_as_wide_as_its_chord():
    """2 · hole · sin(angle / 2): 20 blades from 1 1/2 in out."""
    assert float(ring().inner_widths["leaf"]) == pytest.approx(3 * sin(radians(9)))
    assert float(ring(blades=UNEVEN).inner_widths["leaf"]) == pytest.approx(3 * sin(radians(7)))


@pytest.mark.parametrize(
    ("change", "faults"),
    [
        ({"blades": [{"angle": 30}] * 11}, {"/top/blades": ("330 degrees", "30 degrees more")}),
        ({"blades": [{"angle": "22.5"}] * 17}, {"/top/blades": ("382.5 degrees", "22.5 degrees less")}),
        ({"blades": 4}, {"/top/blades": ("4 blades", "5 to 120")}),
        ({"blades": 121}, {"/top/blades": ("121 blades", "5 to 120")}),
        ({"blades": [{"angle": 90}] * 4}, {"/top/blades": ("4 blades", "5 to 120")}),
        ({"blades": "twenty"}, {"/top/blades": ("twenty", "a whole number")}),
        ({"blades": True}, {"/top/blades": ("true", "a whole number")}),
        ({"blades": [{"angle": 0}] * 5}, {f"/top/blades/{i}/angle": ("0", "from 1 to 90") for i in range(5)}),
        (
            {"blades": [{"angle": 72}] * 4 + [{"fabric": "chard"}]},
            {"/top/blades/4": ('no "angle"', "18"), "/top/blades/4/fabric": ("chard", "frost")},
        ),
        ({"reach": "7"}, {"/top/reach": ("7 in from its middle", "less than 7 in")}),
        ({"size": ["14", "11 1/2"]}, {"/top/reach": ("the background 5 3/4 in", "less than 5 3/4 in")}),
        (
            {"centre": {"fabric": "leaf", "size": "2 3/4"}},
            {"/top/centre/size": ("the hole 3 in", "3 in or more")},
        ),
        (
            {"centre": {"fabric": "leaf", "size": "11"}},
            {"/top/centre/size": ("11 in across", "10 5/16 in or less")},
        ),
        (
            {"centre": {"fabric": "leaf", "size": "10 3/8"}},
            {"/top/centre/size": ("10 3/8 in", "10 5/16 in or less")},
        ),
        (
            {"hole": "1/10", "centre": {"fabric": "leaf", "size": "15/64"}},
            {"/top/centre/size": ("15/64 in across", "1/4 in or more")},
        ),
        ({"tips": "wavy"}, {"/top/tips": ("wavy", "pointed")}),
        ({"fabrics": []}, {"/top/fabrics": ("empty", "1 or more")}),
        ({"centre": "leaf"}, {"/top/centre": ("text", "braces")}),
        (
            {
                "size": ["10", "10"],
                "hole": "6 1/4",
                "blades": [{"angle": 36}] * 9,
                "centre": {"fabric": "chard", "size": "5"},
            },
            {
                "/top/blades": ("324 degrees", "36 degrees more"),
                "/top/reach": ("6 in from its middle", "less than 5 in"),
                "/top/hole": ("6 1/4 in, the ring one of 6 in", "less than 6 in"),
                "/top/centre/size": ("5 in across, the hole 12 1/2 in", "12 1/2 in or more"),
                "/top/centre/fabric": ("chard", "frost"),
            },
        ),
    ],
)
def test_every_fault_is_named_at_once_with_both_figures(change, faults):
    with pytest.raises(DocumentFaults) as found:
        read(raw(**change))
    assert {fault.pointer for fault in found.value.faults} == set(faults)
    for fault in found.value.faults:
        detail, right = faults[fault.pointer]
        assert detail in fault.detail
        assert right in fault.right


@pytest.mark.parametrize("missing", ["size", "fabric", "fabrics", "reach", "hole", "centre"])
def test_what_is_missing_is_named(missing):
    with pytest.raises(DocumentFaults) as found:
        read({key: value for key, value in raw().items() if key != missing})
    [fault] = found.value.faults
    assert fault.pointer == "/top"
    assert fault.right


def test_blades_with_cloths_of_their_own_need_no_list_of_cloths():
    blades = [{"angle": 72, "fabric": cloth} for cloth in ("leaf", "soil", "leaf", "soil", "frost")]
    unit = read({key: value for key, value in raw(blades=blades).items() if key != "fabrics"}).top
    assert [p.fabric for p in unit.own_patches()][1:-1] == ["leaf", "soil", "leaf", "soil", "frost"]


def test_a_blade_is_as_wide_as_twice_the_tangent_says():
    """2 r tan(angle / 2) across the middle line at any r (geometry)."""
    [template] = templates_of(ring())
    half = tan(radians(9))
    seam = shapely.Polygon(template.seam_line)
    for r in (2.0, 3.5, 5.75):
        across = seam.intersection(shapely.LineString([(-9, -r), (9, -r)]))
        assert across.length == pytest.approx(2 * r * half)
