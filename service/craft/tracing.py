"""What is asked for when a picture is to be traced, and how large one may be. Tracing itself is workers' code."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from html import escape

from service.craft.faults import Fault
from service.craft.outlines import OutlineFile

MOST_PIXELS = 64_000_000
"""An A4 sheet at 600 dots an inch has 35 million, the photographs of telephones up to 50."""

LEAST_DPI, MOST_DPI = 50.0, 2400.0
"""Coarser, a line is wider than a seam is exact; finer, no scanner sees."""

SPECK_MM = 2.0
"""What is smaller than this both ways is dust on the glass, not a piece of cloth."""

THREE_WAYS = (
    "one of: dpi (dots an inch the sheet was scanned at), known_length with between (two points in pixels and "
    "how far apart they are), or the printed calibration sheet in the picture"
)
"""How a picture can be given its scale."""

Pixel = tuple[float, float]


@dataclass(frozen=True)
class TracingAsked:
    """The bytes of a PNG, a JPEG or a PDF, and what the maker says about its scale.

    `between` are two points of the picture as it is seen upright, in pixels from its top left corner, and
    `known_length_mm` is how far they are apart. `page` counts from 1, for a PDF.
    """

    data: bytes
    name: str
    dpi: float | None = None
    known_length_mm: float | None = None
    between: tuple[Pixel, Pixel] | None = None
    page: int | None = None


@dataclass(frozen=True)
class TracedPicture:
    """The shapes that were found, and a drawing (SVG) that lays them over the picture."""

    file: OutlineFile
    overlay: str


_LABEL = re.compile(r"(<text [^>]*>)([^<]*)(</text>)")


def relabel(overlay: str, names: Sequence[str]) -> str:
    """An overlay whose labels say these names, in the order of the file's shapes.

    >>> relabel('<text x="1">left</text><text x="9">a &amp; b</text>', ["leek", "b < c"])
    '<text x="1">leek</text><text x="9">b &lt; c</text>'
    """
    left = iter(names)
    return _LABEL.sub(lambda found: found[1] + escape(next(left, ""), quote=False) + found[3], overlay)


class CannotTrace(Exception):
    """A picture that gives no outlines: every fault that was found, with pointers to the fields of the form."""

    def __init__(self, faults: Iterable[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("; ".join(fault.detail for fault in self.faults))
