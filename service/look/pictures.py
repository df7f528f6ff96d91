"""Drawings of ours as pictures that the printer places: painted by `service.look.painting`, words set in our fonts.

The printer asks a picture for its size and then to draw itself on a stream of PDF operators. It reads any SVG by
itself, but lays out every letter of a drawing alone and styles every shape: a third of the time of a handout. Here a
line of words is set at once, with its kerning, and right-to-left words run as they should.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from math import inf
from types import SimpleNamespace
from typing import Any

from weasyprint.css.properties import INITIAL_VALUES
from weasyprint.draw.text import draw_emojis, draw_first_line
from weasyprint.matrix import Matrix
from weasyprint.text.fonts import FontConfiguration
from weasyprint.text.line_break import split_first_line

from service.look.painting import NotOurs, Painting, Words, read_painting

PX_PER_MM = 96 / 25.4
"""The printer measures in CSS pixels."""

KEPT_DRAWINGS = 1024
"""So many drawings stay ready to be painted: those of a month's tracks are mostly the same."""

ZERO_WIDTH = "\u200b"
"""Spaces alone are left out by the printer, and "3 7/8" would be read out as "37/8": this makes them words."""


class Picture:
    """A drawing of ours as the printer wants its pictures."""

    def __init__(self, painting: Painting, fonts: FontConfiguration) -> None:
        self._painting = painting
        self._fonts = fonts

    def get_intrinsic_size(self, _resolution: float, _font_size: float) -> tuple[float, float, float]:
        """Width and height in px, and the one by the other."""
        width, height = (side * PX_PER_MM for side in (self._painting.width_mm, self._painting.height_mm))
        return width, height, width / height

    def draw(self, stream: Any, width: float, height: float, _style: Any) -> None:
        """Paint the drawing from the corner of `stream`, `width` by `height` px."""
        with stream.stacked():
            stream.transform(a=width / self._painting.across, d=height / self._painting.down)
            stream.set_line_join(1)
            for mark in self._painting.marks:
                if isinstance(mark, Words):
                    self._set(stream, mark)
                else:
                    stream.stream.append(mark.encode())

    def _set(self, stream: Any, words: Words) -> None:
        """Set a line of words; what follows is painted with the pen of before."""
        with stream.stacked():
            stream.stream.append(words.fill.encode())
            x, y = words.x, words.y
            for run in words.runs:
                y += run.drop
                if run.text:
                    style = _style_words(words, run.size, self._fonts)
                    x += _set_run(stream, run.text, style, x, y)


class _Style(dict[str, Any]):
    """The style of a line of words, as the printer keeps it."""

    font_config: FontConfiguration


def _style_words(words: Words, size: float, fonts: FontConfiguration) -> _Style:
    style = _Style(INITIAL_VALUES)
    style.font_config = fonts
    # a drawing keeps its spaces and is never broken
    style.update(font_family=list(words.family), font_weight=words.weight, font_size=size, white_space="pre")
    return style


def _set_run(stream: Any, text: str, style: _Style, x: float, y: float) -> float:
    """Set words of one size from a point on; how far they reach."""
    line = " ".join(text.splitlines())
    if not line.strip():
        line += ZERO_WIDTH
    layout, _, _, width, _, baseline = split_first_line(line, style, None, inf, 0)
    layout.reactivate(style)
    box = SimpleNamespace(pango_layout=layout, style=style, text=layout.text, baseline=baseline)
    stream.begin_text()
    emojis = draw_first_line(stream, box, "none", "none", Matrix(d=-1, e=x, f=y))
    stream.end_text()
    draw_emojis(stream, style, x, y, emojis)
    return float(width)


def take_pictures(assets: Mapping[str, bytes], fonts: FontConfiguration) -> dict[str, Picture]:
    """Those of the assets that are drawings of ours, as pictures by their names; the printer reads the others."""
    paintings = {name: _read(data) for name, data in assets.items()}
    return {name: Picture(painting, fonts) for name, painting in paintings.items() if painting}


@lru_cache(maxsize=KEPT_DRAWINGS)
def _read(data: bytes) -> Painting | None:
    try:
        return read_painting(data)
    except NotOurs:
        return None
