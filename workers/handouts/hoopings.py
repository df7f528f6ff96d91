"""The hoopings of a track: their stitch files, threads and stops, and where the middle of each lies."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Any

from markupsafe import Markup

from service.craft.audience import current_audience
from service.craft.document import Project
from service.craft.drawing import draw_swatch
from service.craft.language import say_number
from service.craft.measure import MM_PER_INCH, length_object, round_to_ruler
from service.craft.outlines.split_parts import say_part_name
from service.craft.tracks import Track
from workers.handouts.inputs import Inputs
from workers.handouts.sizes import Shown, show_length
from workers.handouts.split_pieces import find_unfinished
from workers.recipe import CannotMake
from workers.stitches.preview import take_drawing

STITCH_ENDINGS = (".dst", ".svg", ".png", ".json")
"""The stitches, their picture twice, and the report."""

COLOURS = "-colours.svg"
"""The order of threads and stops, in the language of the document; other tracks have their own beside it."""

NAMED = re.compile(rb"<title>.*?</title>|<desc>.*?</desc>| aria-label=\"[^\"]*\"", re.DOTALL)
"""What tells a drawing's name; without it, drawings that look alike are alike."""

PICTURE_MM = (64.0, 88.0)
"""The largest a drawing is printed, so that two hoopings stand on a page."""

VIEW_BOX = re.compile(rb'viewBox="0 0 ([\d.]+) ([\d.]+)"')
FINE_LINE = re.compile(rb'<path d="[^"]*" fill="none" stroke="[^"]*" stroke-width="0\.(?:0\d|1)"[^>]*/>\n?')
"""A line up to a tenth of a millimetre wide."""


@dataclass(frozen=True)
class ThreadRow:
    """One colour of a hooping: its places in the order, name, a swatch, and metres of top and bobbin thread."""

    order: str
    name: str
    swatch: Markup
    top_m: float
    bobbin_m: float


@dataclass(frozen=True)
class HoopingView:
    """One hooping: its file, size, pieces, threads in order, what to do at each stop, its drawing without words.

    `across` and `down` say where its middle lies, from the left and the upper cut edge of the sewn top; `centre_mm`
    says the same from the finished corner, empty where the report does not. The top lies in the hoop turned clockwise
    by `top_turned_degrees`. One that is `sewn_again` takes the file of an earlier hooping. `parts` says of a piece
    too large for the field which part is sewn, of how many; `titles` names the pieces with their parts.
    """

    name: str
    file_name: str
    field: str
    extents: str
    pieces: tuple[str, ...]
    stitches: int
    stops: tuple[str, ...]
    minutes: int
    threads: tuple[ThreadRow, ...]
    across: Shown
    down: Shown
    centre_mm: tuple[float, float] | tuple[()]
    top_turned_degrees: float
    sewn_again: bool
    drawing: bytes
    released: bool
    parts: Mapping[str, tuple[int, int]]
    titles: tuple[str, ...]

    @property
    def picture_mm(self) -> tuple[float, float]:
        """How wide and high the drawing is printed: as large as its place allows, in its own proportions."""
        size = VIEW_BOX.search(self.drawing)
        width, height = (float(size[1]), float(size[2])) if size else PICTURE_MM
        scale = min(PICTURE_MM[0] / width, PICTURE_MM[1] / height)
        return round(width * scale, 2), round(height * scale, 2)

    @property
    def picture(self) -> str:
        """The name under which the page finds the drawing; equal drawings share one."""
        return f"hooping-{hashlib.sha256(self.drawing).hexdigest()[:16]}.svg" if self.drawing else ""


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
    sewn -= set(find_unfinished(hooping.parts for hooping in hoopings))
    brought = {piece.name for piece in inputs.brought}
    for piece in inputs.project.pieces:
        if piece.name not in sewn | brought:
            raise CannotMake(
                f"the piece {piece.name} has no released stitch file for the sewing field {track.hoop.label}",
                pointer=piece.pointer,
                right="a hooping that holds it and passes its checks",
            )


def files_of_hooping(hooping: HoopingView, project: Project, track: Track) -> list[str]:
    """The stitch file that the hooping is sewn with, and all that comes with it for the viewers of a track."""
    stem = hooping.file_name.removesuffix(".dst")
    colours = project.name_in_words_of(track, f"{stem}{COLOURS}")
    return [*(f"{stem}{ending}" for ending in STITCH_ENDINGS), colours]


