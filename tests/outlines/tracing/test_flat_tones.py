"""Flat greys and colours that touch: each is a shape of its own, and the answer says which tone it has."""

import numpy as np
import pytest
import shapely

from service.craft.tracing import TracingAsked
from tests.outlines.tracing.drawn import Flaws, encode, leaf, paint, paint_flat, skewed, star, wavy
from tests.outlines.tracing.test_accuracy import compare
from workers.outlines.tracing import trace_picture
from workers.outlines.tracing.flat_tones import find_tones
from workers.outlines.tracing.paper import light_of_tiles, spread_paper
from workers.outlines.tracing.picture import open_picture

SIZE = (110.0, 60.0)
NEAR_MM = 0.05
"""As for silhouettes at 300 dots an inch."""

NEAR_IN_A_JPEG_MM = 0.06
"""A JPEG keeps the colour of every second pixel only (4:2:0), and two colours may be alike in grey."""

TOUCH = "flat tones that touch were each taken as a shape of its own"
SCANNED, DRAWN = Flaws(), Flaws(blur=0, noise=0, light=(0, 0))
"""A scan, and a drawing whose edges are only anti-aliased."""


def sharp():
    """A star with tips of 53 degrees and a dot in it: no tip shows a flat patch as wide as its edges are blurred."""
    star_, dot = star(45, 30, 28, 14), wavy(6, [], 45, 30)
    return [(star_.difference(dot), (60, 110, 70)), (dot, (70, 90, 170))]


def greys():
    """Three boxes side by side, 2 degrees askew: two borders, each between two greys."""
    edges = [(10, 40, 60), (40, 70, 120), (70, 100, 180)]
    return [(skewed(shapely.box(a, 10, b, 50), 2, SIZE), (grey,) * 3) for a, b, grey in edges]


def colours():
    """A spot in a disc, and a spot in a star."""
    disc, spot = wavy(22, [], 30, 30), wavy(10, [(2, 4, 0)], 30, 30)
    star_, dot = star(80, 30, 25, 12), wavy(6, [], 80, 30)
    return [
        (disc.difference(spot), (200, 60, 40)),
        (spot, (240, 200, 60)),
        (star_.difference(dot), (60, 110, 70)),
        (dot, (70, 90, 170)),
    ]


@pytest.mark.parametrize("layers", [greys, colours, sharp])
@pytest.mark.parametrize(("flaws", "jpeg"), [(SCANNED, None), (SCANNED, 75), (DRAWN, None)])
def test_each_tone_is_a_shape_of_its_own_and_as_near_as_a_silhouette(layers, flaws, jpeg):
    """None is lost and none added; borders between tones lie within a twentieth of a millimetre too."""
    values = paint_flat(layers(), dpi=300, size=SIZE, flaws=flaws)
    data = encode(values, "JPEG", quality=jpeg) if jpeg else encode(values)
    file = trace_picture(TracingAsked(data, "tones", dpi=300)).file
    assert len(file.shapes) == len(layers())
    found = compare(file, {str(n): shape for n, (shape, _) in enumerate(layers())})
    near = NEAR_IN_A_JPEG_MM if jpeg and layers is not greys else NEAR_MM
    assert max(off for off, _ in found.values()) < near, found
    assert max(nodes for _, nodes in found.values()) <= 30, found
    assert TOUCH in file.notes


def test_the_tone_of_each_is_said_in_words():
    """By the share of the paper's light (60, 120 and 180 of 235), beside the name of the shape."""
    data = encode(paint_flat(greys(), dpi=300, size=SIZE)[..., 0])
    notes = trace_picture(TracingAsked(data, "greys", dpi=300)).file.notes
    assert [note for note in notes if "grey" in note] == [
        "left: grey of 25 % of the paper's light",
        "middle: grey of 50 % of the paper's light",
        "right: grey of 75 % of the paper's light",
    ]


def test_tones_that_grain_hides_stay_one_shape_and_that_is_said():
    """Noise of 12 grey levels of 255 on greys that differ by 60."""
    data = encode(paint_flat(greys(), dpi=150, size=SIZE, flaws=Flaws(noise=12))[..., 0])
    notes = trace_picture(TracingAsked(data, "greys", dpi=150)).file.notes
    assert any("too grainy to part them" in note for note in notes)


def black_on_white():
    return encode(paint([leaf(40, 30), star(85, 30, 20, 9)], dpi=300, size=SIZE))


def photograph():
    """The light falls to half across the sheet, as from one lamp at its side."""
    flaws = Flaws(light=(0.35, 0.2), noise=4, blur=1.2)
    values = paint([leaf(40, 30), shapely.box(70, 10, 100, 50)], dpi=300, size=SIZE, flaws=flaws, ink=70)
    return encode(values, "JPEG", quality=85)


def two_apart():
    """A dark and a light grey with paper between."""
    dark, light = (
        paint([shapely.box(x, 10, x + 30, 50)], dpi=300, size=SIZE, ink=ink)
        for x, ink in ((10, 10), (60, 110))
    )
    return encode(np.minimum(dark, light))


@pytest.mark.parametrize("picture", [black_on_white, photograph, two_apart])
def test_where_no_tones_touch_nothing_is_parted(picture):
    """Ink in one tone, in uneven light, or two tones apart, go the way of silhouettes, without a word on tones."""
    opened = open_picture(picture())
    notes = []
    assert find_tones(opened, spread_paper(light_of_tiles(opened.grey)), 0.6, notes) is None
    assert not notes
