import numpy as np
import pytest

from service.craft.fabric import Thread
from tests.stitches.shapes import circle, rectangle
from workers.recipe import CannotMake
from workers.stitches.hooping import plan_hoopings, stacking_order
from workers.stitches.passes import sew_piece
from workers.stitches.pieces import box_of
from workers.stitches.settings import Field

GREEN = Thread("leek green", "#5f8f4e")


def names(hoopings):
    return [[s.piece.name for s in h.sewn] for h in hoopings]


@pytest.fixture
def disc(piece, settings):
    def make(name, at, **more):
        return sew_piece(piece(name, (circle(10, 90) + np.array(at),), **more), settings)

    return make


def test_pieces_go_from_the_bottom_up_whatever_order_they_are_written_in(piece):
    pieces = (
        piece("leaf", above=("stalk",)),
        piece("stalk", (circle(),), above=("soil",)),
        piece("soil", (circle(),)),
    )
    assert [p.name for p in stacking_order(pieces)] == ["soil", "stalk", "leaf"]


def test_pieces_above_each_other_in_a_circle_are_refused_by_name(piece):
    pieces = tuple(
        piece(a, (circle(),), above=(b,)) for a, b in (("leaf", "stalk"), ("stalk", "root"), ("root", "leaf"))
    )
    with pytest.raises(CannotMake, match="leaf, stalk, root, leaf"):
        stacking_order(pieces)


def test_lying_above_a_piece_that_is_not_there_is_refused(piece):
    with pytest.raises(CannotMake, match="no such piece") as refused:
        stacking_order((piece("leaf", above=("stalk",)),))
    assert refused.value.pointer == "/pieces/leaf/above"


def test_pieces_of_one_thread_whose_common_box_fits_share_a_hooping(disc, settings):
    sewn = [disc("a", (0, 0)), disc("b", (50, 0)), disc("c", (300, 0))]
    hoopings = plan_hoopings(sewn, Field(100, 100), settings)
    assert names(hoopings) == [["a", "b"], ["c"]]
    assert [h.name for h in hoopings] == ["100x100-1", "100x100-2"]


def test_another_thread_shares_the_hooping_and_comes_when_the_first_has_sewn_all_it_can(disc, settings):
    sewn = [disc("a", (0, 0)), disc("b", (30, 0), thread=GREEN), disc("c", (60, 0))]
    (hooping,) = plan_hoopings(sewn, Field(100, 100), settings)
    assert list(dict.fromkeys(p.piece for p in hooping.passes)) == ["a", "c", "b"]
    assert [t.name for t in hooping.threads] == ["white", "leek green"]
    changes = [p.piece for p in hooping.passes if p.then_stop and p.then_stop.thread]
    assert changes == ["c"]


def test_a_piece_never_overtakes_what_lies_beneath_it(disc, settings):
    sewn = [
        disc("a", (0, 0)),
        disc("b", (5, 0), thread=GREEN, above=("a",)),
        disc("c", (10, 0), above=("b",)),
    ]
    (hooping,) = plan_hoopings(sewn, Field(100, 100), settings)
    assert list(dict.fromkeys(p.piece for p in hooping.passes)) == ["a", "b", "c"]


def test_outlines_that_may_not_be_passed_on_are_never_sewn_with_others(disc, settings):
    sewn = [disc("a", (0, 0)), disc("b", (30, 0), private=True), disc("c", (60, 0))]
    hoopings = plan_hoopings(sewn, Field(100, 100), settings)
    assert names(hoopings) == [["a", "c"], ["b"]]
    assert [h.private for h in hoopings] == [False, True]


def test_the_design_is_centred_on_the_field_and_keeps_its_size(disc, settings):
    sewn = [disc("a", (200, 300)), disc("b", (230, 310))]
    hooping = plan_hoopings(sewn, Field(100, 100), settings)[0]
    x0, y0, x1, y1 = box_of([p.points for p in hooping.passes])
    assert (x0 + x1, y0 + y1) == pytest.approx((0, 0))
    assert x1 - x0 == pytest.approx(50 + 2 * settings.outside_mm("satin"), abs=0.05)
    assert hooping.centre_mm == pytest.approx((215, 305), abs=0.05)


def test_a_design_that_fits_only_turned_is_turned_a_quarter_clockwise(piece, settings):
    sewn = sew_piece(piece("bed", (rectangle(110, 20),)), settings)
    hooping = plan_hoopings([sewn], Field(60, 130), settings)[0]
    assert hooping.turned
    before = sewn.passes[0].points[0] - np.array([55, 10])
    after = hooping.passes[0].points[0]
    assert after == pytest.approx((-before[1], before[0]))


@pytest.mark.parametrize(("width", "fits"), [(89.9, True), (90.3, False)])
def test_a_piece_fits_with_its_finish_and_three_millimetres_kept_free(piece, settings, width, fits):
    """Outside share 1.75 and pull 0.2 on both sides: 3.9 mm more than the outline; 100 - 6 - 3.9 = 90.1."""
    sewn = sew_piece(piece("bed", (rectangle(width, width),)), settings)
    if fits:
        assert len(plan_hoopings([sewn], Field(100, 100), settings)) == 1
    else:
        with pytest.raises(CannotMake):
            plan_hoopings([sewn], Field(100, 100), settings)


def test_a_piece_larger_than_the_field_is_refused_with_the_field_it_needs(piece, settings):
    sewn = sew_piece(piece("rhubarb", (rectangle(500, 40),)), settings)
    with pytest.raises(CannotMake, match='"rhubarb" does not fit the sewing field 130 x 180 mm') as refused:
        plan_hoopings([sewn], Field(130, 180), settings)
    assert "510 x 50 mm" in refused.value.detail
    assert refused.value.pointer == "/pieces/rhubarb" and refused.value.right
