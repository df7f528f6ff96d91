"""A piece larger than a sewing field: refused, or sewn in parts along a line. Boxes are worked out by hand."""

import copy

import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.readiness import check_readiness
from service.craft.scaling import scale_document
from tests.craft.test_readiness import DOCUMENT, drawing

HOOP = [{"name": "hoop", "has": ["hoop 100x120"]}]
ACROSS = {"from": [-10, 0], "to": [10, 0]}
"""From left to right through the middle of the outline, as short as a line may be: it goes straight on."""


def read(split, *, tracks=HOOP, **piece):
    raw = copy.deepcopy(DOCUMENT)
    raw["pieces"][0].update(split=split, **piece)
    return read_document({**raw, "tracks": tracks})


def check(width, height, split, **more):
    return check_readiness(read(split, **more), {"pod.svg": drawing(width, height)})


@pytest.mark.parametrize(
    ("height", "fits"),
    [
        (176, True),  # half of it, 2 mm of lap, and 5 mm on both sides for edge and margin: 88 + 2 + 10 = 100
        (177, False),
        (120, True),  # does not fit whole, its halves do
    ],
)
def test_a_piece_too_large_for_the_field_fits_it_in_the_parts_its_line_makes(height, fits):
    """90 mm wide with its edge and margin are 100: the halves must be 120 - 10 - 2 high at most upright."""
    found = check(110, height, ACROSS)
    assert found.ready is fits
    if not fits:
        assert [fault.pointer for fault in found.faults] == ["/pieces/0/split"] * 2


def test_a_part_still_too_large_is_named_with_the_field_it_needs():
    """A line 40 mm above the middle of 80 x 200 mm leaves 140 mm below it: 140 + 2 + 10 by 80 + 10 mm."""
    [fault] = check(80, 200, {"from": [-10, -40], "to": [10, -40]}).faults
    assert fault.pointer == "/pieces/0/split"
    assert "the lower part" in fault.detail and "100x120" in fault.detail
    assert "90 x 152 mm" in fault.right


def test_a_second_line_makes_three_parts():
    """80 x 250 mm cut at a third and two thirds: 83.3 + 4 + 10 mm in the middle."""
    lines = [{"from": [-1, y], "to": [1, y]} for y in (-42, 42)]
    assert check(80, 250, lines).ready


@pytest.mark.parametrize(
    "split", [{"from": [60, -9], "to": [60, 9]}, [ACROSS, {"from": [-9, 99], "to": [9, 99]}]]
)
def test_a_line_that_misses_the_piece_is_a_fault_at_the_line(split):
    """110 mm wide and 120 high: 60 mm from the middle is beyond its side, 99 mm below its foot."""
    [fault] = check(110, 120, split).faults
    assert fault.pointer == ("/pieces/0/split/1" if isinstance(split, list) else "/pieces/0/split")
    assert "does not cross" in fault.detail and fault.right


def test_tracks_that_take_the_piece_whole_or_have_no_hoop_leave_the_line_out_and_the_check_says_so():
    """A field of 200 x 200 mm takes 110 x 120 mm; a track by hand needs none."""
    tracks = [*HOOP, {"name": "large", "has": ["hoop 200x200"]}, {"name": "by hand", "has": []}]
    found = check(110, 120, ACROSS, tracks=tracks)
    assert found.ready
    [warning] = [w for w in found.warnings if w.pointer == "/pieces/0/split"]
    assert '"large" and "by hand"' in warning.detail and '"hoop"' not in warning.detail


@pytest.mark.parametrize(
    ("split", "pointer"),
    [
        ("across", "/pieces/0/split"),
        ([], "/pieces/0/split"),
        ([ACROSS] * 9, "/pieces/0/split"),
        ({"from": [0, 0]}, "/pieces/0/split/to"),
        ({"from": [0, 0], "to": [1]}, "/pieces/0/split/to"),
        ({"from": [0, "wide"], "to": [1, 0]}, "/pieces/0/split/from/1"),
        ({"from": [1, 1], "to": [1, 1]}, "/pieces/0/split"),
        ([ACROSS, 7], "/pieces/0/split/1"),
    ],
)
def test_a_faulty_line_is_named_by_its_place(split, pointer):
    """With what would be right."""
    with pytest.raises(DocumentFaults) as refused:
        read(split)
    [fault] = refused.value.faults
    assert fault.pointer == pointer and fault.right


def test_in_another_size_the_line_lies_where_it_lay_on_the_piece():
    """Its places are measured on the outline as drawn, as those of details are: the piece's `scale` carries them."""
    raw = copy.deepcopy(DOCUMENT)
    raw["pieces"][0].update(split=ACROSS)
    piece = scale_document(raw, 2).document["pieces"][0]
    assert piece["split"] == ACROSS and piece["scale"] in ("2", 2)


def spaced(spacing, *, edge="satin", weight=40, tracks=HOOP):
    stitching = {"spacing": spacing, "thread_weight": weight}
    return check(60, 60, None, tracks=tracks, edge=edge, stitching=stitching)


@pytest.mark.parametrize(("spacing", "weight", "covers"), [("0.45 mm", 40, True), ("0.46 mm", 40, False),
                                                           ("0.8 mm", 12, True), ("0.4 mm", 80, False)])  # fmt: skip
def test_satin_may_be_spaced_as_its_thread_is_thick_and_an_eighth_more(spacing, weight, covers):
    """0.35 to 0.45 mm with 40 wt (emborado.de, mrxstitch.com); thickness goes by the root of the weight."""
    assert spaced(spacing, weight=weight).ready is covers


def test_satin_too_open_to_cover_is_named_with_what_would_be_right():
    [fault] = spaced("3 mm").faults
    assert fault.pointer == "/pieces/0/stitching/spacing"
    assert "spaced 3 mm" in fault.detail and "0.4 mm thick" in fault.detail
    assert fault.right.startswith("0.45 mm or less") and '"zigzag"' in fault.right


def test_an_open_zigzag_and_a_track_without_a_hoop_are_not_asked():
    by_hand = [{"name": "by hand", "has": []}]
    assert spaced("3 mm", edge="zigzag").ready and spaced("3 mm", tracks=by_hand).ready
