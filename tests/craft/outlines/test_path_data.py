"""Path data: every command, against an outside parser and against geometry."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np
import pytest
from fontTools.pens.recordingPen import RecordingPen
from fontTools.svgLib.path import parse_path
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString, Point, Polygon

from service.craft.outlines import OutlineFile, OutlineUnreadable, Ring, flatten
from service.craft.outlines.contours import Pen
from service.craft.outlines.model import Cubic, Line, Segment
from service.craft.outlines.path_data import draw_path

Read = Callable[[str], OutlineFile]


def rings_by_font_library(data: str) -> list[Ring]:
    """Path data as fontTools' parser reports it, gathered into rings; it shares nothing with ours."""
    pen = RecordingPen()
    parse_path(data, pen)
    rings: list[Ring] = []
    start, segments = (0.0, 0.0), list[Segment]()
    for act, points in [*pen.value, ("moveTo", ((0.0, 0.0),))]:
        here = segments[-1].end if segments else start
        if act == "moveTo":
            rings += [Ring(start, tuple(segments))] if segments else []
            start, segments = points[0], []
        elif act == "lineTo":
            segments.append(Line(points[0]))
        elif act == "curveTo":
            segments.append(Cubic(*points))
        elif act == "qCurveTo":
            (qx, qy), end = points
            one = (here[0] + 2 / 3 * (qx - here[0]), here[1] + 2 / 3 * (qy - here[1]))
            segments.append(Cubic(one, (end[0] + 2 / 3 * (qx - end[0]), end[1] + 2 / 3 * (qy - end[1])), end))
    return rings


def drawn(data: str, *, unit_mm: float = 1.0) -> list[Ring]:
    pen = Pen(unit_mm)
    draw_path(data, pen, segments_left=1_000)
    return [Ring(contour.start, contour.segments) for contour in pen.finished()]


PATHS = {
    "lines": "M10 10L40 10L40 30z",
    "lines, relative": "m10 10l30 0l0 20z",
    "repeated moves are lines": "M10 10 40 10 40 30z",
    "repeated relative moves are lines": "m10,10 30,0 0,20z",
    "across and down": "M10 10H40V30H10Z",
    "across and down, relative": "m10 10h30v20h-30z",
    "across, several at once": "M10 10h10 20v5 15h-30z",
    "cubic": "M10 30C10 10 40 10 40 30z",
    "cubic, relative": "m10 30c0-20 30-20 30 0z",
    "smooth cubic": "M10 30C10 10 25 10 25 30S40 50 45 30L45 70H10z",
    "smooth cubic, relative": "m10 30c0-20 15-20 15 0s15 20 20 0l0 40h-35z",
    "smooth cubic after a line mirrors nothing": "M10 30L25 30S40 50 45 30L45 70H10z",
    "smooth cubic after a quadratic mirrors nothing": "M10 30Q20 10 30 30S40 50 45 30L45 70H10z",
    "quadratic": "M10 30Q25 0 40 30z",
    "quadratic, relative": "m10 30q15-30 30 0z",
    "smooth quadratic": "M10 30Q20 10 30 30T50 30L50 70H10z",
    "smooth quadratic, relative, twice": "m10 30q10-20 20 0t20 0t20 5l0 40h-60z",
    "arc, small and clockwise": "M10 30A20 12 30 0 1 40 25z",
    "arc, small and anticlockwise": "M10 30A20 12 30 0 0 40 25z",
    "arc, large and clockwise": "M10 30A20 22 -25 1 1 40 25z",
    "arc, large and anticlockwise": "M40 40A20 22 -25 1 0 60 45z",
    "arc, relative": "m10 30a20 20 0 0 1 30-5z",
    "arc too small to reach is enlarged": "M10 30A1 1 0 0 1 40 30z",
    "several arcs at once": "M20 30a10 10 0 0 1 20 0 10 10 0 0 1-20 0z",
    "numbers run together": "M10.5.5L40-.5 40.25.75l0 30.125-30,0z",
    "exponents": "M1e1 1.0E1L4e+1 1e1 400e-1 30z",
    "drawing on after closing starts where it started": "M10 10h10v10zl-5 20h-4z",
    "relative move after closing": "m10 10h10v10zm30 0h10v10z",
}


@pytest.mark.parametrize("data", PATHS.values(), ids=PATHS.keys())
def test_every_command_draws_what_an_outside_parser_draws(data: str) -> None:
    """Source: fontTools.svgLib.path.parse_path (it makes arcs of quarter cubics: 0.003 % of the radius off)."""
    ours, theirs = drawn(data), rings_by_font_library(data)
    assert len(ours) == len(theirs)
    for mine, other in zip(ours, theirs, strict=True):
        a, b = (LineString(flatten(ring, tolerance_mm=1e-4)) for ring in (mine, other))
        assert a.hausdorff_distance(b) < 0.01


def test_an_arc_without_a_radius_is_a_line() -> None:
    """Source: SVG 2, 9.5.1: if rx or ry is 0, the arc is a straight line to its end."""
    assert drawn("M10 30A0 5 0 0 1 40 30L25 60z")[0].segments == (Line((40, 30)), Line((25, 60)))


