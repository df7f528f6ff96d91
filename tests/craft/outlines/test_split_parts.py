"""The parts of a piece that is sewn in several hoopings, held against areas worked out by hand."""

from fractions import Fraction

import pytest
import shapely

from service.craft.outlines import Line, Outline, Ring
from service.craft.outlines.split_parts import LAP_MM, SplitMisses, name_part, split_piece
from service.craft.pieces import Piece
from service.craft.stitching import MM, SplitLine


def bed(width=300, height=100):
    corners = [(width, 0), (width, height), (0, height)]
    return Outline("bed", (Ring((0.0, 0.0), tuple(Line((float(x), float(y))) for x, y in corners)),))


def line(x0, y0, x1, y1):
    places = [(Fraction(x) * MM, Fraction(y) * MM) for x, y in ((x0, y0), (x1, y1))]
    return SplitLine("/pieces/0/split", *places)


def piece(*lines, **more):
    return Piece("/pieces/0", "bed", "bed.svg", "soil", (Fraction(10), Fraction(10)), split=lines, **more)


def test_a_line_parts_the_piece_and_the_parts_are_the_piece():
    """A bed of 300 x 100 mm, cut 30 mm left of its middle: 120 and 180 mm wide, the left part first."""
    left, right = split_piece(piece(line(-30, -1, -30, 1)), bed())
    assert (left.shape.area, right.shape.area) == pytest.approx((12000, 18000))
    assert left.shape.union(right.shape).symmetric_difference(left.whole).area == pytest.approx(0, abs=1e-6)
    assert name_part((left, right), 1) == "left part" and name_part((left, right), 2) == "right part"


def test_the_edge_of_a_part_goes_on_beyond_the_line_by_the_lap_and_no_farther():
    """120 mm and the lap."""
    left, _ = split_piece(piece(line(-30, -1, -30, 1)), bed())
    x0, _, x1, _ = left.reach.bounds
    assert x1 - x0 == pytest.approx(120 + LAP_MM)


@pytest.mark.parametrize("ends", [(-30, -1, -30, 1), (-30, 1, -30, -1)])
def test_which_way_a_line_is_written_changes_nothing(ends):
    """The left part comes first either way."""
    assert split_piece(piece(line(*ends)), bed())[0].shape.area == pytest.approx(12000)


def test_parts_turn_with_the_piece_and_keep_their_numbers():
    """So that one file can sew the same part of a motif in two places; only their names follow the top."""
    parts = split_piece(piece(line(-30, -1, -30, 1), turn=Fraction(90)), bed())
    assert [round(part.shape.area) for part in parts] == [12000, 18000]
    assert [name_part(parts, n) for n in (1, 2)] == ["upper part", "lower part"]


def test_two_lines_make_three_parts_in_order():
    """Thirds of 300 mm."""
    parts = split_piece(piece(line(-50, 0, -50, 1), line(50, 0, 50, 1)), bed())
    assert [round(part.shape.centroid.x) for part in parts] == [154, 254, 354]
    assert name_part(parts, 2) == "part 2 of 3"


def test_lines_that_cross_make_four_parts():
    """A quarter each."""
    parts = split_piece(piece(line(0, -1, 0, 1), line(-1, 0, 1, 0)), bed())
    assert [round(part.shape.area) for part in parts] == [7500] * 4


def test_a_line_that_cuts_nothing_is_refused():
    """160 mm from the middle of 300 mm is outside."""
    with pytest.raises(SplitMisses) as missed:
        split_piece(piece(line(160, -1, 160, 1)), bed())
    assert missed.value.pointer == "/pieces/0/split"


def test_the_regions_of_parts_do_not_overlap():
    """Whatever the angle of the line."""
    a, b = split_piece(piece(line(-20, -50, 33, 41)), bed())
    assert shapely.intersection(a.region, b.region).area == pytest.approx(0, abs=1e-6)
