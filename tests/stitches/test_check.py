"""Each check is shown a file with one thing wrong, and finds it and where."""

from dataclasses import replace

import numpy as np
import pytest

from workers.stitches.check import check_hooping
from workers.stitches.findings import Checked
from workers.stitches.pieces import FINISH, PLACEMENT, TACK_DOWN, Hooping
from workers.stitches.reading import read_stitch_file
from workers.stitches.record import record_passes
from workers.stitches.settings import Field

GOOD = [
    "the header tells the truth",
    "one end record, at the end",
    "every stitch belongs to one pass",
    "the file sews what was planned",
    "placement, stop, tack-down, stop, finish",
    "no move too long",
    "no stitch too long",
    "no stitch too short",
    "inside the sewing field",
    "ties at every start and end",
    "placement line on the outline",
    "underlay before every satin edge",
    "the finish covers the raw edge, also 0.5 mm out of place",
    "the placement line is hidden under the finish",
    "the tack-down is hidden under the finish",
    "no stitches are missing in the edge",
    "no place within half a millimetre of the raw edge is bare",
    "thread and holes do not heap up",
]


def failing(checked):
    return {check.name: check for check in check_hooping(checked) if not check.ok}


@pytest.fixture
def spoil(write, settings):
    """Write the square again with its passes changed by a function, and read it back."""

    def write_spoiled(change, name="square"):
        hooping = write(name)[0].hooping
        sewn = replace(hooping.sewn[0], passes=tuple(change(list(hooping.sewn[0].passes))))
        changed = Hooping(1, hooping.field, (sewn,), False, (0.0, 0.0))
        recorded = record_passes(changed.passes, settings, label="spoiled")
        return Checked(changed, read_stitch_file(recorded.data), recorded.ranges, settings)

    return write_spoiled


def changed_pass(passes, kind, change):
    return [replace(p, points=change(p.points)) if p.kind == kind else p for p in passes]


def test_the_checks_are_these_and_all_hold_for_a_good_file(write):
    checks = check_hooping(write("square")[0])
    assert [check.name for check in checks] == GOOD
    assert all(check.ok and check.where == [] for check in checks)


@pytest.mark.parametrize(
    ("field", "text"), [(20, b"ST:      9"), (31, b"CO:  7"), (38, b"+X:    1"), (84, b"AY:+    1")]
)
def test_a_header_that_lies_is_found_out(write, field, text):
    checked, data = write("square")
    spoiled = data[:field] + text + data[field + len(text) :]
    found = failing(replace(checked, reading=read_stitch_file(spoiled)))
    assert list(found) == ["the header tells the truth"]
    assert found["the header tells the truth"].where[0]["field"] == text[:2].decode()


def test_a_gap_in_the_finish_is_found_with_its_place(spoil):
    def leave_gap(points):
        there = np.abs(points - np.array([20.0, 5.0])).max(axis=1) < 3
        return points[~there]

    found = failing(spoil(lambda passes: changed_pass(passes, FINISH, leave_gap)))
    check = found["the finish covers the raw edge, also 0.5 mm out of place"]
    assert check.value < 0.97
    assert any(abs(place["x_mm"] - 20) < 1 and abs(place["y_mm"] - 5) < 3 for place in check.where)
    assert {"no stitch too long", "the placement line is hidden under the finish"} <= set(found)


def test_a_finish_too_narrow_for_a_displaced_piece_is_found_though_it_covers_the_edge_itself(spoil):
    def narrow(passes):
        outline = 20.0

        def draw_in(points):
            reach = np.abs(points).max(axis=1, keepdims=True)
            return points * (outline + (reach - outline) * 0.2) / reach

        return changed_pass(passes, FINISH, draw_in)

    check = failing(spoil(narrow))["the finish covers the raw edge, also 0.5 mm out of place"]
    assert all(place["displaced_mm"] != [0.0, 0.0] for place in check.where)


def test_a_tack_down_that_shows_is_found(spoil):
    found = failing(spoil(lambda passes: changed_pass(passes, TACK_DOWN, lambda p: p * 0.8)))
    assert list(found) == ["the tack-down is hidden under the finish"]


def test_a_placement_line_that_has_drifted_is_found(spoil):
    found = failing(spoil(lambda passes: changed_pass(passes, PLACEMENT, lambda p: p + 0.4)))
    assert list(found) == ["placement line on the outline"]
    assert found["placement line on the outline"].value == pytest.approx(0.57, abs=0.2)


@pytest.mark.parametrize(
    "change",
    [
        lambda passes: [passes[1], passes[0], *passes[2:]],
        lambda passes: [replace(passes[0], then_stop=None), *passes[1:]],
        lambda passes: [passes[0], replace(passes[1], then_stop=None), *passes[2:]],
        lambda passes: [replace(passes[0], then_stop=None), passes[3], *passes[1:3]],
        lambda passes: [passes[0], *passes[2:]],
    ],
)
def test_passes_out_of_order_or_without_their_stops_are_found(spoil, change):
    assert "placement, stop, tack-down, stop, finish" in failing(spoil(change))


def test_missing_ties_are_found(spoil):
    found = failing(spoil(lambda passes: changed_pass(passes, PLACEMENT, lambda p: p[4:-4])))
    assert list(found) == ["ties at every start and end"]


def test_a_stitch_too_short_is_found_at_its_record(spoil):
    def double(points):
        return np.insert(points, 20, points[20] + np.array([0.2, 0.0]), axis=0)

    found = failing(spoil(lambda passes: changed_pass(passes, PLACEMENT, double)))
    assert found["no stitch too short"].value == pytest.approx(0.2, abs=0.1)
    assert 15 < found["no stitch too short"].where[0]["record"] < 30


def test_a_needle_outside_the_field_is_found(write):
    checked = write("square")[0]
    small = replace(checked, hooping=replace(checked.hooping, field=Field(45, 60)))
    found = failing(small)
    assert list(found) == ["inside the sewing field"]
    assert found["inside the sewing field"].value < 3


def test_stitches_of_no_pass_are_found(write):
    checked = write("square")[0]
    first = checked.ranges[0]
    short = replace(checked, ranges=((first[0], first[1] - 5), *checked.ranges[1:]))
    assert failing(short)["every stitch belongs to one pass"].value == 5


def test_a_piece_sewn_before_what_lies_beneath_it_is_found(settings, sew):
    one = sew("tiny")
    top = replace(one, piece=replace(one.piece, name="top", above=("bottom",)))
    top = replace(top, passes=tuple(replace(p, piece="top") for p in one.passes))
    bottom = replace(one, piece=replace(one.piece, name="bottom"))
    bottom = replace(bottom, passes=tuple(replace(p, piece="bottom") for p in one.passes))
    for order, right in (((bottom, top), True), ((top, bottom), False)):
        hooping = Hooping(1, Field(100, 100), order, False, (0.0, 0.0))
        recorded = record_passes(hooping.passes, settings, label="two")
        checked = Checked(hooping, read_stitch_file(recorded.data), recorded.ranges, settings)
        assert ("placement, stop, tack-down, stop, finish" not in failing(checked)) == right