def _view_hooping(stem: str, report: Mapping[str, Any], inputs: Inputs) -> HoopingView:
    same = report.get("same_as") or {}
    own, stem_drawn = report, stem
    if same:
        stem_drawn = f"stitch-{same['hooping']}"
        report = inputs.read(f"{stem_drawn}.json")
    passes = own.get("passes", [])
    pieces = own.get("pieces") or list(dict.fromkeys(p.get("piece", "") for p in passes))
    centre = (same or own).get("centre_mm", [])
    across, down = _show_middle(centre, inputs)
    parts = own.get("parts", {})
    return HoopingView(
        name=stem.removeprefix("stitch-"),
        file_name=f"{stem_drawn}.dst",
        field=_show_mm(report.get("field_mm", [])),
        extents=_show_mm(report.get("extents_mm", [])),
        pieces=tuple(str(piece) for piece in pieces if piece),
        stitches=int(report.get("stitches", 0)),
        stops=tuple(_as_sentence(_say_stop(stop)) for stop in own.get("at_stops", [])),
        minutes=ceil(float(report.get("minutes", 0))),
        threads=tuple(
            _view_thread(_places_in_order(colour, n, report), colour)
            for n, colour in enumerate(report.get("colours", []), start=1)
        ),
        across=across,
        down=down,
        centre_mm=(float(centre[0]), float(centre[1])) if len(centre) == 2 else (),
        top_turned_degrees=float(same["top_turned_degrees"])
        if same
        else 90.0 * bool(own.get("turned", False)),
        sewn_again=bool(same),
        drawing=_draw_alone(stem_drawn, report, inputs),
        released=bool(report.get("released", False)) and bool(own.get("released", False)),
        parts={name: (int(part["part"]), int(part["of"])) for name, part in parts.items()},
        titles=tuple(
            f"{name}, {_say_part(parts[name])}" if name in parts else str(name) for name in pieces if name
        ),
    )


def _draw_alone(stem: str, report: Mapping[str, Any], inputs: Inputs) -> bytes:
    """The preview's drawing; its words are set by the page. Its title goes too, so that equal ones are equal.

    Printed smaller than life, the lines of light along each thread are finer than a printer's dot: they are left out.
    """
    preview = inputs.job.inputs.get(f"{stem}.svg", b"")
    field = report.get("field_mm", [])
    drawing = take_drawing(preview, float(field[1])) if len(field) == 2 else preview
    return FINE_LINE.sub(b"", NAMED.sub(b"", drawing))


def _show_middle(centre: Sequence[float], inputs: Inputs) -> tuple[Shown, Shown]:
    if len(centre) != 2:
        return Shown(), Shown()
    project = inputs.project
    across, down = (
        show_length(
            length_object(
                round_to_ruler(Fraction(str(place)) / MM_PER_INCH + project.seam_allowance, project.measure),
                project.measure,
            ),
            project.measure,
        )
        for place in centre
    )
    return across, down


def _places_in_order(colour: Mapping[str, Any], first: int, report: Mapping[str, Any]) -> str:
    """When a colour goes through the needle: `1, 3` for one that comes back; `first` where nothing is said of it."""
    threads = [(thread.get("name"), thread.get("colour")) for thread in report.get("thread_order", [])]
    own = (colour.get("name"), colour.get("colour"))
    return ", ".join(str(n) for n, thread in enumerate(threads, start=1) if thread == own) or str(first)


def _view_thread(order: str, colour: Mapping[str, Any]) -> ThreadRow:
    return ThreadRow(
        order=order,
        name=str(colour.get("name", "")),
        swatch=Markup(draw_swatch(str(colour.get("colour", "#ffffff")), str(colour.get("name", "")))),  # noqa: S704
        top_m=float(colour.get("top_m", 0)),
        bobbin_m=float(colour.get("bobbin_m", 0)),
    )


def _say_stop(stop: Mapping[str, Any]) -> str:
    """What to do at a stop, in the language of who reads where the report has it."""
    besides = stop.get("do_in") or {}
    return str(besides.get(current_audience().language) or stop.get("do", ""))


def _say_part(part: Mapping[str, Any]) -> str:
    return say_part_name(str(part["name"]), int(part["part"]), int(part["of"]))


def _as_sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:].rstrip('.')}." if words else ""


def _show_mm(sides: Iterable[Any]) -> str:
    numbers = [say_number(float(f"{float(side):.1f}")) for side in sides]
    return " × ".join(numbers) + " mm" if numbers else ""


def _number(name: str) -> tuple[int, str]:
    last = name.rpartition("-")[2]
    return (int(last) if last.isdigit() else 0, name)
