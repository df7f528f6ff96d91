"""The colour order sheet of a hooping: which thread, what it sews, and what to do at every stop."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from itertools import groupby

from service.craft.drawing.lettering import wrap_words, write_words
from service.craft.drawing.sheet import Sheet
from service.craft.drawing.styles import Stroke
from service.craft.language import mark, phrase
from service.craft.stitching import CHOICES, SETTINGS
from service.look.palette import WHITE
from workers.stitches.part_words import say_parts
from workers.stitches.pieces import DETAIL, FINISH, PLACEMENT, TACK_DOWN, UNDERLAY, Hooping, Pass
from workers.stitches.report import CAUTION
from workers.stitches.stop_words import say_stop

WIDTH_MM, MARGIN_MM, INDENT_MM, LINE_MM = 150.0, 10.0, 26.0, 4.8
TITLE_MM, TEXT_MM = 4.6, 3.4
LETTERS_ROOM = 0.85
"""Where our typeface is not at hand a wider one steps in: words keep this share of their room."""

SWATCH_EDGE = Stroke(0.2)

PASSES = {
    PLACEMENT: mark("placement"),
    TACK_DOWN: mark("tack-down"),
    UNDERLAY: mark("underlay"),
    FINISH: mark("finish"),
    DETAIL: mark("detail"),
}

SETTING_NAMES = {
    "width": mark("width"),
    "spacing": mark("spacing"),
    "pull": mark("pull"),
    "stitch": mark("stitch"),
    "inside": mark("inside"),
    "thread_weight": mark("thread weight"),
    "underlay": mark("underlay"),
    "tack_down": mark("tack down"),
}


@dataclass(frozen=True)
class Row:
    """A line of the sheet: a colour to show beside it, or none; a heading is set larger."""

    words: str
    colour: str = ""
    heading: bool = False


def say_passes(passes: list[Pass], titles: Mapping[str, str]) -> list[Row]:
    """What one thread sews without a change, piece by piece, with its stops; `titles` say which part of a piece."""
    rows = []
    for name, own in groupby(passes, key=lambda one: one.piece):
        piece = titles[name]
        words: list[str] = []
        for one in own:
            if one.kind not in words[-1:]:
                words.append(one.kind)
            if one.then_stop:
                rows.append(Row(_say_passes(piece, words, say_stop(one.then_stop))))
                words = []
        if words:
            rows.append(Row(_say_passes(piece, words)))
    return rows


def _say_passes(piece: str, kinds: list[str], stop: str = "") -> str:
    passes = ", ".join(phrase(PASSES[kind]) for kind in kinds)
    if stop:
        return phrase("{piece}: {passes}. Stop: {stop}.", piece=piece, passes=passes, stop=stop)
    return phrase("{piece}: {passes}.", piece=piece, passes=passes)


def list_rows(hooping: Hooping) -> list[Row]:
    """The whole sheet, from its title to what the settings mean."""
    rows = [Row(phrase("Colour order of hooping {hooping}", hooping=hooping.name), heading=True)]
    rows += [Row(f"{words[:1].upper()}{words[1:]}.") for words in say_parts(hooping)]
    titles = {sewn.piece.name: sewn.piece.title for sewn in hooping.sewn}
    threads = groupby(hooping.passes, key=lambda one: one.thread)
    for number, (thread, passes) in enumerate(threads, start=1):
        name = thread.name or phrase("thread")
        rows.append(Row(f"{number}. {name}, {thread.colour}", colour=thread.colour, heading=True))
        rows += say_passes(list(passes), titles)
    rows += [Row(phrase("Take care"), heading=True), Row(phrase(CAUTION))]
    rows.append(Row(phrase("What the settings mean"), heading=True))
    words = {key: bounds.words for key, bounds in SETTINGS.items()}
    words |= {key: said for key, (_, said) in CHOICES.items()}
    return rows + [Row(f"{phrase(SETTING_NAMES[key])}: {phrase(said)}") for key, said in words.items()]


def draw_colour_sheet(hooping: Hooping) -> bytes:
    """The sheet as SVG. A colour is told by its name, its number and its swatch, never by the swatch alone."""
    room = (WIDTH_MM - INDENT_MM - MARGIN_MM) * LETTERS_ROOM
    lines = []
    for row in list_rows(hooping):
        size, weight = (TITLE_MM, 600) if row.heading else (TEXT_MM, 400)
        for n, words in enumerate(wrap_words(row.words, size, room, weight=weight)):
            lines.append((words, size, weight, row.colour if n == 0 else "", row.heading and n == 0))
    height = 2 * MARGIN_MM + sum(LINE_MM + (2.4 if first else 0) for *_, first in lines)
    sheet = Sheet(
        WIDTH_MM,
        height,
        title=phrase("Colour order of hooping {hooping}", hooping=hooping.name),
        description=phrase("Threads in order, what each sews, and what to do at every stop."),
    )
    sheet.box(0, 0, WIDTH_MM, height, fill=WHITE)
    y = MARGIN_MM
    for words, size, weight, colour, first in lines:
        y += LINE_MM + (2.4 if first else 0)
        if colour:
            sheet.box(MARGIN_MM, y - 3.6, 11.0, 4.6, fill=colour, stroke=SWATCH_EDGE)
        write_words(sheet, (INDENT_MM, y), words, size, weight=weight)
    return sheet.to_svg().encode()
