"""The applique pieces as the handout lists them: in laying order, with their cloth, its size and their place."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from service.craft.drawing import ClothView
from service.craft.measure import MM_PER_INCH, Number, length_object, round_to_ruler, round_up
from service.craft.outlines import find_outline
from service.craft.pieces import Piece
from workers.handouts.inputs import Inputs
from workers.handouts.sizes import Shown, show_length, show_size

SPARE = Fraction(1)
"""Inches of cloth to spare on every side of a piece: common practice, no source."""

CLOTH_STEPS = {"in": Fraction(1, 2), "mm": 10 / MM_PER_INCH, "cm": 10 / MM_PER_INCH}
"""To what the cloth of a piece is rounded up, by measure."""


@dataclass(frozen=True)
class PlacedPiece:
    """One piece: its cloth, how much of it to have, its own size, and where its middle lies.

    Places are measured from the left and the upper cut edge of the sewn top, as in the steps.
    """

    name: str
    cloth: ClothView
    room: Shown
    size: Shown
    across: Shown
    down: Shown
    turned: str


@dataclass(frozen=True)
class ClothForPieces:
    """Pieces that each take as much of one cloth: their names, the cloth, how much to have for each."""

    names: tuple[str, ...]
    cloth: ClothView
    room: Shown

    @property
    def words(self) -> str:
        """The pieces' names as a list."""
        return ", ".join(self.names)


def gather_cloth(placed: Iterable[PlacedPiece]) -> list[ClothForPieces]:
    """The pieces by what cloth and how much of it each takes, in the order in which each comes first."""
    groups: dict[tuple[str, Shown], list[PlacedPiece]] = {}
    for piece in placed:
        groups.setdefault((piece.cloth.key, piece.room), []).append(piece)
    return [
        ClothForPieces(tuple(piece.name for piece in group), group[0].cloth, group[0].room)
        for group in groups.values()
    ]


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
        room = [round_up(side + 2 * SPARE, CLOTH_STEPS[measure]) for side in sides]
        size = [round_to_ruler(side, measure) for side in sides]
        across, down = piece.measure_place(inputs.project.seam_allowance, measure)
        yield PlacedPiece(
            name=piece.name,
            cloth=inputs.top.cloths[piece.fabric],
            room=pair(room[0], room[1]),
            size=pair(size[0], size[1]),
            across=show(across),
            down=show(down),
            turned=_say_turn(piece),
        )


def _say_turn(piece: Piece) -> str:
    degrees = float(piece.turn)
    way = "clockwise" if degrees > 0 else "anticlockwise"
    parts = (["mirrored"] if piece.mirror else []) + ([f"{abs(degrees):g}° {way}"] if degrees else [])
    return ", ".join(parts)
