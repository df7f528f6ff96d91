"""How near traced outlines are to the shapes that were painted: a Hausdorff distance in Shapely, all in mm."""

import functools

import numpy as np
import pytest
import shapely
from shapely.geometry import Polygon

from service.craft.outlines import flatten
from service.craft.tracing import TracingAsked
from tests.outlines.tracing.drawn import (
    CORNERED,
    HOLED,
    SHEET,
    SMOOTH,
    Flaws,
    encode,
    leaf,
    paint,
    skewed,
    star,
)
from workers.outlines.tracing import trace_picture

NEAR_MM = 0.05
"""What this project sets itself at 300 dots an inch; a rotary cutter or a needle is no nearer than 0.1 mm."""


def polygon_of(outline):
    """A traced outline as a polygon, curves within 0.002 mm."""
    outer, *holes = (flatten(ring, tolerance_mm=0.002) for ring in outline.rings)
    return Polygon(outer, holes)


def apart(one, other):
    """The Hausdorff distance between the edges of two polygons, both ways, every 0.02 mm."""
    edges = [shapely.segmentize(shape.boundary, 0.02) for shape in (one, other)]
    shapely.prepare(edges)
    both = [shapely.distance(shapely.points(shapely.get_coordinates(a)), b) for a, b in (edges, edges[::-1])]
    return max(distances.max() for distances in both)


def compare(file, painted):
    """For each painted shape how far the traced one is off, and its number of nodes."""
    traced = [(polygon_of(shape), sum(len(ring.segments) for ring in shape.rings)) for shape in file.shapes]
    found = {}
    for name, truth in painted.items():
        like, nodes = min(
            traced, key=lambda one: one[0].centroid.distance(truth.centroid) + abs(one[0].area - truth.area)
        )
        found[name] = (apart(like, truth), nodes)
    return found


@functools.cache
def traced_sheet(dpi, jpeg=None):
    """The usual sheet, scanned askew, blurred and noisy, and traced."""
    painted = {name: skewed(shape, 2) for name, shape in SHEET.items()}
    values = paint(painted.values(), dpi=dpi)
    data = encode(values, "JPEG", quality=jpeg) if jpeg else encode(values)
    return trace_picture(TracingAsked(data, "sheet.png", dpi=dpi)).file, painted


def test_at_300_dots_no_point_is_off_by_more_than_a_twentieth():
    """Smooth, cornered, thin and holed shapes, 2 degrees askew, with blur, noise and uneven light."""
    found = compare(*traced_sheet(300))
    assert max(off for off, _ in found.values()) < NEAR_MM, found


@pytest.mark.parametrize("jpeg", [None, 75])
def test_few_nodes_are_used(jpeg):
    """At most 20 a shape, 12 on the average, for a flower too, whose six petals turn its bend twelve times."""
    found = compare(*traced_sheet(300, jpeg=jpeg))
    assert max(nodes for _, nodes in found.values()) <= 20, found
    assert np.mean([nodes for _, nodes in found.values()]) <= 12


def test_a_jpeg_is_traced_as_near():
    """Quality 75 leaves ripples round every edge."""
    found = compare(*traced_sheet(300, jpeg=75))
    assert max(off for off, _ in found.values()) < NEAR_MM, found


@pytest.mark.parametrize("seed", [1, 4, 5])
def test_grain_leaves_corners_where_they_are(seed):
    """Noise of 12 grey levels of 255: tips of 44 and 77 degrees, notches and right angles within a twentieth."""
    painted = {"leaf": leaf(35, 28), "star": star(90, 30), "box": shapely.box(10, 62, 55, 92)}
    painted["slip"] = shapely.box(70, 62, 73, 92)
    painted = {name: skewed(shape, 2, (120, 100)) for name, shape in painted.items()}
    flaws = Flaws(noise=12, blur=1.2)
    data = encode(paint(painted.values(), dpi=300, size=(120, 100), flaws=flaws, seed=seed))
    found = compare(trace_picture(TracingAsked(data, "grain.png", dpi=300)).file, painted)
    assert max(off for off, _ in found.values()) < NEAR_MM, found


@pytest.mark.parametrize("flaws", [Flaws(), Flaws(noise=12, blur=1.2)], ids=["scan", "grain"])
def test_at_150_dots_half_a_pixel_is_the_most_one_is_off(flaws):
    """A pixel is 0.17 mm there: no shape is lost, none has more than 20 nodes, grain or not."""
    painted = {name: skewed(shape, 2) for name, shape in SHEET.items()}
    data = encode(paint(painted.values(), dpi=150, flaws=flaws))
    file = trace_picture(TracingAsked(data, "coarse.png", dpi=150)).file
    found = compare(file, painted)
    assert len(file.shapes) == len(painted)
    assert max(off for off, _ in found.values()) < 25.4 / 150 / 2, found
    assert max(off for name, (off, _) in found.items() if name in SMOOTH) < 0.06, found
    assert max(nodes for _, nodes in found.values()) <= 20, found


