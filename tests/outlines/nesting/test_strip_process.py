"""Where the search for a shorter strip ends: after so many steps of one kind or another, never by a clock."""

from __future__ import annotations

from typing import Any

import pytest
from spyrrow import ReportType

from workers.outlines.nesting.strip import FEWEST_STUCK, StripItem, count_stuck_steps
from workers.outlines.nesting.strip_process import find_end

KINDS = {"F": ReportType.ExplFeas, "i": ReportType.ExplImproving, "X": ReportType.ExplInfeas}
ASKED = {"steps": 20, "stuck": 4, "vain": 1, "enough": 50.0}


def reports(kinds: str) -> list[tuple[Any, float]]:
    """Each strip that is found (F) is one mm shorter than the last, from 100 mm on."""
    return [(KINDS[kind], 100.0 - kinds[: n + 1].count("F")) for n, kind in enumerate(kinds)]


@pytest.mark.parametrize(
    ("kinds", "end"),
    [
        ("F" * 19, None),
        ("F" * 25, 20),
        ("FFX" + "F" * 10, 3),
        ("FiiiFiiiFiiiFiiF", None),
        ("FiiiFiiiFiiiiFF", 13),
        ("FiFiFiFiFiFiFiiF", None),
    ],
    ids=["too few", "steps", "in vain", "stuck three times", "stuck four times", "short ways"],
)
def test_the_search_ends_by_what_was_reported_alone(kinds: str, end: int | None) -> None:
    """Worked by hand: stuck is the third step and every later one since a strip was found."""
    assert find_end(reports(kinds), ASKED) == end


def test_the_first_strip_that_is_short_enough_ends_the_search() -> None:
    """A shorter one that is not legal yet does not."""
    asked = {**ASKED, "enough": 97.0}
    assert find_end(reports("FiFiFiF"), asked) == 5
    assert find_end([(KINDS["i"], 90.0), (KINDS["F"], 98.0)], asked) is None


def items(count: int, *corners: tuple[float, float]) -> tuple[StripItem, ...]:
    return (StripItem(corners, ()),) * count


def test_shapes_with_bays_are_given_up_sooner_and_many_shapes_later() -> None:
    """Worked by hand: squares fill their hulls, so 2.4 x 8 for sixteen; a thin hook fills little of its hull."""
    square = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))
    hook = ((0.0, 0.0), (10.0, 0.0), (10.0, 1.0), (1.0, 1.0), (1.0, 10.0), (0.0, 10.0))
    assert count_stuck_steps(items(16, *square)) == 19
    assert count_stuck_steps(items(81, *square)) == 65  # 2.4 x 27
    assert count_stuck_steps(items(16, *hook)) == FEWEST_STUCK
