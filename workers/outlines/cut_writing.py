"""Writes mats full as SVG and as DXF, true size in millimetres, the same bytes every time."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from io import StringIO
from typing import Any
from xml.sax.saxutils import escape

import ezdxf

from service.craft.language import phrase, say_number
from service.craft.outlines import Cubic, Line, Outline, Ring, flatten
from workers.outlines.cut_plan import CutSheet, LaidPiece

DRAWINGS: Any = ezdxf
"""The library exports its functions without saying so, which strict typing does not take."""

CUT, MARK = "cut", "mark"
"""The two layers: what the blade follows, and what is only drawn or measured."""

DXF_TOLERANCE_MM = 0.02
"""DXF readers disagree on curves, so there they are chords: a fifth of the width of a blade's cut."""

TEST_SQUARE_MM = 100.0
TEST_SHEET_MM = 120.0


def write_svg(sheet: CutSheet) -> bytes:
    """A mat full as SVG: one unit a millimetre, one group a piece, curves kept, in cutting order."""
    title = phrase(
        "{cloth}, mat {width} x {height} mm, mirrored for the fusible side: "
        "lay the cloth right side down, fusible web up",
        cloth=sheet.fabric.name,
        width=say_number(sheet.mat.width_mm),
        height=say_number(sheet.mat.height_mm),
    )
    return _svg(title, sheet.mat.width_mm, sheet.mat.height_mm, CUT, sheet.pieces)


def write_dxf(sheet: CutSheet) -> bytes:
    """A mat full as DXF (R2000, millimetres, y up): one closed polyline a ring, in cutting order."""
    return _dxf(sheet.mat.width_mm, sheet.mat.height_mm, CUT, sheet.pieces)


def write_test_square() -> tuple[bytes, bytes]:
    """A square of 100 mm alone, as SVG and as DXF: cut or draw it on paper and measure it."""
    low, high = (TEST_SHEET_MM - TEST_SQUARE_MM) / 2, (TEST_SHEET_MM + TEST_SQUARE_MM) / 2
    corners = ((high, low), (high, high), (low, high), (low, low))
    square = LaidPiece(
        phrase("test square, 100 mm"), Outline("square", (Ring((low, low), tuple(map(Line, corners))),))
    )
    title = phrase("test square, 100 mm: cut or draw it on paper and measure it before you cut cloth")
    return (
        _svg(title, TEST_SHEET_MM, TEST_SHEET_MM, MARK, [square]),
        _dxf(TEST_SHEET_MM, TEST_SHEET_MM, MARK, [square]),
    )


def _svg(title: str, width_mm: float, height_mm: float, layer: str, pieces: Sequence[LaidPiece]) -> bytes:
    width, height = _number(width_mm), _number(height_mm)
    groups = "\n".join(
        f'<g id="piece-{n}"><title>{escape(piece.name)}</title><path d="{"".join(map(_path, piece.cuts))}"/></g>'
        for n, piece in enumerate(pieces, start=1)
    )
    return (
        '<?xml version="1.0" encoding="UTF-8"?>\n'
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm"'
        f' viewBox="0 0 {width} {height}">\n<title>{escape(title)}</title>\n'
        f'<g id="{layer}" fill="none" stroke="#000000" stroke-width="0.1">\n{groups}\n</g>\n</svg>\n'
    ).encode()


def _path(ring: Ring) -> str:
    parts = [f"M{_pair(ring.start)}"]
    for segment in ring.segments:
        letter = "C" if isinstance(segment, Cubic) else "L"
        parts.append(letter + " ".join(_pair(point) for point in segment.points))
    return "".join(parts) + "Z"


def _pair(point: tuple[float, float]) -> str:
    return f"{_number(point[0])} {_number(point[1])}"


def _number(value: float) -> str:
    """Micrometres are fine enough, and keep noise of the last digit out of the file."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _dxf(width_mm: float, height_mm: float, layer: str, pieces: Sequence[LaidPiece]) -> bytes:
    with _fixed_dates():
        document = DRAWINGS.new("R2000", units=DRAWINGS.units.MM)
        document.layers.add(layer)
        space = document.modelspace()
        for piece in pieces:
            for ring in piece.cuts:
                points = flatten(ring, tolerance_mm=DXF_TOLERANCE_MM).tolist()
                corners = [(round(x, 4), round(height_mm - y, 4)) for x, y in points]
                space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})
        document.header["$EXTMIN"], document.header["$EXTMAX"] = (0.0, 0.0, 0.0), (width_mm, height_mm, 0.0)
        stream = StringIO()
        document.write(stream)
    return stream.getvalue().encode("ascii")


@contextmanager
def _fixed_dates() -> Iterator[None]:
    """The library stamps date and a random number into every file, unless asked as its own tests do."""
    before = DRAWINGS.options.write_fixed_meta_data_for_testing
    DRAWINGS.options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        DRAWINGS.options.write_fixed_meta_data_for_testing = before
