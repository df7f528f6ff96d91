"""The files a track's machines read: stitch files hooping by hooping, cut files sheet by sheet."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from fnmatch import fnmatchcase
from math import ceil
from typing import Any

from markupsafe import Markup

from service.craft.drawing import draw_swatch
from service.craft.tracks import Track
from workers.handouts.inputs import Inputs
from workers.recipe import CannotMake

CUT_REPORT = "cut-files.json"
STITCH_ENDINGS = (".dst", ".svg", ".json")


@dataclass(frozen=True)
class ThreadRow:
    """One colour of a hooping: its place in the order, name, a swatch, and metres of top and bobbin thread."""

    order: int
    name: str
    swatch: Markup
    top_m: float
    bobbin_m: float


@dataclass(frozen=True)
class HoopingView:
    """One hooping: its file, size, pieces, threads in order, what to do at each stop, and the preview's name."""

    name: str
    file_name: str
    field: str
    extents: str
    pieces: tuple[str, ...]
    stitches: int
    stops: tuple[str, ...]
    minutes: int
    threads: tuple[ThreadRow, ...]
    preview: str
    released: bool


@dataclass(frozen=True)
class CutFileView:
    """One mat full: its files (SVG and DXF), its cloth's key, its pieces in words, the mat, the grain."""

    names: tuple[str, ...]
    cloth: str
    pieces: tuple[str, ...]
    mat: str
    grain: str

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


def list_hoopings(inputs: Inputs, track: Track) -> list[HoopingView]:
    """The hoopings of the track's sewing field that hold nothing viewers must own, in number order."""
    if track.hoop is None:
        return []
    stem = f"stitch-{track.hoop.label}-"
    names = [name for name in inputs.job.inputs if name.startswith(stem) and name.endswith(".json")]
    views = [_view_hooping(name.removesuffix(".json"), inputs.read(name), inputs) for name in names]
    brought = {piece.name for piece in inputs.brought}
    kept = [view for view in views if not brought & set(view.pieces)]
    return sorted(kept, key=lambda view: _number(view.name))


def check_hoopings(inputs: Inputs, track: Track, hoopings: Iterable[HoopingView]) -> None:
    """Every piece that may leave has a released stitch file on a hoop track; `CannotMake` names what has none."""
    hoopings = list(hoopings)
    for hooping in hoopings:
        if not hooping.released:
            raise CannotMake(
                f"hooping {hooping.name} failed its check, and every piece must have a file on the track {track.name}",
                right="mend what its report names and make the stitches again",
            )
    if track.hoop is None:
        return
    sewn = {name for hooping in hoopings for name in hooping.pieces}
    brought = {piece.name for piece in inputs.brought}
    for piece in inputs.project.pieces:
        if piece.name not in sewn | brought:
            raise CannotMake(
                f"the piece {piece.name} has no released stitch file for the sewing field {track.hoop.label}",
                pointer=piece.pointer,
                right="a hooping that holds it and passes its checks",
            )


def list_cut_files(inputs: Inputs, track: Track) -> CutFiles:
    """The cut files that the track uses, as `cut-files.json` lists them, without those of owned outlines."""
    listed = inputs.find(CUT_REPORT) if track.cutter else None
    if listed is None:
        return CutFiles()
    brought = {piece.name for piece in inputs.brought}
    entries = [e for e in listed.get("files", []) if {track.name, track.slug} & set(e.get("tracks", []))]
    square = listed.get("test_square") or {}
    return CutFiles(
        sheets=tuple(_view_sheet(entry) for entry in entries if not brought & _pieces_of(entry)),
        test_square=tuple(str(square[key]) for key in ("svg", "dxf") if square.get(key)),
        report=CUT_REPORT,
        notes=tuple(str(note) for note in listed.get("notes", [])),
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


def files_of_hooping(hooping: HoopingView) -> list[str]:
    """The stitch file, its preview and its report."""
    return [f"stitch-{hooping.name}{ending}" for ending in STITCH_ENDINGS]


def name_files(pattern: str, text: str, hoopings: Iterable[HoopingView], cut_files: CutFiles) -> list[str]:
    """The files that a step means by a pattern such as `stitch-130x180-*`: of stitch files those of the pieces
    its text names, or all of them; what is no pattern stays as it is.
    """
    if "*" not in pattern:
        return [pattern]
    matching = [hooping for hooping in hoopings if fnmatchcase(hooping.file_name, pattern)]
    named = [h.file_name for h in matching if any(piece in text for piece in h.pieces)]
    sheets = [name for sheet in cut_files.sheets for name in sheet.names if fnmatchcase(name, pattern)]
    return (named or [hooping.file_name for hooping in matching]) + sheets


def _pieces_of(entry: Mapping[str, Any]) -> set[str]:
    return {str(piece.get("name", "")) for piece in entry.get("pieces", [])}


def _view_sheet(entry: Mapping[str, Any]) -> CutFileView:
    pieces = [(str(piece.get("name", "")), int(piece.get("count", 1))) for piece in entry.get("pieces", [])]
    return CutFileView(
        names=tuple(str(entry[key]) for key in ("svg", "dxf") if entry.get(key)),
        cloth=str(entry.get("fabric", "")),
        pieces=tuple(f"{count} × {name}" if count > 1 else name for name, count in pieces),
        mat=f"{str(entry.get('mat', '')).replace('x', ' × ')} mm",
        grain=str(entry.get("grain", "")),
    )


def _view_hooping(stem: str, report: Mapping[str, Any], inputs: Inputs) -> HoopingView:
    passes = report.get("passes", [])
    pieces = report.get("pieces") or list(dict.fromkeys(p.get("piece", "") for p in passes))
    preview = f"{stem}.svg"
    return HoopingView(
        name=stem.removeprefix("stitch-"),
        file_name=f"{stem}.dst",
        field=_show_mm(report.get("field_mm", [])),
        extents=_show_mm(report.get("extents_mm", [])),
        pieces=tuple(str(piece) for piece in pieces if piece),
        stitches=int(report.get("stitches", 0)),
        stops=tuple(_as_sentence(str(stop.get("do", ""))) for stop in report.get("at_stops", [])),
        minutes=ceil(float(report.get("minutes", 0))),
        threads=tuple(_view_thread(i, colour) for i, colour in enumerate(report.get("colours", []), start=1)),
        preview=preview if preview in inputs.job.inputs else "",
        released=bool(report.get("released", False)),
    )


def _view_thread(order: int, colour: Mapping[str, Any]) -> ThreadRow:
    return ThreadRow(
        order=order,
        name=str(colour.get("name", "")),
        swatch=Markup(draw_swatch(str(colour.get("colour", "#ffffff")), str(colour.get("name", "")))),  # noqa: S704
        top_m=float(colour.get("top_m", 0)),
        bobbin_m=float(colour.get("bobbin_m", 0)),
    )


def _as_sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:].rstrip('.')}." if words else ""


def _show_mm(sides: Iterable[Any]) -> str:
    numbers = [f"{float(side):.1f}".removesuffix(".0") for side in sides]
    return " × ".join(numbers) + " mm" if numbers else ""


def _number(name: str) -> tuple[int, str]:
    last = name.rpartition("-")[2]
    return (int(last) if last.isdigit() else 0, name)
