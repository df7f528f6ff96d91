"""What is said of thin parts, and that saying it has an end for edges that turn without end."""

from __future__ import annotations

import math

import pytest

from service.craft.outlines import Line, Outline, Ring
from service.craft.outlines.cuttable import say_thin_parts


def wheel(corners: int, teeth: int, deep: float, radius: float) -> Outline:
    """A round shape whose edge goes in and out: so many teeth, so deep to both sides."""
    turns = [math.tau * k / corners for k in range(corners)]
    far = [radius + deep * math.cos(teeth * turn) for turn in turns]
    at = [(200 + r * math.cos(turn), 200 + r * math.sin(turn)) for r, turn in zip(far, turns, strict=True)]
    return Outline("wheel", (Ring(at[0], tuple(map(Line, at[1:]))),))


def test_ripples_that_are_not_thin_are_none() -> None:
    """Six hundred waves of half a millimetre round a plate: everywhere a disc of 1.5 mm gets nearly to the edge."""
    assert say_thin_parts([wheel(6000, 600, 0.25, 150)]) == []


def test_long_thin_teeth_are_named_with_their_places() -> None:
    """Sixty teeth 20 mm long round a core of 10 mm: 2.9 mm apart at half their length, so half of that wide."""
    [note] = say_thin_parts([wheel(3000, 60, 10, 20)])
    assert note.startswith("wheel: thinner than 1.5 mm ")
    assert "57 places more" in note


@pytest.mark.timeout(20)
@pytest.mark.parametrize("dense", [wheel(19_000, 4700, 0.1, 10), wheel(19_000, 4700, 2, 20)])
def test_an_edge_too_dense_to_look_through_is_said_to_be(dense: Outline) -> None:
    """Paring one of these down takes minutes; it is left alone and named, and a plain shape beside it is looked at."""
    notes = say_thin_parts([dense, wheel(3000, 60, 10, 20)])
    assert "turns too often within 1.5 mm" in notes[0]
    assert "thinner than 1.5 mm" in notes[1]


@pytest.mark.timeout(20)
def test_many_shapes_have_one_budget_together() -> None:
    """Each alone is looked at; of thirty the last are not, and are named."""
    one = wheel(4000, 980, 0.3, 50)
    assert say_thin_parts([one]) == []
    notes = say_thin_parts([one] * 30)
    assert 0 < len(notes) < 30
    assert all("turns too often" in note for note in notes)
