"""Shapes named by where they lie."""

import shapely

from service.craft.outlines import Line, Outline, Ring
from workers.outlines.tracing.places import name_by_place


def box(x, y, width=10, height=10):
    corners = list(shapely.box(x, y, x + width, y + height).exterior.coords)
    return Outline("", (Ring(corners[0], tuple(Line(at) for at in corners[1:])),))


def names(*boxes):
    return [outline.name for outline in name_by_place(boxes)]


def test_rows_and_places_are_told_in_words():
    """Five in a row and five rows: ends by their side, the others counted; a name is never given twice."""
    grid = [box(20 * x, 20 * y) for y in range(5) for x in range(5)]
    found = names(*grid)
    assert found[:5] == [
        "top-left",
        "top-second-from-left",
        "top-third-from-left",
        "top-fourth-from-left",
        "top-right",
    ]
    assert found[5] == "second-row-left"
    assert found[-1] == "bottom-right"
    assert len(set(found)) == 25
    many = names(*(box(20 * x, 20 * y) for y in range(12) for x in range(12)))
    assert len(set(many)) == 144
    assert "row-11-place-11" in many


def test_a_row_or_a_shape_alone_says_no_more_than_it_must():
    """One shape; a row of three; a column of three; three by three, whose middle is just the middle."""
    assert names(box(0, 0)) == ["middle"]
    assert names(*(box(20 * x, 0) for x in range(3))) == ["left", "middle", "right"]
    assert names(*(box(0, 20 * y) for y in range(3))) == ["top", "middle", "bottom"]
    nine = names(*(box(20 * x, 20 * y) for y in range(3) for x in range(3)))
    assert nine[3:6] == ["left", "middle", "right"]
    assert names(box(0, 0), box(0, 30), box(40, 0, 30, 40)) == ["top-left", "bottom-left", "right"]


def test_the_order_they_are_found_in_changes_no_name():
    """The place decides."""
    shapes = [box(0, 0), box(30, 4), box(0, 40), box(30, 41)]
    assert (
        names(*shapes) == names(*reversed(shapes)) == ["top-left", "top-right", "bottom-left", "bottom-right"]
    )
