"""Colours as people see them who tell red and green apart badly, held against what the method promises, and against
another library's reading of the same paper.
"""

import itertools

import numpy as np
import pytest
from daltonlens.simulate import Deficiency, Simulator_Vienot1999
from skimage.color import rgb2lab

from service.look.colour_vision import KINDS, measure_difference
from service.look.palette import compute_lightness

DEFICIENCIES = dict(zip(KINDS, (Deficiency.PROTAN, Deficiency.DEUTAN), strict=True))
COLOURS = np.random.default_rng(1999).integers(0, 256, (1000, 3), dtype=np.uint8)


def name(colour):
    return "#{:02x}{:02x}{:02x}".format(*colour)


def distances(seen):
    """From each colour to the next, in CIELAB by scikit-image."""
    lab = rgb2lab(seen[np.newaxis] / 255)[0]
    return np.linalg.norm(np.diff(lab, axis=0), axis=1)


@pytest.mark.parametrize("kind", KINDS)
def test_a_thousand_pairs_are_as_far_apart_as_another_library_sees_them(kind):
    """DaltonLens 0.1.5 (Vienot and others 1999, in its own matrices), then CIELAB by scikit-image: within 2."""
    seen = Simulator_Vienot1999().simulate_cvd(COLOURS[np.newaxis], DEFICIENCIES[kind], severity=1.0)[0]
    pairs = itertools.pairwise(COLOURS)
    ours = np.array([measure_difference(name(one), name(other), kind) for one, other in pairs])
    apart = np.abs(ours - distances(seen))
    assert apart.max() < 2 and apart.mean() < 0.6


def test_distances_and_lightness_are_those_of_another_library():
    """CIELAB and L* of the same colours by scikit-image, with all receptors."""
    pairs = itertools.pairwise(COLOURS)
    ours = [measure_difference(name(one), name(other)) for one, other in pairs]
    assert np.abs(np.array(ours) - distances(COLOURS)).max() < 0.1
    lightness = [compute_lightness(name(colour)) for colour in COLOURS]
    assert lightness == pytest.approx(list(rgb2lab(COLOURS[np.newaxis] / 255)[0, :, 0]), abs=0.02)


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
