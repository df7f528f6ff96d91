"""A strip cut into columns: pieces one above the other, each with the letter of its size."""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby

from service.craft.drawing.cloth import draw_edges, fill_cloth
from service.craft.drawing.lettering import write_words
from service.craft.drawing.sheet import Sheet, trace_polygon
from service.craft.drawing.signs import draw_tag
from service.craft.drawing.strip_lanes import (
    HAIR_MM,
    LABEL_MM,
    LETTER_MM,
    SMALLEST_TAG_MM,
    Box,
    Lane,
    corners_of,
    draw_frame,
    draw_waste,
)
from service.craft.drawing.styles import CUT
from service.craft.drawing.views import ClothView, ColumnInStrip, StripView


def draw_columns(sheet: Sheet, strip: StripView, cloth: ClothView, lane: Lane) -> None:
    """The strip with its columns from the left; a solid line where each is cut off, its width below."""
    placed = list(place_pieces(strip, lane))
    draw_waste(sheet, list(list_column_waste(strip, lane)))
    shapes = [[corners_of(box)] for box, _ in placed]
    fill_cloth(sheet, shapes, cloth)
    draw_edges(sheet, "".join(trace_polygon(ring) for (ring,) in shapes), cloth.colour)
    for (x, y, w, h), letter in placed:
        size = min(LETTER_MM, h * 0.62, w * 0.8)
        if letter and size >= SMALLEST_TAG_MM:
            draw_tag(sheet, (x + w / 2, y + h / 2), letter, size)
    for x, column in _lefts(strip, lane):
        edge = x + column.width * lane.scale
        sheet.line((edge, lane.top), (edge, lane.top + lane.height), CUT)
    for x, words in _label(strip, lane):
        write_words(sheet, (x + 0.3, lane.top + lane.height + 4.0), words, LETTER_MM)
    draw_frame(sheet, lane, LABEL_MM + sum(c.width for c in strip.columns) * lane.scale)


def place_pieces(strip: StripView, lane: Lane) -> Iterator[tuple[Box, str]]:
    """Every piece as a box on paper, with its letter."""
    for x, column in _lefts(strip, lane):
        y = lane.top
        for cut in column.cuts:
            for _ in range(cut.count):
                yield (x, y, cut.along * lane.scale, cut.across * lane.scale), cut.letter
                y += cut.across * lane.scale


def list_column_waste(strip: StripView, lane: Lane) -> Iterator[Box]:
    """What is left over: beside narrower pieces, under the last of a column, and behind the last column."""
    end = LABEL_MM
    for x, column in _lefts(strip, lane):
        end, y = x + column.width * lane.scale, lane.top
        for cut in column.cuts:
            high, wide = cut.count * cut.across * lane.scale, cut.along * lane.scale
            if end - x - wide > HAIR_MM:
                yield x + wide, y, end - x - wide, high
            y += high
        if lane.top + lane.height - y > HAIR_MM:
            yield x, y, end - x, lane.top + lane.height - y
    if LABEL_MM + lane.usable - end > HAIR_MM:
        yield end, lane.top, LABEL_MM + lane.usable - end, lane.height


def _lefts(strip: StripView, lane: Lane) -> Iterator[tuple[float, ColumnInStrip]]:
    x = LABEL_MM
    for column in strip.columns:
        yield x, column
        x += column.width * lane.scale


def _label(strip: StripView, lane: Lane) -> Iterator[tuple[float, str]]:
    """Under each run of columns as wide as each other, how many and how wide."""
    for _, same in groupby(_lefts(strip, lane), key=lambda placed: placed[1].text):
        run = list(same)
        (x, column), count = run[0], len(run)
        yield x, f"{count} × {column.text}" if count > 1 else column.text
