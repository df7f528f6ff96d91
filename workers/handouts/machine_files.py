"""The files a track's machines read: cut files sheet by sheet, and which files a step means."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fnmatch import fnmatchcase
from typing import Any

from service.craft.language import phrase, say_number
from service.craft.tracks import Track
from workers.handouts.hoopings import HoopingView
from workers.handouts.inputs import Inputs
from workers.outlines.cut_notes import say_notes
from workers.recipe import CannotMake

CUT_REPORT = "cut-files.json"

THICK_MM = 10.0
"""The report says 10 mm for that or more."""


@dataclass(frozen=True)
class CutFileView:
    """One mat full: its files (SVG and DXF), its cloth's key, its pieces in words, the mat, the grain, its figures.

    `figures` says how much of the mat the pieces take, the longest side they need, and the thinnest part.
    """

    names: tuple[str, ...]
    cloth: str
    pieces: tuple[str, ...]
    piece_names: tuple[str, ...]
    mat: str
    grain: str
    figures: str = ""

    @property
    def words(self) -> str:
        """Its pieces as a list in words."""
        return ", ".join(self.pieces)


@dataclass(frozen=True)
class CutFiles:
    """All cut files of a track: mats full, the test square's files, the report's name, and its notes."""

    sheets: tuple[CutFileView, ...] = ()
    test_square: tuple[str, ...] = ()
    report: str = ""
    notes: tuple[str, ...] = ()
    not_cut: tuple[str, ...] = ()

    @property
    def names(self) -> tuple[str, ...]:
        """Every file's name, the report last."""
        sheets = [name for sheet in self.sheets for name in sheet.names]
        return (*sheets, *self.test_square, *([self.report] if self.report else []))


def list_cut_files(inputs: Inputs, track: Track) -> CutFiles:
    """The cut files that the track uses, as `cut-files.json` lists them, without those of owned outlines."""
    listed = inputs.find(CUT_REPORT) if track.cutter else None
    if listed is None:
        return CutFiles()
    brought = {piece.name for piece in inputs.brought}
    entries = [e for e in listed.get("files", []) if {track.name, track.slug} & set(e.get("tracks", []))]
    square = listed.get("test_square") or {}
    shown = [entry for entry in entries if not brought & _pieces_of(entry)]
    return CutFiles(
        sheets=tuple(_view_sheet(entry) for entry in shown),
        test_square=tuple(str(square[key]) for key in ("svg", "dxf") if square.get(key)),
        report=CUT_REPORT,
        notes=tuple(say_notes(shown)) if shown else (),
        not_cut=tuple(str(entry.get("piece", "")) for entry in listed.get("not_cut", [])),
    )


def check_cut_files(inputs: Inputs, track: Track, cut_files: CutFiles) -> None:
    """Every piece that may leave is on a mat of a cutter track or trimmed in place; `CannotMake` names the rest."""
    if track.cutter is None:
        return
    listed = inputs.find(CUT_REPORT) or {}
    cut = {name for entry in listed.get("files", []) for name in _pieces_of(entry)}
    covered = cut | set(cut_files.not_cut) | {piece.name for piece in inputs.brought}
    for piece in inputs.project.pieces:
        if piece.name not in covered:
            raise CannotMake(
                f"the piece {piece.name} is in no cut file for the track {track.name}",
                pointer=piece.pointer,
                right="a cut file that holds it, or cloth that is trimmed in place",
            )


def name_files(
    pattern: str, pieces: Iterable[str], hoopings: Iterable[HoopingView], cut_files: CutFiles
) -> list[str]:
    """The files that a step means by a pattern such as `stitch-130x180-*`: those that hold the pieces it is about.

    A step about no piece means all that match. What is no pattern stays as it is.
    """
    if "*" not in pattern:
        return [pattern]
    about = set(pieces)
    held: list[tuple[tuple[str, ...], set[str]]] = [
        ((hooping.file_name,), set(hooping.pieces)) for hooping in hoopings
    ]
    held += [(sheet.names, set(sheet.piece_names)) for sheet in cut_files.sheets]
    named = (
        name
        for names, inside in held
        for name in names
        if fnmatchcase(name, pattern) and (not about or about & inside)
    )
    return list(dict.fromkeys(named))


def _pieces_of(entry: Mapping[str, Any]) -> set[str]:
    return {str(piece.get("name", "")) for piece in entry.get("pieces", [])}


def _view_sheet(entry: Mapping[str, Any]) -> CutFileView:
    pieces = [(str(piece.get("name", "")), int(piece.get("count", 1))) for piece in entry.get("pieces", [])]
    return CutFileView(
        names=tuple(str(entry[key]) for key in ("svg", "dxf") if entry.get(key)),
        cloth=str(entry.get("fabric", "")),
        pieces=tuple(f"{count} × {name}" if count > 1 else name for name, count in pieces),
        piece_names=tuple(name for name, _ in pieces),
        mat=f"{str(entry.get('mat', '')).replace('x', ' × ')} mm",
        grain=phrase(entry["grain"]) if entry.get("grain") else "",
        figures=_say_figures(entry),
    )


def _say_figures(entry: Mapping[str, Any]) -> str:
    """`54 % of the mat, longest side 280 mm, thinnest part 4 mm`, as far as the report has them."""
    said = []
    if (share := entry.get("used_share")) is not None:
        said.append(phrase("{share} % of the mat", share=say_number(100 * share, ".0f")))
    if (side := entry.get("longest_side_mm")) is not None:
        said.append(phrase("longest side {length} mm", length=say_number(side, ".0f")))
    if (thin := entry.get("thinnest_mm")) is not None and thin < THICK_MM:
        said.append(phrase("thinnest part {length} mm", length=say_number(thin)))
    return ", ".join(said)