@pytest.mark.parametrize("radius", [0.5, 5.0, 20.0, 100.0, 1_000.0])
def test_an_arc_stays_within_a_thousandth_of_a_millimetre_of_its_circle(radius: float) -> None:
    """Source: the circle's equation; 360 degrees in two arcs, each cubic sampled at 500 places."""
    ring = drawn(f"M{-radius} 0A{radius} {radius} 0 0 1 {radius} 0A{radius} {radius} 0 0 1 {-radius} 0z")[0]
    t = np.linspace(0, 1, 500)[:, None]
    for here, cubic in ring.pairs():
        assert isinstance(cubic, Cubic)
        a, b, c, d = (np.array(p) for p in (here, *cubic.points))
        curve = (1 - t) ** 3 * a + 3 * t * (1 - t) ** 2 * b + 3 * t**2 * (1 - t) * c + t**3 * d
        assert np.abs(np.hypot(curve[:, 0], curve[:, 1]) - radius).max() < 0.001


def test_an_arc_is_made_finer_where_the_drawing_is_enlarged() -> None:
    small = drawn("M0 0A5 5 0 0 1 10 0z")[0]
    large = drawn("M0 0A5 5 0 0 1 10 0z", unit_mm=200.0)[0]
    assert len(large.segments) > len(small.segments)


def test_a_turned_ellipse_has_the_area_of_an_ellipse() -> None:
    """Source: area of an ellipse, pi a b."""
    cos, sin = math.cos(math.radians(30)), math.sin(math.radians(30))
    x, y = 40 * cos, 40 * sin
    ring = drawn(f"M{-x} {-y}A40 15 30 0 1 {x} {y}A40 15 30 0 1 {-x} {-y}z")[0]
    assert ring.area_mm2 == pytest.approx(math.pi * 40 * 15, abs=0.0005 * math.tau * 40)


@given(
    st.tuples(*[st.floats(-50, 50)] * 4).filter(lambda p: math.dist(p[:2], p[2:]) > 0.1),
    st.tuples(st.floats(5, 80), st.floats(5, 80)),
    st.floats(-360, 360),
    st.tuples(st.booleans(), st.booleans()),
)
def test_any_arc_is_the_one_an_outside_parser_draws(
    ends: tuple[float, ...], radii: tuple[float, float], turn: float, flags: tuple[bool, bool]
) -> None:
    """Source: fontTools, whose quarter cubics leave the ellipse by up to 0.03 % of its radius."""
    numbers = [*radii, turn, int(flags[0]), int(flags[1]), *ends[2:]]
    data = f"M{ends[0]:f} {ends[1]:f}A" + " ".join(
        f"{n:f}" if isinstance(n, float) else str(n) for n in numbers
    )
    ours, theirs = (
        LineString(flatten(rings[0], tolerance_mm=1e-3))
        for rings in (drawn(data), rings_by_font_library(data))
    )
    left, top, right, bottom = theirs.bounds
    assert ours.hausdorff_distance(theirs) < 2e-3 + 1e-3 * max(right - left, bottom - top)


FAULTS = {
    "": [],
    "L10 10": "starts with M",
    "10 10L5 5": "starts with a command letter",
    "M10": "M takes 2 numbers, not 1",
    "M10 10 L5": "L takes 2 numbers, not 1",
    "M10 10 C1 2 3 4 5": "C takes 6 numbers, not 5",
    "M10 10 H": "H takes 1 numbers, not 0",
    "M10 10 z 5": "z takes 0 numbers, not 1",
    "M10 10 L nan 4": '"n" stands where a number should',
    "M10 10 L1,2px": '"px" stands where a number should',
    "M10 10 L1e999 4": "too large",
    "M10 10 A5 5 0 2 1 4 4": "two flags",
    "M10 10 A5 5 0 0 1 4": "two radii, a turn, two flags",
    "M10 10 A5 5 0 0 1 4 4 9": "two radii, a turn, two flags",
}


@pytest.mark.parametrize(("data", "message"), FAULTS.items())
def test_faulty_path_data_is_refused_with_what_and_where(data: str, message: str) -> None:
    if message:
        with pytest.raises(ValueError, match=message):
            drawn(data)
    else:
        assert drawn(data) == []


def test_a_fault_names_the_line_the_element_and_the_character(read: Read) -> None:
    with pytest.raises(OutlineUnreadable) as caught:
        read('\n<path id="bean" d="M10 10 L20 10 Q5"/>')
    assert caught.value.where == 'line 2, <path id="bean">'
    assert "character 15" in caught.value.detail


def test_more_segments_than_the_budget_are_refused() -> None:
    pen = Pen(1.0)
    with pytest.raises(ValueError, match="more segments"):
        draw_path("M0 0" + "h1" * 10, pen, segments_left=10)
    assert draw_path("M0 0" + "h1" * 9, Pen(1.0), segments_left=10) == 10


def test_curves_stay_curves(read: Read) -> None:
    segments = read('<path d="M10 30Q25 0 40 30V60z"/>').shapes[0].rings[0].segments
    assert [type(segment) for segment in segments] == [Cubic, Line, Line]


def test_a_circle_with_a_hole_has_the_area_of_a_ring(read: Read) -> None:
    """Source: pi (R^2 - r^2); shapely counts the flattened one, whose chords cut off at most 0.01 mm."""
    outline = read(
        '<path d="M80 50A30 30 0 0 1 20 50 30 30 0 0 1 80 50zM60 50A10 10 0 0 0 40 50 10 10 0 0 0 60 50z"/>'
    ).shapes[0]
    assert outline.area_mm2 == pytest.approx(math.pi * 800, abs=0.0005 * math.tau * 40)
    outer, hole = (flatten(ring) for ring in outline.rings)
    assert Polygon(outer, [hole]).area == pytest.approx(math.pi * 800, abs=0.01 * math.tau * 40)
    assert not Polygon(outer, [hole]).contains(Point(50, 50))
