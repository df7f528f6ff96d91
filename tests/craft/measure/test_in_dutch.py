"""Lengths for those who read Dutch: a comma before the tenths, and "inch" (usual spelling, Taalunie's lists)."""

from __future__ import annotations

import json
from fractions import Fraction

import pytest

from service.craft.audience import BOTH, METRIC, Audience, writing_for
from service.craft.cutting_choices import BUYING_STEPS, METRE, say_in_steps
from service.craft.measure import NotALength, format_length, format_size, length_object, parse_length


def test_tenths_stand_behind_a_comma_and_inches_are_written_out() -> None:
    """A length reads as a Dutch maker writes it, in whatever measure."""
    with writing_for(Audience(language="nl")):
        assert format_length(Fraction(25, 2), "cm") == "31,8 cm"
        assert format_length(Fraction(7, 2), "in") == "3 1/2 inch"
    with writing_for(Audience(BOTH, "nl")):
        assert format_length(Fraction(7, 2), "in") == "3 1/2 inch (88,9 mm)"


def test_sizes_have_the_dutch_word_between_their_sides() -> None:
    """Two sides are said with "bij", and what is not on a mark is "ongeveer"."""
    with writing_for(Audience(language="nl")):
        assert format_size(2, Fraction(7, 2), "in") == "2 bij 3 1/2 inch"
        assert format_size(2, 20, "cm", by="×") == "5,1 × 50,8 cm"
    with writing_for(Audience(BOTH, "nl")):
        assert format_size(2, Fraction(15, 8) + Fraction(1, 50), "mm").endswith("(ongeveer 2 bij 1 7/8 inch)")


def test_numbers_for_programs_keep_their_point() -> None:
    """A length object says the same numbers to every reader; only its text changes."""
    with writing_for(Audience(METRIC, "nl")):
        dutch = length_object(Fraction(25, 2), "in")
    english = length_object(Fraction(25, 2), "in")
    assert dutch["text"] == "31,8 cm" and english["text"] == "12 1/2 in"
    assert {**dutch, "text": ""} == {**english, "text": ""}
    assert '"mm": 317.5' in json.dumps(dutch)


def test_a_document_is_read_alike_whoever_reads() -> None:
    """Lengths in a document have a point, whatever language its viewers read."""
    with writing_for(Audience(language="nl")):
        assert parse_length("8.9 cm", "in") == Fraction(445, 127)
        with pytest.raises(NotALength):
            parse_length("8,9 cm", "in")


def test_metres_to_buy_have_a_comma_too() -> None:
    """What a shop cuts is said with a comma in metres."""
    with writing_for(Audience(language="nl")):
        assert say_in_steps(METRE * 3 / 4, BUYING_STEPS["0.25 m"]) == "0,75 m"
