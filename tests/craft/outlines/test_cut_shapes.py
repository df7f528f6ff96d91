"""The shape that a piece is cut in, held against Shapely and against areas worked by hand."""

from __future__ import annotations

import math
from fractions import Fraction

import numpy as np
import pytest
import shapely
from hypothesis import example, given, settings
from hypothesis import strategies as st
from shapely import Polygon
from shapely.geometry.base import BaseGeometry

from service.craft.applique import AppliqueRules
from service.craft.outlines import Cubic, Line, Outline, Ring, place
from service.craft.outlines.cut_shapes import PINHOLE_MM2, CutShape, make_cut_shapes, unplacing
from service.craft.outlines.overlaps import find_overlaps
from service.craft.outlines.polygons import to_polygon
from service.craft.pieces import Piece

INCH = Fraction(127, 5)
RULES = AppliqueRules(Fraction(6) / INCH, Fraction(5) / INCH)
"""An underlap of 6 mm, 5 mm turned under."""


def box(width: float, height: float) -> Outline:
    corners = [(width, 0.0), (width, height), (0.0, height)]
    return Outline("box", (Ring((0.0, 0.0), tuple(map(Line, corners))),))


def leaf(width: float, height: float) -> Outline:
    """A leaf of two curves that meet in points at its ends."""
    curves = (
        Cubic((width, 0.2 * height), (width, 0.8 * height), (width / 2, height)),
        Cubic((0.0, 0.8 * height), (0.0, 0.2 * height), (width / 2, 0.0)),
    )
    return Outline("leaf", (Ring((width / 2, 0.0), curves),))


def piece(name: str, x: float, y: float, **more: object) -> Piece:
    """A piece with its middle at a place in mm."""
    at = Fraction(x) / INCH, Fraction(y) / INCH
    return Piece(f"/pieces/{name}", name, name, "cloth", at, **more)


def cut(
    lower: tuple[Piece, Outline], upper: tuple[Piece, Outline], rules: AppliqueRules = RULES
) -> tuple[CutShape, Polygon]:
    """The lower piece's cut shape, and the upper piece as it lies."""
    shapes = make_cut_shapes([lower[0], upper[0]], {lower[0].name: lower[1], upper[0].name: upper[1]}, rules)
    return shapes[lower[0].name], to_polygon(place(upper[0], upper[1]))


def test_a_piece_that_butts_reaches_under_by_the_underlap_all_along() -> None:
    """20 mm of edge by 6 mm, less a hem of 1 mm nowhere: the other edges of the upper piece are far away."""
    shape, upper = cut(
        (piece("low", 50, 50), box(20, 40)), (piece("top", 50, 90, above=("low",)), box(60, 40))
    )
    added = to_polygon(shape.outline).difference(to_polygon(shape.finished))
    assert added.area == pytest.approx(20 * 6, abs=0.6)
    assert added.bounds == pytest.approx((40, 70, 60, 76), abs=0.15)
    assert upper.buffer(1e-6).covers(added)


def test_a_piece_half_tucked_in_is_filled_up_to_the_underlap() -> None:
    """It lies 4 mm under the other, so 2 mm are missing (edges within 0.1 mm count as one)."""
    shape, _ = cut((piece("low", 50, 50), box(20, 40)), (piece("top", 50, 86), box(60, 40)))
    added = to_polygon(shape.outline).difference(to_polygon(shape.finished))
    assert added.area == pytest.approx(20 * 2, abs=1.3)


def turns(ring: shapely.LinearRing) -> list[float]:
    """How far a closed line turns at each of its corners, in degrees; to the left it is negative."""
    along = np.diff([*ring.coords, ring.coords[1]], axis=0)
    heading = np.degrees(np.arctan2(along[:, 1], along[:, 0]))
    return [float(turn) for turn in (np.diff(heading) + 180) % 360 - 180]


