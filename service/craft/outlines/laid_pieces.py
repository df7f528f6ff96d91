"""The pieces as they lie on the top, and what lies on what.

The one place for this: cut shapes and templates, hoopings and the order in them, and the steps all ask here, so that a
piece that one of them takes to be on top is on top in all of them.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from shapely import Polygon

from service.craft.outlines.model import Outline
from service.craft.outlines.overlaps import Overlaps, find_overlaps
from service.craft.outlines.placing import place
from service.craft.outlines.polygons import to_polygon
from service.craft.pieces import Piece


@dataclass(frozen=True)
class LaidPieces:
    """Pieces whose outline is there, by name: as placed (mm on the top), and as polygons where those are valid.

    `rests_on` names for every piece what it touches and lies on, lowest first; `comes_after` what is laid before it:
    that, and whatever else `above` names. For a piece without an outline both are what `above` says.
    """

    placed: Mapping[str, Outline]
    sound: Mapping[str, Polygon]
    overlaps: Overlaps
    rests_on: Mapping[str, tuple[str, ...]]
    comes_after: Mapping[str, tuple[str, ...]]


def lay_pieces(pieces: Iterable[Piece], outlines: Mapping[str, Outline]) -> LaidPieces:
    """The pieces laid on the top; `outlines` has the outline of each as drawn, as far as there is one."""
    listed = list(pieces)
    there = [piece for piece in listed if piece.name in outlines]
    placed = {piece.name: place(piece, outlines[piece.name]) for piece in there}
    shapes = {name: to_polygon(outline) for name, outline in placed.items()}
    sound = {name: shape for name, shape in shapes.items() if shape.is_valid}
    overlaps = find_overlaps(there, sound)
    apart = set(overlaps.apart)
    rests_on, comes_after = {}, {}
    for piece in listed:
        lowers = [pair.lower for pair in overlaps.pairs if pair.upper == piece.name]
        said = [other for other in piece.above if (piece.name, other) not in apart]
        rests_on[piece.name] = tuple(dict.fromkeys([*said, *lowers]))
        comes_after[piece.name] = tuple(dict.fromkeys([*piece.above, *lowers]))
    return LaidPieces(placed, sound, overlaps, rests_on, comes_after)
