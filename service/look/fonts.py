"""The typefaces, shipped beside this file with their licences and never loaded from elsewhere.

Source Sans 3 for steps and tables, Source Serif 4 for headings (both SIL Open Font License 1.1). Each face
comes in two files, Latin and the rest of Latin; they have a family name each, because a PDF would mix up
the glyph numbers of two files under one name.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files
from io import BytesIO

from fontTools.ttLib import TTFont

SANS = "'Batchbee Sans', 'Batchbee Sans Extended', sans-serif"
"""The `font-family` of steps, tables and drawings."""

SERIF = "'Batchbee Serif', 'Batchbee Serif Extended', serif"
"""The `font-family` of headings and the cover."""


@dataclass(frozen=True)
class FontFace:
    """One font file: its family, its CSS weight and style, and its name in `service/look/fonts/`."""

    family: str
    weight: int
    style: str
    file_name: str


def _list_faces() -> tuple[FontFace, ...]:
    sans = ((400, "normal"), (400, "italic"), (600, "normal"), (700, "normal"))
    serif = ((400, "normal"), (600, "normal"))
    return tuple(
        FontFace(f"Batchbee {name}{suffix}", weight, style, f"{stem}-{subset}-{weight}-{style}.woff2")
        for name, stem, cuts in (("Sans", "source-sans-3", sans), ("Serif", "source-serif-4", serif))
        for suffix, subset in (("", "latin"), (" Extended", "latin-ext"))
        for weight, style in cuts
    )


FACES = _list_faces()
"""Every font file there is."""


def read_font(file_name: str) -> bytes:
    """The bytes of one shipped font file (woff2); a `KeyError` for any other name."""
    if file_name not in {face.file_name for face in FACES}:
        raise KeyError(f"no font of ours: {file_name}")
    return (files("service.look") / "fonts" / file_name).read_bytes()


def font_css(base: str) -> str:
    """`@font-face` rules for every file, each at `base` followed by its file name.

    `base` is a path on a site (`/static/fonts/`) or a scheme that the printer's fetcher serves.
    """
    return "\n".join(
        f"@font-face {{ font-family: '{face.family}'; font-weight: {face.weight}; font-style: {face.style}; "
        f"font-display: swap; src: url('{base}{face.file_name}') format('woff2'); }}"
        for face in FACES
    )


def find_missing_characters(text: str) -> str:
    """The characters of `text` that no shipped sans face can show, each once, in order.

    >>> find_missing_characters("3 7/8 in × 89 mm, Möhre, řepa")
    ''
    >>> find_missing_characters("→ 豆")
    '→豆'
    """
    known = _read_widths("source-sans-3-latin-400-normal.woff2")
    more = _read_widths("source-sans-3-latin-ext-400-normal.woff2")
    return "".join(dict.fromkeys(c for c in text if not c.isspace() and ord(c) not in {*known, *more}))


def measure_text(text: str, size: float, *, weight: int = 400, serif: bool = False) -> float:
    """How wide `text` is set at `size`, in the unit of `size`, without kerning.

    Characters the faces lack count as wide as they are high.

    >>> round(measure_text("3 7/8", 10), 2)
    20.41
    """
    stem = "source-serif-4" if serif else "source-sans-3"
    widths = {**_read_widths(f"{stem}-latin-ext-{weight}-normal.woff2")}
    widths.update(_read_widths(f"{stem}-latin-{weight}-normal.woff2"))
    return sum(widths.get(ord(character), 1.0) for character in text) * size


@lru_cache(maxsize=len(FACES))
def _read_widths(file_name: str) -> dict[int, float]:
    """Advance widths by code point, in ems."""
    font = TTFont(BytesIO(read_font(file_name)))
    em = float(font["head"].unitsPerEm)
    return {code: font["hmtx"][glyph][0] / em for code, glyph in font.getBestCmap().items()}
