"""Joins, error growth and the corners of a regular octagon against published rules of patchwork."""

from __future__ import annotations

from fractions import Fraction

import pytest

from service.craft.document import read_document
from service.craft.joining import join_strips
from service.craft.measure import ROOT_2
from service.craft.units import CornerSquares
from workers.cutting.buying import length_to_buy
from workers.cutting.cut_list import list_cuts
from workers.sewing.tolerance import ErrorModel, measure_slack

QUARTER, EIGHTH = Fraction(1, 4), Fraction(1, 8)


@pytest.mark.parametrize(("wanted", "usable", "pieces", "total"), [(19.5, 10, 2, 19.5), (29, 10, 3, 29)])
def test_a_straight_join_loses_half_an_inch(wanted, usable, pieces, total):
    """10 and 10 give 19 1/2 with a 1/4 in seam: geometry (derived)."""
    joined = join_strips(Fraction(wanted), Fraction(usable), seam_allowance=QUARTER, round_to=EIGHTH)
    assert joined is not None
    assert (joined.pieces, joined.length, joined.total) == (pieces, usable, total)


def test_sixteen_errors_of_a_thirty_second_come_to_half_an_inch_only_if_all_go_one_way():
    """homeschoolquilting.com/block_construction.html: 1/32 x 16 = 1/2. That is the worst case.

    A tolerance for errors that go either way lies below it, and above what a single seam is allowed.
    """
    worst = Fraction(1, 32) * 16
    allowed = measure_slack(16, Fraction(1, 16), ErrorModel())
    assert measure_slack(1, Fraction(1, 16), ErrorModel()) < allowed < worst


@pytest.mark.parametrize(
    ("usable", "strips", "inches", "yards"),
    [(44, 8, 52, Fraction(3, 2)), (40, 9, Fraction(117, 2), Fraction(13, 8))],
)
def test_a_border_takes_as_many_strips_as_the_way_round_over_the_width(usable, strips, inches, yards):
    """70 by 86 in with strips cut 6 1/2 in, 338 in all round: "Can you figure the amount of yardage to buy?", school
    slides, slideserve.com, up to the lengths; 8 strips from 44 in cloth, 9 from 40 in, and what is bought: derived.

    The count leaves the joins out, and here they do not change it: 9 x 40 - 8 x 1/2 = 356.
    """
    border = {"width": "6", "fabric": "leaf", "cut": "across the width"}
    inside = {"unit": "patch", "size": ["70", "86"], "fabric": "frost"}
    fabrics = {"leaf": {"usable_width": str(usable)}, "frost": {"usable_width": "108"}}
    top = {"unit": "bordered", "inside": inside, "borders": [border]}
    cuts = list_cuts(read_document({"title": "Pumpkin", "fabrics": fabrics, "top": top}))
    border_cuts = [cut for cut in cuts if cut.fabric == "leaf"]
    assert sum(cut.count for cut in border_cuts) == strips
    long = [
        cut.joined.total * (cut.count // cut.joined.pieces) for cut in border_cuts if cut.joined is not None
    ]
    assert sum(long) >= 338
    length = sum(cut.count * cut.height for cut in border_cuts)
    assert length == inches
    assert length_to_buy(length, Fraction(0), "in") == yards * 36


def test_a_regular_octagon_has_corners_of_0_293_not_of_a_third():
    """Side S/(1 + √2) = 0.414 S, corner leg 0.293 S (geometry); thirds do not make it (catbirdquilts.wordpress.com)."""
    side = 1 / (1 + ROOT_2)
    leg = (1 - side) / 2
    assert (float(side), float(leg)) == (pytest.approx(0.414214, abs=5e-7), pytest.approx(0.292893, abs=5e-7))
    corners = {"size": "1.757", "fabric": "leaf"}
    raw = {"unit": "corner squares", "size": ["6", "6"], "fabric": "frost", "corners": corners}
    near, thirds = (_sides_of_base(raw | {"corners": corners | {"size": leg}}) for leg in ("1.757", "2"))
    assert max(near) - min(near) < 0.01
    assert max(thirds) - min(thirds) > 0.8


def _sides_of_base(raw: dict) -> list[float]:
    top = read_document({"title": "Pumpkin", "fabrics": {"leaf": {}, "frost": {}}, "top": raw}).top
    assert isinstance(top, CornerSquares)
    points = top.own_patches()[0].points
    lengths = []
    for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True):
        squared = (x1 - x0) * (x1 - x0) + (y1 - y0) * (y1 - y0)
        lengths.append(float(squared) ** 0.5)
    return lengths
