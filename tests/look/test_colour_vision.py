"""Colours as people see them who tell red and green apart badly, held against what the method promises."""

import pytest

from service.look.colour_vision import KINDS, measure_difference


@pytest.mark.parametrize("kind", KINDS)
@pytest.mark.parametrize("grey", ["#000000", "#777777", "#ffffff"])
def test_greys_stay_as_they_are(kind, grey):
    """White and black are common to all observers (Vienot and others 1999): distances among greys do not change."""
    assert measure_difference(grey, "#404040", kind) == pytest.approx(
        measure_difference(grey, "#404040"), abs=0.5
    )


@pytest.mark.parametrize("kind", KINDS)
def test_red_and_green_come_close_and_blue_and_yellow_stay_apart(kind):
    red, green, blue, yellow = "#b5653d", "#7d7a2f", "#3050b0", "#e0c040"
    assert measure_difference(red, green) > 35
    assert measure_difference(red, green, kind) < 0.5 * measure_difference(red, green)
    assert measure_difference(blue, yellow, kind) > 80


def test_distances_agree_with_published_values_of_cielab():
    """sRGB red: L* 53.2, a* 80.1, b* 67.2; green: 87.7, -86.2, 83.2 (D65; widely printed, from memory): 170.6 apart."""
    assert measure_difference("#ff0000", "#00ff00") == pytest.approx(170.6, abs=0.5)
