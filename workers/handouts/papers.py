"""What a page is printed on: paper and size of print, as a style and a zoom.

Large print is the usual page enlarged on paper laid on its side, with body text of 16 pt: from there on print counts as
large (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from service.craft.tracks import A4, LARGE_PRINT, LETTER, USUAL_PRINT, Track

PAPER_MM = {A4: (210.0, 297.0), LETTER: (215.9, 279.4)}
"""Width and height, upright. A4: ISO 216; Letter: 8 1/2 by 11 in."""

BODY_PT, LARGE_PT = 11.0, 16.0
MARGINS_MM = (18.0, 18.0, 20.0, 18.0)
LARGE_MARGINS_MM = (15.0, 18.0, 22.0, 18.0)

COVER_TOP_MM = {A4: 118.0, LETTER: 100.0}
"""How high the top may be drawn on the cover: Letter is lower by this much, and the cover stays one page."""

COVER_PICTURE_MM = 72.0
"""How high the drawing of the cover is in large print: title and summary stand above it on the page."""

PLACEMENT_PICTURE_MM = 92.0
"""How high the drawing of where pieces lie is in large print: the title of its part stands above it."""

HOOPINGS = (
    ".hooping { break-inside: auto; min-height: 0 !important; }",
    ".hooping[style] { padding-right: 54mm !important; }",
    ".hooping .preview { transform: scale(0.78); transform-origin: top right; }",
)
"""In large print a hooping is as high as a page: its list may run on, and its picture is as high as what stands beside
it."""

ABOVE_PICTURE_MM = 22.0
"""Kept free for a heading above the largest picture."""


@dataclass(frozen=True)
class PaperStyle:
    """Rules that come after the page's own, and how much everything is enlarged."""

    css: str
    zoom: float


def style_paper(track: Track | None) -> PaperStyle:
    """How the handout of a track is printed; A4 in the usual size without one."""
    width, height = PAPER_MM[track.paper if track else A4]
    if track is None or track.print != LARGE_PRINT:
        return PaperStyle(_page(width, height, MARGINS_MM, 1.0), 1.0)
    zoom = LARGE_PT / BODY_PT
    inside = (width - LARGE_MARGINS_MM[0] - LARGE_MARGINS_MM[2]) / zoom
    rules = (
        _page(height, width, LARGE_MARGINS_MM, zoom),
        f"img {{ max-height: {inside - ABOVE_PICTURE_MM:.2f}mm; }}",
        f".cover .drawing img {{ max-height: {COVER_PICTURE_MM}mm; }}",
        f".placement img {{ max-height: {PLACEMENT_PICTURE_MM}mm; }}",
        *HOOPINGS,
    )
    return PaperStyle("\n".join(rules), zoom)


def find_studio_track(tracks: Sequence[Track]) -> Track | None:
    """Whose paper the studio's own sheets are printed on: that of the first track, in the usual size of print."""
    return replace(tracks[0], print=USUAL_PRINT) if tracks else None


def _page(width: float, height: float, margins: tuple[float, ...], zoom: float) -> str:
    size = " ".join(f"{side / zoom:.4f}mm" for side in (width, height))
    return f"@page {{ size: {size}; margin: {' '.join(f'{side / zoom:.4f}mm' for side in margins)}; }}"
