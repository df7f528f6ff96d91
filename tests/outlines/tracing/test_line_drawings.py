"""Shapes that were drawn as lines: the outline runs along the middle of the line."""

import numpy as np
import pytest
import shapely
from shapely.geometry import LineString, Polygon

from service.craft.tracing import TracingAsked
from tests.outlines.tracing.drawn import Flaws, encode, leaf, paint, skewed, star, wavy
from tests.outlines.tracing.test_accuracy import compare
from workers.outlines.tracing import trace_picture

SIZE = (150.0, 110.0)
DRAWN = {
    "blob": wavy(20, [(2.5, 3, 0.4)], 35, 35),
    "star": star(105, 35, 25, 12),
    "leaf": leaf(40, 85),
    "box": shapely.box(85, 68, 130, 100),
}


def line_round(shape, pen):
    """The band that a pen of a width leaves round a shape, corners mitred as a drawing program makes them."""
    join = {"join_style": "mitre", "mitre_limit": 10}
    return shape.buffer(pen / 2, **join).difference(shape.buffer(-pen / 2, **join))


def trace(shapes, **flaws):
    values = paint(shapes, dpi=300, size=SIZE, flaws=Flaws(**flaws))
    return trace_picture(TracingAsked(encode(values), "lines.png", dpi=300)).file


@pytest.mark.parametrize("pen", [0.6, 1.2, 2.0])
def test_a_line_is_followed_along_its_middle(pen):
    """Within a twentieth of a millimetre, whatever the pen; a pen's own width is measured and said."""
    painted = {name: skewed(shape, 2, SIZE) for name, shape in DRAWN.items()}
    file = trace([line_round(shape, pen) for shape in painted.values()])
    assert len(file.shapes) == len(DRAWN)
    found = compare(file, painted)
    assert max(off for off, _ in found.values()) < 0.06, found
    assert f"a line {pen} mm wide was followed along its middle" in file.notes


def test_ends_that_nearly_meet_are_joined():
    """A gap of 1 mm in a circle is closed; one of 6 mm stays, and what is there is the line itself."""
    t = np.linspace(0, 2 * np.pi, 2000)

    def arc(gap, cx):
        reach = gap / 20 / 2
        kept = t[(t > reach) & (t < 2 * np.pi - reach)]
        return LineString(np.stack([cx + 20 * np.cos(kept), 50 + 20 * np.sin(kept)], axis=1)).buffer(0.5)

    file = trace([arc(2.0, 35), arc(7.0, 105)])
    assert "the ends of a line that nearly meet were joined" in file.notes
    joined, open_ = file.shapes
    assert joined.area_mm2 == pytest.approx(np.pi * 400, rel=0.01)
    assert open_.area_mm2 < 140


def test_a_wide_band_is_a_shape_with_a_hole():
    """A ring 7 mm wide was meant as a ring."""
    ring = wavy(16, [], 50, 50).difference(wavy(9, [], 50, 50))
    [shape] = trace([ring]).shapes
    assert len(shape.rings) == 2


def test_faces_between_lines_are_shapes():
    """A box parted by a line gives two shapes that share the middle of that line."""
    whole = shapely.union_all(
        [
            line_round(shapely.box(20, 20, 90, 80), 1.0),
            shapely.box(49.5, 20, 50.5, 80),
        ]
    )
    file = trace([whole])
    wanted = {"left": shapely.box(20, 20, 50, 80), "right": shapely.box(50, 20, 90, 80)}
    assert len(file.shapes) == 2
    found = compare(file, wanted)
    assert max(off for off, _ in found.values()) < 0.06, found


def test_a_line_drawn_twice_is_one_line():
    """The slit that two strokes leave between them is no shape."""
    band = line_round(shapely.box(20, 20, 90, 80), 2.0)
    slit = shapely.box(30, 19.8, 80, 20.3)
    file = trace([band.difference(slit)])
    assert len(file.shapes) == 1
    assert "a line that was drawn twice was taken for one" in file.notes


def test_parts_too_thin_to_cut_are_named_and_tips_are_not():
    """A box with a tail 1 mm wide is flagged with its place; a star with sharp tips is not."""
    tailed = Polygon([(10, 10), (40, 10), (40, 23.6), (70, 23.6), (70, 24.6), (40, 24.6), (40, 40), (10, 40)])
    file = trace([tailed, star(110, 60)])
    thin = [note for note in file.notes if "thinner than 1.5 mm" in note]
    assert len(thin) == 1
    assert thin[0].startswith("top-left")
    assert "45 mm from its left and 14 mm from its top" in thin[0]


def test_dust_is_left_out_and_counted():
    """Specks of 1 mm beside a shape, and what the rim of the picture cuts off."""
    dust = [shapely.Point(x, 100).buffer(0.5) for x in (20, 40, 60)]
    file = trace([leaf(50, 50), shapely.box(140, 20, 160, 60), *dust])
    assert len(file.shapes) == 1
    assert "3 specks smaller than 2 mm left out" in file.notes
    assert "left out: 1 dark patch cut off by the picture's rim" in file.notes
