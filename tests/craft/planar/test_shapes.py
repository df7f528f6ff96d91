"""Shapes: how a patch is cut, and which patches are the same."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from service.craft.planar.figures import make_figure
from service.craft.planar.shapes import Form, is_its_own_mirror, mirrored_signature, recognise, signature


@pytest.mark.parametrize(
    ("corners", "form", "measures"),
    [
        ([(0, 0), (6, 0), (6, 4), (0, 4)], Form.RECTANGLE, (6, 4)),
        ([(2, 0), (4, 2), (2, 4), (0, 2)], Form.RECTANGLE_ON_POINT, (4, 4)),
        ([(0, 0), (4, 0), (0, 4)], Form.HALF_SQUARE, (4, 4)),
        ([(0, 4), (4, 0), (8, 4)], Form.QUARTER_SQUARE, (8, 8)),
        ([(0, 0), (6, 0), (0, 4)], Form.TEMPLATE, (6, 4)),
        ([(0, 0), (6, 0), (8, 4), (2, 4)], Form.TEMPLATE, (8, 4)),
        ([(1, 0), (4, 2), (3, 5), (0, 3)], Form.TEMPLATE, (4, 5)),
    ],
    ids=["rectangle", "on point", "half-square", "quarter-square", "long triangle", "parallelogram", "askew"],
)
def test_a_patch_is_cut_along_the_grain_where_that_can_be(corners, form, measures):
    shape = recognise(make_figure(corners))
    assert (shape.form, shape.measures) == (form, measures)


QUARTER = {0: lambda x, y: (x, y), 1: lambda x, y: (-y, x), 2: lambda x, y: (-x, -y), 3: lambda x, y: (y, -x)}
KITE = [(0, 0), (5, 0), (6, 3), (1, 4)]


@given(st.integers(0, 3), st.integers(-9, 9), st.integers(-9, 9))
def test_turning_and_moving_keep_the_signature(turn, dx, dy):
    moved = make_figure([(x + dx, y + dy) for x, y in (QUARTER[turn](*p) for p in KITE)])
    assert signature(moved) == signature(make_figure(KITE))


def test_a_mirrored_shape_is_told_from_the_shape_unless_it_is_its_own_mirror():
    mirrored = make_figure([(-x, y) for x, y in KITE])
    assert signature(mirrored) == mirrored_signature(make_figure(KITE)) != signature(make_figure(KITE))
    assert is_its_own_mirror(make_figure([(0, 0), (4, 0), (0, 4)]))
    assert not is_its_own_mirror(make_figure(KITE))
