"""What a cloth is sold as, and the sizes that names stand for."""

from __future__ import annotations

from fractions import Fraction

import pytest

from service.craft.document import read_document
from service.craft.faults import DocumentFaults
from service.craft.scaling import scale_document


def sold(piece, **cloth):
    patch = {"unit": "patch", "size": ["3", "3"], "fabric": "frost"}
    return {"title": "Leek", "fabrics": {"frost": {"sold_as": piece, **cloth}}, "top": patch}


def read(piece, **cloth):
    return read_document(sold(piece, **cloth)).fabrics["frost"].sold_as


@pytest.mark.parametrize(
    ("name", "width", "length"),
    [("fat quarter", 21, 18), ("fat eighth", 21, 9), ("strip", 40, Fraction(5, 2))],
)
def test_a_name_of_the_trade_brings_its_size(name, width, length):
    piece = read({"name": name})
    assert (piece.width, piece.length, piece.price) == (width, length, None)


def test_a_strip_is_as_wide_as_its_cloth():
    assert read({"name": "strip"}, usable_width="43").width == 43


def test_a_size_that_is_given_counts_more_than_the_name():
    piece = read({"name": "fat quarter", "width": "55 cm", "length": "50 cm"})
    assert (piece.width, piece.length) == (Fraction(2750, 127), Fraction(2500, 127))


def test_a_square_needs_one_side_only():
    assert [read({"name": "square", side: "10"}).width for side in ("width", "length")] == [10, 10]
    assert read({"name": "square", "length": "5"}).length == 5


@pytest.mark.parametrize(
    ("name", "words"), [("square", "10 in, 5 in or 2 1/2 in"), ("remnant", "a length such as")]
)
def test_a_name_without_a_size_is_asked_for_both_sides(name, words):
    with pytest.raises(DocumentFaults) as found:
        read({"name": name})
    faults = found.value.faults
    assert [fault.pointer for fault in faults] == ["/fabrics/frost/sold_as"] * 2
    assert all(words in fault.right for fault in faults)
    assert [word in fault.detail for word, fault in zip(('"width"', '"length"'), faults, strict=True)] == [
        True
    ] * 2


def test_a_cloth_that_comes_from_the_roll_is_sold_in_no_pieces():
    assert read(None) is None


def test_pieces_at_home_and_in_the_shop_are_not_scaled():
    stash = [{"width": "18", "length": "21", "count": 2}]
    before = sold({"name": "fat quarter", "width": "22"}, stash=stash)
    after = scale_document(before, Fraction(3, 2)).document
    assert after["top"]["size"] != before["top"]["size"]
    assert after["fabrics"] == before["fabrics"]