def test_under_several_pieces_that_cross_one_edge_the_tab_is_one_and_smooth() -> None:
    """Seven leaves in a row over the lower edge of a bed: one tab without a notch, with round ends.

    The bed with it has its own four corners and the two where the tab begins; all else turns in steps of its chords.
    """
    leaves = [
        piece(f"leaf {n}", 12 + 16 * n, 63 + 1.5 * (n % 3), above=("bed",), turn=Fraction(90))
        for n in range(7)
    ]
    outlines = {"bed": box(120, 60)} | {one.name: leaf(20, 30) for one in leaves}
    shape = make_cut_shapes([piece("bed", 60, 30), *leaves], outlines, RULES)["bed"]
    cloth, bed = to_polygon(shape.outline), to_polygon(shape.finished)
    [tab] = [part for part in shapely.get_parts(cloth.difference(bed)) if part.area > 0.05]
    assert 4 < tab.bounds[3] - 60 <= 6
    assert tab.bounds[2] - tab.bounds[0] > 80
    assert sum(abs(turn) > 15 for turn in turns(cloth.exterior)) == 6
    assert [name for name, _ in shape.underlaps] == [one.name for one in leaves]


@pytest.mark.parametrize("turn", [0, 20, 45])
def test_a_piece_that_runs_in_deep_enough_stays_as_it_is(turn: int) -> None:
    low = piece("low", 50, 50, turn=Fraction(turn))
    shape, _ = cut((low, box(12, 90)), (piece("top", 50, 95), box(90, 50)))
    assert shape.outline is shape.finished
    assert shape.under


def test_under_a_narrow_piece_a_hem_stays_free() -> None:
    """The upper piece is 4 mm wide: the lower one reaches 3 mm under it and leaves 1 mm."""
    shape, _ = cut((piece("low", 50, 50), box(20, 40)), (piece("top", 50, 72, above=("low",)), box(60, 4)))
    added = to_polygon(shape.outline).difference(to_polygon(shape.finished))
    assert added.bounds[3] == pytest.approx(73, abs=0.05)
    assert shape.underlaps[0][1].reach_mm == pytest.approx(3, abs=0.05)


def test_edges_that_meet_without_a_word_stay_as_they_are() -> None:
    shape, _ = cut((piece("low", 50, 50), box(20, 40)), (piece("top", 50, 90), box(60, 40)))
    assert shape.outline is shape.finished


def test_curves_stay_curves_where_nothing_was_added() -> None:
    """The leaf's right side lies a little under the bed; its left side stays a curve."""
    low = piece("low", 50, 50)
    shape, _ = cut((low, leaf(30, 60)), (piece("top", 72, 50), box(25, 90)))
    assert shape.outline is not shape.finished
    assert any(isinstance(segment, Cubic) for segment in shape.outline.rings[0].segments)


def test_a_turned_edge_has_its_allowance_all_round() -> None:
    """Steiner's formula for a convex shape: area + perimeter x t + pi t^2."""
    alone = make_cut_shapes([piece("a", 50, 50, edge="turned")], {"a": box(20, 40)}, RULES)["a"]
    assert to_polygon(alone.outline).area == pytest.approx(800 + 120 * 5 + math.pi * 25, rel=1e-3)


def test_a_raw_edge_has_none() -> None:
    alone = make_cut_shapes([piece("a", 50, 50, edge="raw")], {"a": box(20, 40)}, RULES)["a"]
    assert alone.outline is alone.finished


def test_a_turned_edge_lies_flat_where_another_piece_covers_it() -> None:
    """Under the other piece the underlap of 6 mm takes the place of the allowance, and no further."""
    shape, _ = cut(
        (piece("low", 50, 50, edge="turned"), box(20, 40)),
        (piece("top", 50, 90, above=("low",)), box(60, 40)),
    )
    assert to_polygon(shape.outline).bounds == pytest.approx((35, 25, 65, 76), abs=0.15)


def test_a_pair_without_a_word_lies_in_the_order_of_the_document_and_says_so() -> None:
    a, b, c = piece("a", 0, 0), piece("b", 5, 0), piece("c", 10, 0, above=("b",))
    shapes = {one.name: to_polygon(place(one, box(20, 20))) for one in (a, b, c)}
    found = find_overlaps([a, b, c], shapes)
    assert [(p.lower, p.upper, p.stated) for p in found.pairs] == [
        ("a", "b", False),
        ("a", "c", False),
        ("b", "c", True),
    ]


