"""A sound file with one thing changed in its bytes: whatever was changed and wherever, a check finds it."""

from dataclasses import replace

import numpy as np
import pytest

from workers.stitches.check import check_hooping
from workers.stitches.check_planned import check_planned
from workers.stitches.reading import StitchFileError, read_stitch_file
from workers.stitches.record import HEADER_BYTES, STITCH, Move, encode_moves, format_header

PLANNED = "the file sews what was planned"
"""Left out where a change of the file is looked for: held against the plan, any change is found."""

SHAPES = ["star", "leaf", "ring", "letter a"]


def fails(checked, kinds, places, ranges):
    """The names of failing checks for records written anew with a true header, so that only the change is wrong."""
    steps = np.diff(np.vstack([np.zeros((1, 2), dtype=np.int64), places]), axis=0)
    moves = Move(kinds, steps)
    try:
        reading = read_stitch_file(format_header(moves, "changed") + encode_moves(moves))
    except ValueError as refused:
        return [str(refused)]
    changed = replace(checked, reading=reading, ranges=ranges)
    return [check.name for check in check_hooping(changed) if not check.ok and check.name != PLANNED]


def without(checked, first, last):
    """Records and pass ranges with records first to last (not included) taken out."""
    kept = np.ones(len(checked.reading.kinds), dtype=bool)
    kept[first:last] = False
    cut = last - first
    ranges = tuple((a - cut * (a >= last), b - cut * (b >= first)) for a, b in checked.ranges)
    return checked.reading.kinds[kept], checked.reading.places[kept], ranges


@pytest.mark.parametrize("name", SHAPES)
@pytest.mark.parametrize("share", [0.2, 0.5, 0.8])
def test_a_gap_of_two_and_a_half_millimetres_in_the_finish_is_found(write, name, share):
    """Twelve stitches of 0.2 mm: on a long edge far less than one part in a hundred, so a share alone would pass it."""
    checked, _ = write(name)
    first, last = checked.ranges[-1]
    at = first + int(share * (last - first))
    assert any(
        "finish" in fault or "stitch" in fault for fault in fails(checked, *without(checked, at, at + 12))
    )


@pytest.mark.parametrize("name", SHAPES)
def test_a_needle_point_pulled_out_of_line_is_found(write, name):
    checked, _ = write(name)
    for number in range(len(checked.ranges)):
        first, last = checked.ranges[number]
        places = checked.reading.places.copy()
        places[(first + last) // 2] += (60, 45)
        assert fails(checked, checked.reading.kinds, places, checked.ranges), number


@pytest.mark.parametrize("name", SHAPES)
def test_a_pass_that_is_left_out_is_found(write, name):
    checked, _ = write(name)
    passes = checked.hooping.passes
    for number in range(len(passes)):
        first, last = checked.ranges[number]
        kinds, places, ranges = without(checked, first, last + 1)
        left = tuple(r for n, r in enumerate(ranges) if n != number)
        hooping = replace(checked.hooping, sequence=tuple(p for n, p in enumerate(passes) if n != number))
        found = fails(replace(checked, hooping=hooping), kinds, places, left)
        assert found, passes[number].kind


@pytest.mark.parametrize("name", SHAPES)
def test_an_underlay_that_is_left_out_is_named(write, name):
    checked, _ = write(name)
    passes = checked.hooping.passes
    number = next(n for n, one in enumerate(passes) if one.kind == "underlay")
    first, last = checked.ranges[number]
    kinds, places, ranges = without(checked, first, last + 1)
    left = tuple(r for n, r in enumerate(ranges) if n != number)
    hooping = replace(checked.hooping, sequence=tuple(p for n, p in enumerate(passes) if n != number))
    found = fails(replace(checked, hooping=hooping), kinds, places, left)
    assert "underlay before every satin edge" in found


def test_an_edge_that_asks_for_no_underlay_needs_none(write, settings):
    checked, _ = write("star")
    (sewn,) = checked.hooping.sewn
    plain = replace(sewn, piece=replace(sewn.piece, settings=replace(settings, underlay="none")))
    passes = checked.hooping.passes
    number = next(n for n, one in enumerate(passes) if one.kind == "underlay")
    hooping = replace(
        checked.hooping, sewn=(plain,), sequence=tuple(p for n, p in enumerate(passes) if n != number)
    )
    kinds, places, ranges = without(checked, checked.ranges[number][0], checked.ranges[number][1] + 1)
    left = tuple(r for n, r in enumerate(ranges) if n != number)
    assert "underlay before every satin edge" not in fails(
        replace(checked, hooping=hooping), kinds, places, left
    )


@pytest.mark.parametrize("name", SHAPES)
def test_every_number_of_the_header_is_held_against_the_records(write, name):
    checked, data = write(name)
    numbers = ((23, 7), (34, 3), (41, 5), (50, 5), (59, 5), (68, 5))
    changed = {at: f"{int(data[at : at + width]) + 1:>{width}}".encode() for at, width in numbers}
    changed |= {77: b"+ 7777", 87: b"- 7777", 97: b"+    1", 107: b"-    1", 117: b"1*****"}
    for at, told in changed.items():
        spoiled = data[:at] + told + data[at + len(told) :]
        reading = read_stitch_file(spoiled)
        found = [c.name for c in check_hooping(replace(checked, reading=reading)) if not c.ok]
        assert found == ["the header tells the truth"], at


def test_bits_that_no_record_has_are_found_wherever_they_stand(write):
    checked, data = write("star")
    stitches = np.flatnonzero(checked.reading.kinds == STITCH)
    for record in stitches[:: len(stitches) // 40]:
        at = HEADER_BYTES + 3 * int(record) + 2
        with pytest.raises(StitchFileError, match=f"record {record}"):
            read_stitch_file(data[:at] + b"\x00" + data[at + 1 :])


@pytest.mark.parametrize("name", SHAPES)
def test_any_change_of_any_pass_is_found_against_the_plan(write, name):
    """What still covers and hides is found too: a shift under the finish, stitches missing in an underlay."""
    checked, _ = write(name)
    assert check_planned(checked).ok
    for number, (first, last) in enumerate(checked.ranges):
        at = (first + last) // 2
        moved = checked.reading.places.copy()
        moved[at] += (1, 0)
        reading = replace(checked.reading, places=moved)
        (place,) = check_planned(replace(checked, reading=reading)).where
        assert (place["record"], place["kind"]) == (at, checked.hooping.passes[number].kind)
        kinds, places, ranges = without(checked, at, at + 4)
        shorter = replace(checked.reading, kinds=kinds, places=places)
        assert not check_planned(replace(checked, reading=shorter, ranges=ranges)).ok
