"""What is said of pieces that lie on each other, and of edges that are hard to turn."""

from __future__ import annotations

from fractions import Fraction

from service.craft.outlines import Outline, place, read_svg
from service.craft.pieces import Piece
from service.craft.stack_check import look_at_stack

SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="100mm" viewBox="0 0 100 100">'
    '<rect id="bed" width="20" height="20"/>'
    '<path id="bite" d="M40 0H80V30H62V12A2 2 0 0 0 58 12V30H40z"/></svg>'
)
SHAPES = {shape.name: shape for shape in read_svg(SVG.encode(), "bed.svg").shapes}


def look(*pieces: Piece) -> list[tuple[str, str]]:
    on_top: dict[str, Outline] = {one.name: place(one, SHAPES[one.outline]) for one in pieces}
    return [(fault.pointer, fault.detail) for fault in look_at_stack(pieces, on_top)]


def piece(number: int, name: str, x: float, outline: str = "bed", **more: object) -> Piece:
    return Piece(f"/pieces/{number}", name, outline, "leaf", (Fraction(x), Fraction(3)), **more)


def test_an_overlap_that_nothing_is_said_of_is_named_at_the_upper_piece() -> None:
    ((pointer, detail),) = look(piece(0, "soil", 3), piece(1, "leek", 3.5))
    assert pointer == "/pieces/1/above"
    assert detail.startswith('"leek" and "soil" lie on each other')


def test_a_stated_overlap_needs_no_word() -> None:
    assert look(piece(0, "soil", 3), piece(1, "leek", 3.5, above=("soil",))) == []


def test_a_piece_that_lies_above_another_far_away_is_named() -> None:
    ((pointer, _),) = look(piece(0, "soil", 3), piece(1, "leek", 9, above=("soil",)))
    assert pointer == "/pieces/1/above"


def test_a_piece_of_which_nothing_shows_is_named() -> None:
    ((pointer, detail),) = look(piece(0, "soil", 3), piece(1, "leek", 3, above=("soil",)))
    assert pointer == "/pieces/0"
    assert "nothing of it shows" in detail


def test_an_inner_curve_of_2_mm_is_hard_to_turn_and_its_place_is_said() -> None:
    """The arc's middle lies 20 mm from the left of the shape and 10 mm from its top; as a raw edge it is fine."""
    found = look(piece(0, "bite", 3, outline="bite", edge="turned"))
    assert found
    assert all(pointer == "/pieces/0/edge" and "radius of 2.0 mm" in detail for pointer, detail in found)
    assert look(piece(0, "bite", 3, outline="bite", edge="raw")) == []