def test_at_600_dots_it_is_no_worse():
    """A part of a sheet; the whole one would be halved on the way in (see the bench)."""
    painted = {"leaf": leaf(45, 25), "star": star(45, 65), "slip": shapely.box(80, 10, 83, 60)}
    painted = {name: skewed(shape, 2, (95, 95)) for name, shape in painted.items()}
    data = encode(paint(painted.values(), dpi=600, size=(95, 95)))
    found = compare(trace_picture(TracingAsked(data, "part.png", dpi=600)).file, painted)
    assert max(off for off, _ in found.values()) < NEAR_MM, found


def test_true_corners_are_corners_and_round_ones_are_not():
    """Straight shapes come back with a node a corner and straight sides; round corners of 6 mm stay round."""
    file, _ = traced_sheet(300)
    by_size = {round(shape.area_mm2 / 10): shape for shape in file.shapes}
    box = by_size[round(CORNERED["box"].area / 10)]
    assert [type(segment).__name__ for segment in box.rings[0].segments] == ["Line"] * 4
    star_ = by_size[round(CORNERED["star"].area / 10)]
    assert [type(segment).__name__ for segment in star_.rings[0].segments] == ["Line"] * 10


@pytest.mark.parametrize("seed", [1, 2, 3])
def test_a_straight_side_is_one_line_from_corner_to_corner(seed):
    """A box scanned at 200 dots an inch has four nodes, whatever the grain of the scan."""
    box = skewed(shapely.box(15, 15, 95, 65), 2, (110, 80))
    data = encode(paint([box], dpi=200, size=(110, 80), seed=seed))
    [shape] = trace_picture(TracingAsked(data, "box.png", dpi=200)).file.shapes
    assert [type(segment).__name__ for segment in shape.rings[0].segments] == ["Line"] * 4


def test_a_hole_stays_a_hole():
    """The ring has two rings of curves, and the area of a ring."""
    file, painted = traced_sheet(300)
    [ring] = [shape for shape in file.shapes if len(shape.rings) == 2]
    assert ring.area_mm2 == pytest.approx(HOLED["ring"].area, rel=0.002)
    assert len(file.shapes) == len(painted)


def test_a_photograph_with_uneven_light_is_traced_as_near():
    """The light falls to half across the sheet, as from one lamp at its side; the ink is dark grey."""
    painted = {"leaf": leaf(45, 30), "star": star(45, 75), "big": shapely.box(80, 15, 135, 95)}
    flaws = Flaws(light=(0.35, 0.2), noise=4, blur=1.2)
    data = encode(paint(painted.values(), dpi=300, size=(150, 110), flaws=flaws, ink=70), "JPEG", quality=85)
    found = compare(trace_picture(TracingAsked(data, "photo.jpg", dpi=300)).file, painted)
    assert max(off for off, _ in found.values()) < 0.06, found


@pytest.mark.parametrize("dpi", [150, 300])
def test_stairs_of_a_picture_in_two_colours_are_smoothed_out(dpi):
    """Nothing lies between ink and paper: off by a pixel at most, with few nodes, as though it had been scanned."""
    painted = {"leaf": leaf(40, 30), "circle": shapely.Point(92, 30).buffer(18, quad_segs=200)}
    values = paint(painted.values(), dpi=dpi, size=(120, 60), flaws=Flaws(blur=0, noise=0, light=(0, 0)))
    data = encode(np.where(values < 137, 0, 255).astype(np.uint8))
    found = compare(trace_picture(TracingAsked(data, "stairs.png", dpi=dpi)).file, painted)
    assert max(off for off, _ in found.values()) < 25.4 / dpi, found
    assert max(nodes for _, nodes in found.values()) <= 20, found


def test_light_and_dark_ink_on_one_sheet_each_have_their_own_edge():
    """A grey shape beside a black one: halfway between its own ink and the paper, not the other's."""
    dark, light = shapely.box(10, 10, 40, 40), shapely.box(50, 10, 80, 40)
    flaws = Flaws(noise=2, blur=1.5)
    both = np.minimum(
        paint([dark], dpi=300, size=(90, 50), flaws=flaws, ink=10),
        paint([light], dpi=300, size=(90, 50), flaws=flaws, ink=110),
    )
    found = compare(
        trace_picture(TracingAsked(encode(both), "two.png", dpi=300)).file, {"a": dark, "b": light}
    )
    assert max(off for off, _ in found.values()) < 0.04, found


def test_the_same_picture_gives_the_same_outlines():
    """To the last digit."""
    data = encode(paint([leaf(40, 30)], dpi=150, size=(80, 60)))
    asked = TracingAsked(data, "leaf.png", dpi=150)
    assert trace_picture(asked) == trace_picture(asked)
