"""Silhouettes that nobody drew for this: sample pictures and glyphs out of packages for other purposes.

scikit-image's sample pictures and its `binary_blobs`, as its wheel has them: nothing is fetched. The fonts that ship
here, by fontTools.
"""

from __future__ import annotations

import io
from collections.abc import Sequence
from pathlib import Path

import numpy as np
import skimage.data
from fontTools.pens.svgPathPen import SVGPathPen
from fontTools.ttLib import TTFont
from PIL import Image

import service.look
from service.craft.outlines import OutlineFile, read_svg
from service.craft.tracing import TracingAsked
from tests.outlines.tracing.drawn import encode
from workers.outlines.tracing import trace_picture

SAMPLES = Path(skimage.data.__file__).parent
FONTS = Path(str(service.look.__file__)).parent / "fonts"
SERIF = "source-serif-4-latin-600-normal.woff2"
EM_MM, BESIDE_MM = 60, 80
"""How large letters are drawn, and how far apart."""


def trace(data: bytes, name: str, dpi: float) -> OutlineFile:
    """A picture, traced."""
    return trace_picture(TracingAsked(data, name, dpi=dpi)).file


def ink_of(data: bytes) -> np.ndarray:
    """Where a sample is dark, on white paper."""
    clear = Image.open(io.BytesIO(data)).convert("RGBA")
    paper = Image.alpha_composite(Image.new("RGBA", clear.size, "white"), clear)
    return np.asarray(paper.convert("L")) < 128


def blobs(seed: int = 7) -> np.ndarray:
    """Random blobs, white round them, so large that none touches the rim."""
    found = skimage.data.binary_blobs(length=160, blob_size_fraction=0.2, volume_fraction=0.3, rng=seed)
    return np.pad(np.kron(found, np.ones((3, 3), dtype=bool)), 40)


def draw(ink: np.ndarray) -> bytes:
    """Ink as a picture, black on white."""
    return encode(np.where(ink, 0, 255).astype(np.uint8))


def letters_of(font: str) -> str:
    """Every character of a font file that is drawn at all and stands in the Basic Latin block or Latin-1."""
    glyphs = TTFont(FONTS / font)
    codes = glyphs.getBestCmap()
    return "".join(chr(code) for code in sorted(codes) if 0x21 <= code <= 0xFF and code not in (0xA0, 0xAD))


def write(letters: Sequence[str], font: str = SERIF, name: str = "letters.svg") -> OutlineFile:
    """Letters of a font side by side, one drawing."""
    opened = TTFont(FONTS / font)
    glyphs, codes = opened.getGlyphSet(), opened.getBestCmap()
    scale = EM_MM / opened["head"].unitsPerEm
    paths = []
    for n, letter in enumerate(letters):
        pen = SVGPathPen(glyphs)
        glyphs[codes[ord(letter)]].draw(pen)
        place = f"translate({20 + BESIDE_MM * n} 80) scale({scale} {-scale})"
        paths.append(f'<path id="letter-{n}" transform="{place}" d="{pen.getCommands()}"/>')
    wide = 100 + BESIDE_MM * len(letters)
    page = f'width="{wide}mm" height="120mm" viewBox="0 0 {wide} 120"'
    drawing = f'<svg xmlns="http://www.w3.org/2000/svg" {page}>{"".join(paths)}</svg>'
    return read_svg(drawing.encode(), name)
