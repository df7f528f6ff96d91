"""The files a track's machines read: stitch files hooping by hooping, cut files sheet by sheet."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import ceil
from typing import Any

from markupsafe import Markup

from service.craft.drawing import draw_swatch
from service.craft.tracks import Track
from workers.handouts.inputs import Inputs
from workers.recipe import CannotMake

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
    """One cut file: its name, its cloth's key, how many pieces it holds, the mat it is for."""

    name: str
    cloth: str
    pieces: tuple[str, ...]
    mat: str


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


def list_cut_files(inputs: Inputs, track: Track) -> list[CutFileView]:
    """The cut files that the track uses, as `cut-files.json` lists them, without those of owned outlines."""
    if track.cutter is None:
        return []
    listed = inputs.find("cut-files.json") or {}
    brought = {piece.name for piece in inputs.brought}
    views = [_view_cut_file(entry, track) for entry in listed.get("files", []) if _is_for(entry, track)]
    return [view for view in views if not brought & set(view.pieces)]


def files_of_hooping(hooping: HoopingView) -> list[str]:
    """The stitch file, its preview and its report."""
    return [f"stitch-{hooping.name}{ending}" for ending in STITCH_ENDINGS]


def _is_for(entry: Mapping[str, Any], track: Track) -> bool:
    tracks = entry.get("tracks", [])
    return entry.get("public", True) is not False and (track.name in tracks or track.slug in tracks)


def _view_cut_file(entry: Mapping[str, Any], track: Track) -> CutFileView:
    mat = track.cutter.label.replace("x", " × ") + " mm" if track.cutter else ""
    return CutFileView(
        name=str(entry.get("name", "")),
        cloth=str(entry.get("fabric", "")),
        pieces=tuple(str(piece) for piece in entry.get("pieces", [])),
        mat=mat,
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
        stops=tuple(str(stop.get("do", "")) for stop in report.get("at_stops", [])),
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


def _show_mm(sides: Iterable[Any]) -> str:
    numbers = [f"{float(side):.1f}".removesuffix(".0") for side in sides]
    return " × ".join(numbers) + " mm" if numbers else ""


def _number(name: str) -> tuple[int, str]:
    last = name.rpartition("-")[2]
    return (int(last) if last.isdigit() else 0, name)
