"""What lies on what: overlaps that nothing is said of, pieces nobody sees; and inner curves too tight to turn."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping

from service.craft.faults import Fault
from service.craft.outlines import Outline
from service.craft.outlines.overlaps import Overlap, find_overlaps
from service.craft.outlines.polygons import to_polygon
from service.craft.outlines.tight_curves import find_tight_curves
from service.craft.pieces import Piece
from service.craft.reading import at

TURNED_RADIUS_MM = 3.0
"""Inner curves tighter than this fray before the allowance is laid over. Common practice, no source."""


def look_at_stack(pieces: Iterable[Piece], on_top: Mapping[str, Outline]) -> Iterator[Fault]:
    """What to look at in the pieces as they lie; `on_top` has those whose outline is there."""
    there = [piece for piece in pieces if piece.name in on_top]
    shapes = {name: to_polygon(outline) for name, outline in on_top.items()}
    sound = {name: shape for name, shape in shapes.items() if shape.is_valid}
    pointers = {piece.name: piece.pointer for piece in there}
    overlaps = find_overlaps(there, sound)
    for pair in overlaps.pairs:
        yield from _look_at_pair(pair, pointers)
    for upper, lower in overlaps.apart:
        yield Fault(
            at(pointers[upper], "above"),
            f'"{upper}" is said to lie above "{lower}", but they touch nowhere',
            "another place for one of them, or the name left out",
        )
    for piece in there:
        if piece.turned_under:
            yield from _look_at_curves(piece, on_top[piece.name])


def _look_at_pair(pair: Overlap, pointers: Mapping[str, str]) -> Iterator[Fault]:
    if not pair.stated:
        yield Fault(
            at(pointers[pair.upper], "above"),
            f'"{pair.upper}" and "{pair.lower}" lie on each other, and nothing says which is on top:'
            f' "{pair.upper}" is taken to be, by the order of the pieces',
            f'"{pair.lower}" in its "above", or "{pair.upper}" in the "above" of "{pair.lower}"',
        )
    if pair.hidden:
        yield Fault(
            pointers[pair.lower],
            f'"{pair.lower}" lies wholly under "{pair.upper}": nothing of it shows',
            "the other order, another place, or the piece left out",
        )


def _look_at_curves(piece: Piece, outline: Outline) -> Iterator[Fault]:
    left, top, _, _ = outline.box_mm
    for curve in find_tight_curves(outline, inner_mm=TURNED_RADIUS_MM, outer_mm=0.0):
        x, y = curve.at[0] - left, curve.at[1] - top
        yield Fault(
            at(piece.pointer, "edge"),
            f'an inner curve of "{piece.name}" has a radius of {curve.radius_mm:.1f} mm, {x:.0f} mm from the left and'
            f" {y:.0f} mm from the top of the piece as it lies: hard to turn",
            f"a radius of {TURNED_RADIUS_MM:g} mm or more, or an edge that is not turned",
        )
