"""The square of dots that a telephone reads as the address of the release page (QR code, ISO/IEC 18004)."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import groupby

import segno

from service.craft.drawing import Sheet
from service.craft.language import phrase
from service.look.palette import LIGHT

SIDE_MM = 26.0
QUIET = 4
"""Light modules all round, as ISO/IEC 18004 asks for."""

OVERLAP_MM = 0.04
"""Dark modules reach this far into the next ones: no light hair between them on a screen."""

CORRECTION = "m"
"""About 15 % of it may be smudged."""


def draw_release_code(address: str) -> str:
    """The code of an address as SVG, 26 mm wide with the light margin round it; empty for no address."""
    if not address:
        return ""
    rows = [list(row) for row in segno.make_qr(address, error=CORRECTION, boost_error=False).matrix]
    module = SIDE_MM / (len(rows) + 2 * QUIET)
    sheet = Sheet(SIDE_MM, SIDE_MM, title=phrase("Code of the release page: {address}", address=address))
    path = "".join(_trace_bars(row, module, y) for y, row in enumerate(rows))
    sheet.path(path, fill=LIGHT["earth"])
    return sheet.to_svg()


def _trace_bars(row: Sequence[int], module: float, y: int) -> str:
    """The dark modules of a row, each run of them as one bar: the `d` of a path in millimetres."""
    top, path, x = (QUIET + y) * module, "", QUIET
    for dark, run in groupby(row):
        width = len(list(run))
        if dark:
            left, right, bottom = x * module, (x + width) * module + OVERLAP_MM, top + module + OVERLAP_MM
            corners = ((left, top), (right, top), (right, bottom), (left, bottom))
            path += f"M{'L'.join(f'{across:.3f} {down:.3f}' for across, down in corners)}Z"
        x += width
    return path


def shorten_address(address: str) -> str:
    """An address as it is typed.

    >>> shorten_address("https://allotment.example/leeks")
    'allotment.example/leeks'
    """
    return address.removeprefix("https://").rstrip("/")
