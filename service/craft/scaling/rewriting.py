"""Rewrites a project document in another size: every finished length times the factor, exactly."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction
from typing import Any, NamedTuple

from service.craft.document import Project, read_document
from service.craft.faults import DocumentFaults
from service.craft.measure import parse_length, rewrite_length, round_nearest, write_number
from service.craft.reading import at
from service.craft.scaling.factors import check_factor
from service.craft.scaling.lengths_of import INSIDE, LENGTHS, Path, find_paths
from service.craft.units import SquareInASquare
from service.craft.units.walking import walk_once

STAYS = (
    "The seam allowance, the binding, the overhangs of backing and batting, the depth of a sleeve, what is added for "
    "trimming and mitres, and the cloths stay as they are."
)
PIECES_TOO = (
    "The pieces are scaled with the top; their edges stay as wide as they are sewn, and as much reaches under others "
    "and is turned under as before. A piece may now be too large for a hoop or a mat: the check says so."
)
ROUNDED_SIZE = "A square in a square whose inside gives its size has it written to the nearest 1/16 in."
PLANNING_STEP = Fraction(1, 16)
"""Inches; far inside what a planning figure may be off."""


class Scaled(NamedTuple):
    """The new raw document, and what is to be said about it."""

    document: dict[str, Any]
    notes: tuple[str, ...]


def scale_document(raw: dict[str, Any], factor: Fraction) -> Scaled:
    """A sound raw document in another size, all finished lengths times `factor`; times 1 it is itself.

    Lengths are written in the unit they name, or in the document's measure. Raises `DocumentFaults` where the
    document is at fault, the factor is (`check_factor`), or what comes out is: a length beyond all measure, say.
    """
    project = read_document(raw)
    check_factor(factor)
    if factor == 1:
        return Scaled(_copy(raw), ())
    work = _Rewriting(_copy(raw), project, factor)
    work.rewrite()
    _check(work.document)
    return Scaled(work.document, tuple(work.notes))


def _check(document: dict[str, Any]) -> None:
    """Refuse what came out faulty, in words that tell it from the document that was given."""
    try:
        read_document(document)
    except DocumentFaults as why:
        raise DocumentFaults(
            replace(fault, detail=f"in the size wanted, {fault.detail}") for fault in why.faults
        ) from why


class _Rewriting:
    """One document on its way to another size."""

    def __init__(self, document: dict[str, Any], project: Project, factor: Fraction) -> None:
        self.document = document
        self.notes = dict.fromkeys([STAYS])
        self._project = project
        self._factor = factor
        self._units = {unit.pointer: unit for unit in walk_once(project.top, *project.blocks.values())}

    def rewrite(self) -> None:
        """Scale every unit, in the top and among the blocks, and every piece."""
        blocks = self.document.get("blocks") or {}
        for name in blocks:
            self._unit(blocks[name], at("/blocks", name))
        self._unit(self.document["top"], "/top")
        for piece in self.document.get("pieces") or []:
            self._piece(piece)

    def _unit(self, raw: Any, pointer: str) -> None:
        """A unit written in place and all units in it; the name of a block is left alone."""
        if not isinstance(raw, dict) or "unit" not in raw:
            return
        kind = raw["unit"]
        for pattern in LENGTHS[kind]:
            self._lengths(raw, pattern)
        if kind == SquareInASquare.kind:
            self._plain_middle(raw["inside"])
            self._square_size(raw, pointer)
        for pattern in INSIDE.get(kind, ()):
            for path in find_paths(raw, pattern):
                self._unit(_follow(raw, path), at(pointer, *path))

    def _lengths(self, raw: Any, pattern: str) -> None:
        for path in find_paths(raw, pattern):
            self._change(raw, path, lambda length: length * self._factor)

    def _change(self, raw: Any, path: Path, new: Callable[[Fraction], Fraction]) -> None:
        holder, measure = _follow(raw, path[:-1]), self._project.measure
        written = holder[path[-1]]
        holder[path[-1]] = rewrite_length(written, new(parse_length(written, measure)), measure)

    def _plain_middle(self, inside: Any) -> None:
        """Cloth with a size of its own inside a square; a unit there is scaled as a unit."""
        if isinstance(inside, dict) and "unit" not in inside:
            self._lengths(inside, "size/*")

    def _square_size(self, raw: dict[str, Any], pointer: str) -> None:
        """Its own size scales, unless the inside gives it: then it is a planning figure, found again."""
        if "size" not in raw:
            return
        if not self._gives_size(raw["inside"]):
            self._lengths(raw, "size/*")
        elif pointer in self._units:
            outer = round_nearest(self._units[pointer].width * self._factor, PLANNING_STEP)
            for path in find_paths(raw, "size/*"):
                self._change(raw, path, lambda _length: outer)
            self.notes[ROUNDED_SIZE] = None
        else:
            # an alternate that nobody sews: the inside gives its size without any figure
            del raw["size"]

    def _gives_size(self, inside: Any) -> bool:
        """Whether what stands inside says how large the whole is: a unit, or plain cloth with a size."""
        if isinstance(inside, str):
            return inside in self._project.blocks
        return "unit" in inside or "size" in inside

    def _piece(self, piece: dict[str, Any]) -> None:
        self.notes[PIECES_TOO] = None
        self._lengths(piece, "at/*")
        scale = piece.get("scale")
        piece["scale"] = write_number(Fraction(1 if scale is None else str(scale).strip()) * self._factor)


def _copy(raw: Any) -> Any:
    """A JSON value in which nothing is shared: what a caller wrote once and used twice is scaled once each."""
    if isinstance(raw, dict):
        return {key: _copy(inner) for key, inner in raw.items()}
    return [_copy(inner) for inner in raw] if isinstance(raw, list) else raw


def _follow(raw: Any, path: Path) -> Any:
    for step in path:
        raw = raw[step]
    return raw
