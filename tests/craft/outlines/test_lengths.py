"""Units, transforms and view boxes, against the standards and an outside library."""

from __future__ import annotations

import math

import pytest
from fontTools.misc.transform import Identity, Transform

from service.craft.outlines.lengths import (
    MM_PER_PX,
    Viewport,
    fit_view_box,
    parse_length,
    parse_transform,
    parse_view_box,
    read_numbers,
)


@pytest.mark.parametrize(
    "text", ["1in", "2.54cm", "25.4mm", "101.6Q", "96px", "96", "72pt", "6pc", " +1e0in ", "1IN"]
)
def test_every_unit_measures_an_inch(text: str) -> None:
    """Source: W3C CSS Values, absolute lengths: 1 in = 2.54 cm = 25.4 mm = 101.6 Q = 96 px = 72 pt = 6 pc."""
    assert parse_length(text, whole=0) * MM_PER_PX == pytest.approx(25.4)


def test_percentages_are_of_the_view() -> None:
    """Source: SVG 2, 8.9: of the width, of the height, or of the diagonal over the square root of two."""
    view = Viewport(300, 400)
    sides = [parse_length("10%", whole=view.side(axis)) for axis in "xyr"]
    assert sides == pytest.approx([30, 40, 50 / math.sqrt(2)])


@pytest.mark.parametrize("text", ["", "wide", "3em", "3 4", "1e999mm", "3vw", "--2"])
def test_what_is_no_length_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"no length|too large"):
        parse_length(text, whole=0)


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("", Identity),
        ("none", Identity),
        ("matrix(1 .5 -2 3 40 -5)", Transform(1, 0.5, -2, 3, 40, -5)),
        ("translate(7)", Identity.translate(7, 0)),
        ("translate(7,-3)", Identity.translate(7, -3)),
        ("scale(2)", Identity.scale(2)),
        ("scale(2 -.5)", Identity.scale(2, -0.5)),
        ("rotate(33)", Identity.rotate(math.radians(33))),
        ("rotate(90 10 20)", Identity.translate(10, 20).rotate(math.pi / 2).translate(-10, -20)),
        ("skewX(20)", Identity.skew(math.radians(20), 0)),
        ("skewY(-15)", Identity.skew(0, math.radians(-15))),
        (
            " translate(3 4), scale(2)\n rotate(-30)skewX(10) ",
            Identity.translate(3, 4).scale(2).rotate(math.radians(-30)).skew(math.radians(10), 0),
        ),
    ],
)
def test_every_transform_is_the_one_an_outside_library_makes(text: str, expected: Transform) -> None:
    """Source: fontTools.misc.transform, whose six numbers stand in the same order."""
    assert parse_transform(text).numbers == pytest.approx(tuple(expected), abs=1e-12)


@pytest.mark.parametrize(
    "text", ["turn(3)", "scale()", "rotate(1 2)", "matrix(1 2 3)", "translate(1", "scale(x)", "9"]
)
def test_what_is_no_transform_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"is no transform|where a number should"):
        parse_transform(text)


@pytest.mark.parametrize(
    ("fitting", "corner", "opposite"),
    [
        ("", (50, 0), (150, 100)),
        ("xMidYMid", (50, 0), (150, 100)),
        ("xMinYMin meet", (0, 0), (100, 100)),
        ("xMaxYMid meet", (100, 0), (200, 100)),
        ("xMidYMin slice", (0, 0), (200, 200)),
        ("xMidYMid slice", (0, -50), (200, 150)),
        ("xMidYMax slice", (0, -100), (200, 100)),
        ("none", (0, 0), (200, 100)),
    ],
)
def test_a_square_view_box_is_fitted_into_a_wide_view(
    fitting: str, corner: tuple[float, float], opposite: tuple[float, float]
) -> None:
    """Source: SVG 2, 8.6, worked by hand for a box of 10 x 10 from (5, 5) in a view of 200 x 100."""
    fitted = fit_view_box((5, 5, 10, 10), 200, 100, fitting)
    assert fitted.apply((5, 5)) == pytest.approx(corner)
    assert fitted.apply((15, 15)) == pytest.approx(opposite)


def test_an_unknown_fitting_is_refused() -> None:
    with pytest.raises(ValueError, match="preserveAspectRatio"):
        fit_view_box((0, 0, 1, 1), 1, 1, "xMidYMid stretch")


@pytest.mark.parametrize("text", ["0 0 10", "0 0 10 0", "0 0 -1 5", "a b c d", "0 0 1e99 3"])
def test_a_view_box_without_a_size_is_refused(text: str) -> None:
    with pytest.raises(ValueError, match=r"viewBox|where a number should|too large"):
        parse_view_box(text)


def test_numbers_may_run_together() -> None:
    assert list(read_numbers("1.5.5-2+3,4e1")) == [1.5, 0.5, -2, 3, 40]
