"""The applique pieces as the handout lists them: in laying order, with their cloth, size and place."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from service.craft.drawing import ClothView
from service.craft.language import phrase, say_number
from service.craft.measure import MM_PER_INCH, Number, length_object, round_to_ruler
from service.craft.outlines import find_outline
from service.craft.pieces import Piece
from workers.handouts.inputs import Inputs
from workers.handouts.sizes import Shown, show_length, show_size


@dataclass(frozen=True)
class PlacedPiece:
    """One piece: its cloth, its own size, and where its middle lies.

    Places are measured from the left and the upper cut edge of the sewn top, as in the steps.
    """

    name: str
    cloth: ClothView
    size: Shown
    across: Shown
    down: Shown
    turned: str


def list_placed(inputs: Inputs) -> list[PlacedPiece]:
    """Every piece in laying order, lowest first."""
    by_name = {piece.name: piece for piece in inputs.project.pieces}
    return list(_view_pieces(inputs, [by_name[view.name] for view in inputs.top.pieces]))


def _view_pieces(inputs: Inputs, pieces: list[Piece]) -> Iterator[PlacedPiece]:
    measure = inputs.project.measure

    def show(value: Number) -> Shown:
        return show_length(length_object(value, measure), measure)

    def pair(width: Number, height: Number) -> Shown:
        return show_size(length_object(width, measure), length_object(height, measure), measure)

    for piece in pieces:
        outline = find_outline(inputs.job.outlines, piece.outline)
        sides = [Fraction(side) * piece.scale / MM_PER_INCH for side in (outline.width_mm, outline.height_mm)]
        size = [round_to_ruler(side, measure) for side in sides]
        across, down = piece.measure_place(inputs.project.seam_allowance, measure)
        yield PlacedPiece(
            name=piece.name,
            cloth=inputs.top.cloths[piece.fabric],
            size=pair(size[0], size[1]),
            across=show(across),
            down=show(down),
            turned=_say_turn(piece),
        )


def _say_turn(piece: Piece) -> str:
    degrees = float(piece.turn)
    parts = [phrase("mirrored")] if piece.mirror else []
    if degrees:
        number = say_number(abs(degrees))
        clockwise, other = (
            phrase("{degrees}° clockwise", degrees=number),
            phrase("{degrees}° anticlockwise", degrees=number),
        )
        parts.append(clockwise if degrees > 0 else other)
    return ", ".join(parts)