def test_what_lies_above_by_way_of_another_is_stated() -> None:
    a, b, c = piece("a", 0, 0), piece("b", 5, 0, above=("a",)), piece("c", 10, 0, above=("b",))
    shapes = {one.name: to_polygon(place(one, box(20, 20))) for one in (c, b, a)}
    assert all(pair.stated for pair in find_overlaps([c, b, a], shapes).pairs)


def test_above_in_vain_is_named() -> None:
    a, b = piece("a", 0, 0), piece("b", 90, 0, above=("a",))
    shapes = {one.name: to_polygon(place(one, box(20, 20))) for one in (a, b)}
    assert find_overlaps([a, b], shapes).apart == (("b", "a"),)


PLACES = st.floats(0, 80, allow_nan=False)
SIDES = st.floats(4, 60)
SHAPES = st.builds(lambda kind, w, h: kind(w, h), st.sampled_from([box, leaf]), SIDES, SIDES)
TURNS = st.integers(0, 359).map(Fraction)
PIECES = st.tuples(
    PLACES, PLACES, TURNS, st.booleans(), st.sampled_from([Fraction(1), Fraction(3, 2)]), SHAPES
)


LEAVES_A_PINHOLE = (
    (77.8125, 57.5625, Fraction(248), False, Fraction(1), leaf(50.5, 8.5)),
    (79.0, 19.0, Fraction(123), False, Fraction(3, 2), box(32.75, 20.0)),
)
"""Between this piece and its underlap a hole of 0.02 mm² is left, which is filled."""


def pinholes(shape: BaseGeometry) -> float:
    """The area of the holes in a sum of shapes that are too small to be meant."""
    areas = [Polygon(hole).area for part in shapely.get_parts(shape) for hole in part.interiors]
    return sum(area for area in areas if area <= PINHOLE_MM2)


@settings(max_examples=150, deadline=None)
@given(PIECES, PIECES, st.sampled_from(["satin", "raw", "turned"]))
@example(*LEAVES_A_PINHOLE, "satin")
def test_whatever_lies_on_what(low: tuple, top: tuple, edge: str) -> None:
    """The cut shape holds the finished one, is one valid polygon, and its underlap lies within the upper piece; area
    is kept: cut = finished + what is said to be added + pinholes between them, for raw and satin edges."""
    one = piece("low", low[0], low[1], turn=low[2], mirror=low[3], scale=low[4], edge=edge)
    two = piece("top", top[0], top[1], turn=top[2], mirror=top[3], scale=top[4], above=("low",))
    shape, upper = cut((one, low[5]), (two, top[5]))
    finished, outer = to_polygon(shape.finished), to_polygon(shape.outline)
    assert outer.is_valid
    assert finished.difference(outer).area < 1e-3
    for _, underlap in shape.underlaps:
        assert shapely.union_all(underlap.added).difference(upper.buffer(0.21)).area < 1e-3
        if edge != "turned":
            whole = shapely.union_all([finished, underlap.added])
            assert outer.area == pytest.approx(whole.area + pinholes(whole), abs=0.01)
    if edge != "turned" and not shape.underlaps:
        assert shape.outline is shape.finished
    if edge == "turned":
        assert outer.within(finished.buffer(max(RULES.turning_mm, RULES.underlap_mm) * 1.45 + 0.1))


@settings(max_examples=60, deadline=None)
@given(PIECES)
def test_back_from_the_top_a_piece_is_as_it_was(low: tuple) -> None:
    """Laid and taken back, whatever its turn, mirror and scale, its box begins at (0, 0)."""
    one = piece("low", low[0], low[1], turn=low[2], mirror=low[3], scale=low[4])
    placed = place(one, low[5])
    width, height = (side * float(low[4]) for side in (low[5].width_mm, low[5].height_mm))
    back = placed.moved(unplacing(one, width, height))
    assert back.box_mm == pytest.approx((0, 0, width, height), abs=1e-6)
    assert back.area_mm2 == pytest.approx(low[5].area_mm2 * float(low[4]) ** 2)
