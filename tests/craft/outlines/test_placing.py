"""Finding an outline by its reference, and laying it on the top."""

from __future__ import annotations

from fractions import Fraction

import pytest

from service.craft.outlines import (
    Line,
    Outline,
    OutlineFile,
    OutlineNotFound,
    Ring,
    find_outline,
    place,
    to_json,
)
from service.craft.pieces import Piece

FLAG = Outline("flag", (Ring((10.0, 10.0), (Line((30.0, 10.0)), Line((10.0, 20.0)))),))
"""A right angle at (10, 10): 20 mm to the right, 10 mm down; its box has its middle at (20, 15)."""


def a_piece(**changes: object) -> Piece:
    fields = {"pointer": "/pieces/0", "name": "flag", "outline": "f.svg", "fabric": "leaf"}
    return Piece(**{**fields, "at": (Fraction(4), Fraction(2)), **changes})  # type: ignore[arg-type]


def corners(outline: Outline) -> list[tuple[float, float]]:
    points = {outline.rings[0].start, *(segment.end for segment in outline.rings[0].segments)}
    return [(round(x, 6), round(y, 6)) for x, y in sorted(points)]


def test_middle_of_the_box_lies_where_the_piece_says() -> None:
    assert corners(place(a_piece(), FLAG)) == [(91.6, 45.8), (91.6, 55.8), (111.6, 45.8)]


def test_turn_is_clockwise_on_the_page() -> None:
    """The arm that pointed right points down after a quarter turn clockwise."""
    assert corners(place(a_piece(turn=Fraction(90)), FLAG)) == [(96.6, 40.8), (106.6, 40.8), (106.6, 60.8)]


def test_mirror_comes_before_the_turn() -> None:
    """Mirrored, the arm points left; a quarter turn clockwise then makes it point up."""
    placed = place(a_piece(turn=Fraction(90), mirror=True), FLAG)
    assert corners(placed) == [(96.6, 60.8), (106.6, 40.8), (106.6, 60.8)]


def test_scale_keeps_the_middle() -> None:
    assert corners(place(a_piece(scale=Fraction(1, 2)), FLAG)) == [(96.6, 48.3), (96.6, 53.3), (106.6, 48.3)]


FILES = {
    "leek.svg": OutlineFile("leek.svg", "a", (FLAG, Outline("stalk", FLAG.rings))),
    "bean": OutlineFile("bean", "b", (Outline("pod", FLAG.rings),)),
}


def test_an_outline_is_found_by_file_and_shape() -> None:
    assert find_outline(FILES, "leek.svg#stalk").name == "stalk"


def test_a_single_shape_needs_no_name() -> None:
    assert find_outline(FILES, "bean").name == "pod"


@pytest.mark.parametrize("reference", ["leek#stalk", "LEEK.svg#stalk", "bean.svg#pod"])
def test_no_second_spelling_reaches_a_file(reference: str) -> None:
    """Rights are granted by the file's name: another spelling must not get round them."""
    with pytest.raises(OutlineNotFound, match="no outline file named"):
        find_outline(FILES, reference)


def test_stored_json_does_as_well() -> None:
    assert find_outline({name: to_json(file) for name, file in FILES.items()}, "bean#pod").name == "pod"


def test_a_missing_shape_is_answered_with_those_that_are_there() -> None:
    with pytest.raises(OutlineNotFound, match='holds no shape named "root"') as caught:
        find_outline(FILES, "leek.svg#root")
    assert caught.value.shapes == ("leek.svg#flag", "leek.svg#stalk")
    assert '"leek.svg#stalk"' in caught.value.right


def test_a_file_of_several_shapes_wants_one_named() -> None:
    with pytest.raises(OutlineNotFound, match="holds 2 shapes"):
        find_outline(FILES, "leek.svg")


def test_a_missing_file_is_answered_with_those_that_are_there() -> None:
    with pytest.raises(OutlineNotFound, match=r'no outline file named "chard\.svg"') as caught:
        find_outline(FILES, "chard.svg#leaf")
    assert caught.value.shapes == ("bean", "leek.svg")
