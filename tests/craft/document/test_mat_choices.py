"""How pieces lie on a mat: read from the section "cutting", with a fault for what no mat allows."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from service.craft.cutting_choices import MatChoices
from service.craft.reading import Reader
from service.craft.sections.cutting import read_cutting

TRACKS = [{"name": "hall", "has": ["hoop 130x180", "cutter 12x12"]}]


def read(mat: Any) -> tuple[MatChoices, list[tuple[str, str]]]:
    reader = Reader()
    reader.measure = "in"
    choices = read_cutting({"tracks": TRACKS, "cutting": {"mat": mat}}, reader)
    return choices.mat, [(fault.pointer, fault.right) for fault in reader.faults]


def test_spacing_margin_and_turns_are_read() -> None:
    mat, faults = read({"spacing": "1/8 in", "margin": 0, "turns": "quarter turns"})
    assert (mat, faults) == (MatChoices(Fraction(1, 8), Fraction(0), "quarter turns"), [])


def test_left_out_pieces_lie_5_mm_apart_and_6_mm_from_the_rim_in_any_turn() -> None:
    mat, faults = read({})
    assert (mat.spacing * Fraction(127, 5), mat.margin * Fraction(127, 5), mat.turns) == (5, 6, "any")
    assert faults == []


@pytest.mark.parametrize(
    ("mat", "pointer", "right"),
    [
        ({"spacing": 0}, "/cutting/mat/spacing", "a length above zero"),
        ({"spacing": "3 in"}, "/cutting/mat/spacing", '"5 mm", or "1/4 in"'),
        ({"margin": "80 mm"}, "/cutting/mat/margin", "at most 76.2 mm, a quarter of its narrower side"),
        ({"turns": "quarter"}, "/cutting/mat/turns", "quarter turns"),
        (5, "/cutting/mat", 'an object in braces {}, for example {"spacing": "5 mm"}'),
    ],
)
def test_what_no_mat_allows_is_a_fault_that_says_what_would_be_right(
    mat: Any, pointer: str, right: str
) -> None:
    """Worked by hand: a quarter of 304.8 mm is 76.2 mm."""
    _, ((where, proposed),) = read(mat)
    assert where == pointer
    assert right in proposed
