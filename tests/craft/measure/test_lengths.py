"""Lengths as people write them. 1 in = 25.4 mm: international yard and pound agreement, 1959."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.measure import (
    NotALength,
    format_inches,
    format_length,
    format_mm,
    length_object,
    parse_length,
    round_down,
    round_nearest,
    round_up,
)
from service.craft.measure.exact import ROOT_2, Exact
from service.craft.measure.lengths import MEASURES

THREE_AND_A_HALF = Fraction(7, 2)
TEXTS = (
    "3 1/2", "3-1/2", "3½", "3 ½", "3-½", "3.5", "3 1/2 in", "3 1/2in", '3 1/2"', '3½"', "3½″", "3 1/2”",
    "3 1/2 inch", "3.50 inches", " 3  1/2 ",
    "3 1⁄2", "3 1 / 2", "3–1/2", "3 2/4", "7/2", "3.5 IN", "03 1/2", "3\u00a01/2", "3\u20091/2",
)  # fmt: skip


@pytest.mark.parametrize("text", TEXTS)
def test_three_and_a_half_inches_however_they_are_written(text):
    assert parse_length(text, "in") == THREE_AND_A_HALF


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("½", "1/2"), ("1/2", "1/2"), (".5", "1/2"), ("0", "0"), ("⅛", "1/8"), ("2⅞", "23/8"), ("1⅓", "4/3"),
        ("12", "12"), ("1 yd", "36"), ("1/2 yd", "18"), ("2 m", "10000/127"), ("0.1 m", "500/127"),
    ],
)  # fmt: skip
def test_other_lengths(text, inches):
    assert parse_length(text, "in") == Fraction(inches)


@pytest.mark.parametrize("value", [3.5, "3.5", "3 1/2", Fraction(7, 2), "88.9 mm", "8.89 cm"])
def test_a_number_is_taken_as_written(value):
    assert parse_length(value, "in") == THREE_AND_A_HALF


@pytest.mark.parametrize(
    ("value", "mm"), [(89, "89"), ("89", "89"), (0.1, "0.1"), ("8.9 cm", "89"), ("1/2 in", "12.7")]
)
def test_in_a_millimetre_document_bare_numbers_are_millimetres(value, mm):
    assert parse_length(value, "mm") * Fraction("25.4") == Fraction(mm)


def test_in_a_centimetre_document_bare_numbers_are_centimetres():
    assert parse_length("8,9".replace(",", "."), "cm") == parse_length("89 mm", "in")


@pytest.mark.parametrize(
    "text",
    [
        "", " ", "in", '"', "-1", "1/2/3", "1 2", "1 2 3/4", "3.5.1", "3,5",
        "1.5 1/2", "3 1/", "/2", "1/2-", "½½", "1½/2", "3 in 2",
        "3 ft", "3 1/2 mm in", "1e3", "inf", "nan", "0x10", "٣", "3'", "--3", "3 +1/2", "1" * 41, "3\x00", "3 1/2\n4",
    ],
)  # fmt: skip
def test_what_is_not_a_length_is_refused_in_words(text):
    with pytest.raises(NotALength, match="is not a length"):
        parse_length(text, "in")


@pytest.mark.parametrize("text", ["1/0", "3 1/0", "0/0", "3 1/00"])
def test_nothing_is_divided_by_zero(text):
    with pytest.raises(NotALength, match="divides by zero"):
        parse_length(text, "in")


@pytest.mark.parametrize(
    ("value", "shown"),
    [(None, "nothing"), (True, "true"), (False, "false"), ([], "a list"), ({}, "an object")],
)
def test_other_json_values_are_refused_in_words(value, shown):
    with pytest.raises(NotALength) as found:
        parse_length(value, "in")
    assert str(found.value) == f"{shown} is not a length"


@pytest.mark.parametrize("value", [float("inf"), float("-inf"), float("nan")])
def test_numbers_without_end_are_refused(value):
    with pytest.raises(NotALength, match="not a finite number"):
        parse_length(value, "in")


def test_a_number_of_ten_thousand_digits_is_still_a_number():
    assert parse_length(10**10_000, "in") == 10**10_000
    with pytest.raises(NotALength):
        parse_length("1" * 10_000, "in")


def test_a_long_text_is_cut_short_in_the_message():
    with pytest.raises(NotALength) as found:
        parse_length("x" * 5000, "in")
    assert len(str(found.value)) < 120


@given(st.text(max_size=60) | st.from_regex(r"[0-9 /.½¼-]{0,12}(in|mm|cm|\")?", fullmatch=True))
def test_any_text_is_a_length_or_refused(text):
    try:
        assert parse_length(text, "in") >= 0
    except NotALength as why:
        assert str(why)


@given(st.integers(0, 64_000).map(lambda n: Fraction(n, 64)))
def test_inches_written_are_read_back_exactly(inches):
    assert parse_length(format_inches(inches), "mm") == inches
    assert parse_length(format_length(inches, "in").removesuffix(" in"), "in") == inches


@given(st.integers(0, 999).map(lambda n: Fraction(n, 10)) | st.integers(100, 25_000).map(Fraction))
def test_millimetres_written_are_read_back_exactly(mm):
    inches = mm / Fraction("25.4")
    for measure in ("mm", "cm"):
        assert parse_length(format_length(inches, measure), "in") == inches


@given(st.decimals(0, 1000, allow_nan=False, places=3))
def test_decimals_are_read_exactly(value):
    assert parse_length(str(value), "in") == Fraction(value)
    assert parse_length(f"{value} mm", "in") == Fraction(value) / Fraction("25.4")


@given(st.floats(0, 1000))
def test_a_json_number_means_its_decimals(value):
    assert parse_length(value, "in") == Fraction(Decimal(repr(value)))


@pytest.mark.parametrize(
    ("inches", "text"),
    [
        ("7/2", "3 1/2 in"), ("7/8", "7/8 in"), ("0", "0 in"), ("12", "12 in"), ("-9/8", "-1 1/8 in"),
        ("1/64", "1/64 in"), ("1/128", "1/64 in"), ("1/129", "0 in"), ("127/128", "1 in"),
    ],
)  # fmt: skip
def test_inches_are_written_to_the_nearest_64th(inches, text):
    assert format_inches(Fraction(inches)) == text


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        ("88.9", "88.9 mm"), ("6.35", "6.4 mm"), ("0", "0 mm"), ("99.94", "99.9 mm"), ("99.96", "10 cm"),
        ("100", "10 cm"), ("317.5", "31.8 cm"), ("1000", "100 cm"),
        ("-5", "-5 mm"), ("-200", "-20 cm"), ("-0.5", "-0.5 mm"),
    ],
)  # fmt: skip
def test_metric_lengths_change_to_centimetres_at_ten(mm, text):
    assert format_mm(Fraction(mm) / Fraction("25.4")) == text


def test_a_diagonal_is_written_to_the_nearest_64th():
    """12√2 = 16.97056: 16 31/32 is 16.96875."""
    assert format_inches(12 * ROOT_2) == "16 31/32 in"
    assert length_object(12 * ROOT_2, "in") == {"text": "16 31/32 in", "inches": 16.970563, "mm": 431.0523}


@pytest.mark.parametrize("measure", MEASURES)
def test_a_length_object_says_the_same_three_times(measure):
    made = length_object(Fraction(25, 2), measure)
    assert (made["inches"], made["mm"]) == (12.5, 317.5)
    assert made["text"] == {"in": "12 1/2 in"}.get(measure, "31.8 cm")


steps = st.sampled_from([Fraction(1, 8), Fraction(1, 16), Fraction(1, 64), Fraction(5, 127), Fraction(1)])
values = st.builds(
    Exact,
    st.fractions(min_value=-100, max_value=100, max_denominator=127),
    st.fractions(min_value=-50, max_value=50, max_denominator=127),
)


@given(values, steps)
def test_rounding_up_is_never_short_and_less_than_a_step_over(value, step):
    up = round_up(value, step)
    assert value <= up < value + step and (up / step).denominator == 1


@given(values, steps)
def test_rounding_down_is_never_over_and_less_than_a_step_short(value, step):
    down = round_down(value, step)
    assert value - step < down <= value and (down / step).denominator == 1


@given(values, steps)
def test_the_nearest_is_at_most_half_a_step_away(value, step):
    near = round_nearest(value, step)
    assert value - step / 2 < near <= value + step / 2


@given(st.integers(-500, 500), steps)
def test_what_lies_on_the_grid_stays_there(n, step):
    assert round_up(n * step, step) == round_down(n * step, step) == round_nearest(n * step, step) == n * step
