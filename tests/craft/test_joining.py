"""Long strips out of shorter ones."""

from __future__ import annotations

from fractions import Fraction

from hypothesis import given
from hypothesis import strategies as st

from service.craft.joining import join_strips

EIGHTH = Fraction(1, 8)
SEAM = Fraction(1, 4)
eighths = st.integers(1, 4000).map(lambda n: n * EIGHTH)


@given(wanted=eighths, usable=st.integers(8, 480).map(lambda n: n * Fraction(1, 10)))
def test_joined_strips_are_long_enough_fit_the_cloth_and_are_as_few_as_can_be(wanted, usable):
    joined = join_strips(wanted, usable, seam_allowance=SEAM, round_to=EIGHTH)
    assert joined is not None
    assert joined.length <= usable
    assert joined.total == joined.pieces * joined.length - (joined.pieces - 1) * 2 * SEAM
    assert wanted <= joined.total < wanted + joined.pieces * EIGHTH
    fewer = joined.pieces - 1
    whole = usable // EIGHTH * EIGHTH
    assert not fewer or fewer * whole - (fewer - 1) * 2 * SEAM < wanted


def test_cloth_narrower_than_its_own_seams_joins_nothing():
    assert join_strips(Fraction(9), Fraction(1, 2), seam_allowance=SEAM, round_to=EIGHTH) is None


def test_a_strip_that_fits_is_one_piece():
    joined = join_strips(Fraction(40), Fraction(40), seam_allowance=SEAM, round_to=EIGHTH)
    assert joined is not None and (joined.pieces, joined.length) == (1, 40)
